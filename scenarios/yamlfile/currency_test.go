package yamlfile

import (
	"strings"
	"testing"

	"loamcast/scenarios/units"
)

// The first amount of a file decides its currency, whatever is asked for first; each
// other currency is one error at its first place, and examples follow the file. Of a
// name that no unit has there is one error too.
func TestOneCurrency(t *testing.T) {
	doc := parse(t, `text: plain
fees: [0.5 /t, 1 EUR/t, £2/t, 3 USD/t, £4/t, £5/t, 6 USD/t]
cost: 7
more: [1 kgg, 2 kgg, 3 kgg, 4 stn]
`)
	m := doc.Root()
	m.Text("text")
	m.Quantity("cost", units.Money)
	m.Quantity("price", units.MoneyPerVolume)
	m.Quantities("more", units.Mass)
	m.Quantities("fees", units.MoneyPerMass)
	if doc.Currency() != "EUR" {
		t.Errorf("the file is in %s", doc.Currency())
	}
	var got []string
	err := doc.Err().(*Problems)
	for _, d := range err.Diagnostics {
		got = append(got, d.Message+"; "+d.Hint)
	}
	want := []string{
		`the file needs the key "price"; add a line such as "price: 12 EUR/yd3"`,
		`fees[3]: "£2/t" is in GBP, but the file's money is EUR since line 2; write it in EUR; a file has one currency, and nothing is converted (and so in 2 more places)`,
		`fees[4]: "3 USD/t" is in USD, but the file's money is EUR since line 2; write it in EUR; a file has one currency, and nothing is converted (and so in 1 more place)`,
		`cost: "7" has no unit, and an amount of money needs one; write an amount of money with its unit, e.g. 7 EUR`,
		`more[1]: no unit is called "kgg"; did you mean kg? (and so in 2 more places)`,
		`more[4]: no unit is called "stn"; write a mass with its unit, e.g. 4 short ton or 4 t`,
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") || err.More != 0 {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if c := parse(t, "a: 0.5 /t\nb: 7 m3\n").Currency(); c != units.USD {
		t.Errorf("a file whose amounts name no currency is in %s", c)
	}
}
