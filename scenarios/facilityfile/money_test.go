package facilityfile

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// A file is in the currency of its amounts, and in USD where none names one. What
// is read is the same number in all of them.
func TestCurrencyOfAFile(t *testing.T) {
	text := readPlanning(t)
	plain := parsePlanning(t)
	if plain.Currency != units.USD {
		t.Errorf("the planning file is in %s", plain.Currency)
	}
	for _, code := range []string{"EUR", "GBP", "CAD", "KGS"} {
		f, err := Parse("planning.yaml", []byte(strings.ReplaceAll(text, "USD", code)))
		if err != nil {
			t.Fatalf("%s: %v", code, err)
		}
		if f.Currency != code || !reflect.DeepEqual(f.Planning.Economy, plain.Planning.Economy) {
			t.Errorf("a file in %s is in %s: %+v", code, f.Currency, f.Planning.Economy)
		}
	}
	bare, err := Parse("small.yaml", []byte(readSmall(t)))
	if err != nil {
		t.Fatal(err)
	}
	if bare.Currency != units.USD {
		t.Errorf("a file without money is in %s", bare.Currency)
	}
}

// Warnings speak of money in the file's currency.
func TestWarningsOfMoney(t *testing.T) {
	f := parsePlanning(t, "[95 USD/short ton, 68 USD/short ton, 75 USD/short ton]", "[95 USD/short ton, 98 USD/short ton]")
	text, err := Parse("planning.yaml", []byte(strings.ReplaceAll(strings.Replace(readPlanning(t),
		"[95 USD/short ton, 68 USD/short ton, 75 USD/short ton]", "[95 USD/short ton, 98 USD/short ton]", 1), "USD", "CAD")))
	if err != nil {
		t.Fatal(err)
	}
	told := false
	for i, w := range f.Warnings {
		told = told || strings.Contains(w.Message, "75 USD/short ton")
		if got, want := text.Warnings[i].String(), strings.ReplaceAll(w.String(), "USD", "CAD"); got != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
	}
	if !told || len(f.Warnings) != len(text.Warnings) {
		t.Errorf("warnings %v and %v", f.Warnings, text.Warnings)
	}
}

// One mistake with money is one error, however many lines hold it, at the first of
// them, and says how many more there are; what a message says to write is in the
// file's currency.
func TestOneMistakeWithMoneyIsOneError(t *testing.T) {
	text := readPlanning(t)
	amounts := strings.Count(text, "USD")
	if amounts < 15 {
		t.Fatalf("%d amounts", amounts)
	}
	for _, c := range []struct {
		name  string
		edits []string // old and new, all of old
		want  []string // parts of the one error
	}{
		{"a code that there is not", []string{"USD", "EUX"}, []string{`planning.yaml:41:10: error: chips.price: no unit is called "EUX"`, "did you mean EUR? (and so in ", " more places)"}},
		{"one amount in another currency", []string{"USD", "EUR", "38 EUR/h", "38 USD/h"},
			[]string{`money.labour: "38 USD/h" is in USD, but the file's money is EUR since line 41`, "write it in EUR; a file has one currency, and nothing is converted"}},
		{"two amounts in another currency", []string{"USD", "EUR", "38 EUR/h", "38 USD/h", "900 EUR", "$900"}, []string{"money.labour:", "(and so in 1 more place)"}},
		{"the first amount in another currency", []string{"USD", "EUR", "11 EUR/yd3", "11 GBP/yd3"}, []string{`is in EUR, but the file's money is GBP since line 41`, "write it in GBP", "more places)"}},
		{"a misspelt unit of mass", []string{"short ton", "shrt ton"}, []string{`no unit is called "shrt ton"`, "did you mean short ton? (and so in "}},
		{"an amount without its unit", []string{"USD", "EUR", "900 EUR", "900"}, []string{`money.sampling: "900" has no unit`, "e.g. 900 EUR"}},
		{"a price left out", []string{"USD", "EUR", "  labour: 38 EUR/h\n", ""}, []string{`needs the key "labour"`, "labour: 42 EUR/h"}},
		{"a price out of range", []string{"USD", "EUR", "38 EUR/h", "38,000 EUR/h"}, []string{"38,000 EUR/h", "to 10,000 EUR/h"}},
	} {
		changed := text
		for i := 0; i < len(c.edits); i += 2 {
			if !strings.Contains(changed, c.edits[i]) {
				t.Fatalf("%s: %q is not there", c.name, c.edits[i])
			}
			changed = strings.ReplaceAll(changed, c.edits[i], c.edits[i+1])
		}
		_, err := Parse("planning.yaml", []byte(changed))
		if err == nil {
			t.Errorf("%s is taken", c.name)
			continue
		}
		if n := strings.Count(err.Error(), ": error: "); n != 1 {
			t.Errorf("%s: %d errors:\n%v", c.name, n, err)
		}
		for _, part := range c.want {
			if !strings.Contains(err.Error(), part) {
				t.Errorf("%s: no %q in\n%v", c.name, part, err)
			}
		}
	}
}

// Fiscal years are named as the file says: by their end unless it says otherwise.
func TestFiscalYears(t *testing.T) {
	july := calendar.Date{Year: 2027, Month: time.July, Day: 1}
	for _, c := range []struct {
		group string
		want  FiscalYear
		name  string // of the year from July 2027
	}{
		{"", FiscalYear{}, ""},
		{"fiscal_year: {begins: 07-01}\n", FiscalYear{Begins: time.July}, "FY2028"},
		{"fiscal_year: {begins: 07-01, named: by its end}\n", FiscalYear{Begins: time.July}, "FY2028"},
		{"fiscal_year: {begins: 07-01, named: by its beginning}\n", FiscalYear{Begins: time.July, ByBeginning: true}, "FY2027"},
		{"fiscal_year:\n  begins: 10-01\n", FiscalYear{Begins: time.October}, "FY2028"},
		{"fiscal_year: {begins: 01-01}\n", FiscalYear{Begins: time.January}, ""},
	} {
		got := parsePlanning(t, "\nmoney:\n", "\n"+c.group+"money:\n").Planning.FiscalYear
		if got != c.want || got.Given() != (c.name != "") {
			t.Errorf("%q is %+v", c.group, got)
		}
		if c.name != "" && got.Name(july) != c.name {
			t.Errorf("%q names July 2027 to June 2028 %s, want %s", c.group, got.Name(july), c.name)
		}
	}
}

// A price of carbon arrives in USD/kg with what power and fuel give off in kg/kWh
// and kg/m3, rises as the file says or else with inflation, and has defaults for the
// factors alone; without it nothing is paid.
func TestCarbonArrives(t *testing.T) {
	with := func(group string, more ...string) *File {
		return parsePlanning(t, append([]string{"  tipping: 75 USD", "  carbon: " + group + "\n  tipping: 75 USD"}, more...)...)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12*math.Abs(want) {
			t.Errorf("%s is %.17g, want %.17g", what, got, want)
		}
	}
	p := &with("{price: 60 USD/t, power: 0.25 kg/kWh, fuel: 3.1 kg/L}", "    fuel: 3.3 %/year", "    fuel: 3.3 %/year\n    carbon: 6 %/year").Planning.Economy.Prices
	near("price", p.Carbon.Amount, 0.06)
	near("rise", p.Carbon.Escalation, 0.06)
	near("power", p.CarbonOfPower, 0.25)
	near("fuel", p.CarbonOfFuel, 3100)
	p = &with("{price: 54.4310844 USD/short ton}").Planning.Economy.Prices
	near("price by the short ton", p.Carbon.Amount, 0.06)
	near("rise left out", p.Carbon.Escalation, 0.025)
	near("power left out", p.CarbonOfPower, 0.4)
	near("fuel left out", p.CarbonOfFuel, 2700)
	if p := &parsePlanning(t).Planning.Economy.Prices; p.Carbon.Amount != 0 || p.CarbonOfPower != 0 || p.CarbonOfFuel != 0 {
		t.Errorf("without the group carbon costs %+v", p.Carbon)
	}
}
