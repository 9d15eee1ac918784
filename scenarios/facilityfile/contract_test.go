package facilityfile

import (
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

const (
	landfill = "hauling_contract: {most_per_month: 60 short ton, price: 70 USD/short ton, notice: 14 day, call_at: 80 %, down_to: 50 %}\n"
	nearby   = "contract: {most_per_month: 8 t, price: 90 USD/t, notice: 1 month, most_per_day: 4 t}"
)

// Contracts arrive in the model's units, each with its price under its number: a short ton
// is 907.18474 kg, and a twentieth of 60 of them 3; where the file does not say how much a
// day takes it is a truckload of 9,000 kg, since that is more. Of 400 short tons it is 20.
func TestContractsArrive(t *testing.T) {
	const ton = 907.18474
	f := parsePlanning(t, "chips:\n", landfill+"\nchips:\n",
		"    pad: 20 yd3\n", "    pad: 20 yd3\n    "+nearby+"\n",
		"cake_solids: 2 %, cost", "contract: {most_per_month: 400 short ton, price: 30 USD/t, notice: 0 day}, cake_solids: 2 %, cost")
	m, p := &f.Model, &f.Planning
	if want := (plant.Contract{MostPerMonth: 60 * ton, MostPerDay: 9000, Notice: calendar.Span{Days: 14}, CallAt: 0.8, DownTo: 0.5}); m.Contract != want {
		t.Errorf("%+v, want %+v", m.Contract, want)
	}
	if got, want := m.Changes[0].Contract, (plant.Contract{Number: 1, MostPerMonth: 8000, MostPerDay: 4000, Notice: calendar.Span{Months: 1}, CallAt: 0.8, DownTo: 0.5}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	got := p.Options[1].Steps[0].Contract
	near(t, "a day of 400 short tons a month", got.MostPerDay, 20*ton)
	if got.Number != 2 || len(p.Economy.Contracts) != 3 {
		t.Errorf("contract %d of %d", got.Number, len(p.Economy.Contracts))
	}
	for i, want := range []float64{70 / ton, 0.09, 0.03} {
		near(t, "price", p.Economy.Contracts[i], want)
	}
	if parse(t).Model.Contracted() || parsePlanning(t).Planning.Economy.Contracts != nil {
		t.Error("a file without a contract has one")
	}
	for _, w := range f.Warnings {
		if strings.Contains(w.Message, "costs nothing") {
			t.Error(w)
		}
	}
}

// What cannot be, or could not be told apart, is refused with what to write.
func TestContractsRefused(t *testing.T) {
	const entry = `  - {name: taker, contract: {most_per_month: 10 t, price: 70 USD/t, notice: 3 day}`
	for _, c := range []struct{ what, old, text, want string }{
		{"no price", "chips:\n", "hauling_contract: {most_per_month: 60 t, notice: 3 day}\nchips:\n", `hauling_contract has no price, and the file has a section on money`},
		{"a bare number", "chips:\n", "hauling_contract: {most_per_month: 60, price: 70 USD/t, notice: 3 day}\nchips:\n", "most_per_month"},
		{"no notice", "chips:\n", "hauling_contract: {most_per_month: 60 t, price: 70 USD/t}\nchips:\n", "notice"},
		{"nothing", "chips:\n", "hauling_contract: {}\nchips:\n", "most_per_month"},
		{"hauls up", "chips:\n", "hauling_contract: {most_per_month: 60 t, price: 70 USD/t, notice: 3 day, call_at: 40 %}\nchips:\n", "hauling would end at 50 % of the holding, not below the 40 %"},
		{"more a day", "chips:\n", "hauling_contract: {most_per_month: 60 t, most_per_day: 61 t, price: 70 USD/t, notice: 3 day}\nchips:\n", "more than it takes in a month"},
		{"twice the same", "catalogue:\n", "catalogue:\n" + entry + ", most: 2}\n", "the same contract a second time changes nothing"},
		{"two in the catalogue", "catalogue:\n", "catalogue:\n" + entry + "}\n" + strings.Replace(entry, "taker", "other", 1) + "}\n", "the catalogue has another contract already"},
		{"not in order", "changes:\n", "changes:\n  - {name: late, date: 2033-01-01, " + nearby + "}\n  - {name: early, date: 2032-01-01, " + nearby + "}\n", "in the order of their dates"},
		{"a change and the catalogue", "    pad: 20 yd3\n", "    " + nearby + "\n", ""},
	} {
		text := strings.Replace(readPlanning(t), c.old, c.text, 1)
		if c.want == "" {
			text = strings.Replace(text, "catalogue:\n", "catalogue:\n"+entry+"}\n", 1)
			c.want = "the file's own changes bring a contract too"
		}
		_, err := Parse("planning.yaml", []byte(text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.what, err, c.want)
		}
	}
	one := parsePlanning(t, "catalogue:\n", "catalogue:\n"+entry+"}\n")
	if c := one.Planning.Catalogue[0]; !c.Contract.On() || c.OnlyVessels() || c.Most != 1 {
		t.Errorf("%+v", c)
	}
}
