package question_test

import (
	"testing"
	"time"

	"loamcast/scenarios/question"
	"loamcast/scenarios/units"
)

var options = []question.Option{
	{Name: "years", Kind: question.Integer, Default: "2", Low: 1, High: 30},
	{Name: "chance", Kind: question.Quantity, Dim: units.Fraction, Default: "5 %", Low: 0, High: 1, Open: true},
	{Name: "budget", Kind: question.Quantity, Dim: units.Money, Low: 0, High: 1e9},
	{Name: "month", Kind: question.Month},
	{Name: "months", Kind: question.Months},
	{Name: "quick", Kind: question.Switch, Default: "false"},
}

// What is not written has its default, and is told apart from what is written
// the same.
func TestDefaults(t *testing.T) {
	v, err := question.Read(options, map[string]string{"quick": "false"})
	if err != nil {
		t.Fatal(err)
	}
	if v.Int("years") != 2 || v.Number("chance") != 0.05 || v.Number("budget") != 0 || v.On("quick") || v.Months("months") != nil {
		t.Errorf("%+v", v)
	}
	if v.Given("years") || !v.Given("quick") {
		t.Error("what was written is not told apart from what was not")
	}
}

// Bounds belong to what may be written, except open ones.
func TestBounds(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       float64
		refused    bool
	}{
		{"years", "1", 1, false},
		{"years", "30", 30, false},
		{"years", "0", 0, true},
		{"years", "31", 0, true},
		{"years", "2.5", 0, true},
		{"chance", "0.1 %", 0.001, false},
		{"chance", "0 %", 0, true},
		{"chance", "100 %", 0, true},
		{"budget", "0 USD", 0, false},
		{"budget", "2,000,000,000 USD", 0, true},
		{"quick", "perhaps", 0, true},
	} {
		v, err := question.Read(options, map[string]string{c.name: c.text})
		switch {
		case c.refused && err == nil:
			t.Errorf("%s %s is taken for %g", c.name, c.text, v.Number(c.name))
		case !c.refused && (err != nil || v.Number(c.name) != c.want):
			t.Errorf("%s %s is %g (%v), want %g", c.name, c.text, v.Number(c.name), err, c.want)
		}
	}
}

// A month is named by three letters or more, or by its number; two letters could
// be two months.
func TestMonths(t *testing.T) {
	for text, want := range map[string]time.Month{"7": 7, "jul": 7, "July": 7, "jun": 6, "ju": 0, "0": 0, "13": 0, "julio": 0} {
		if m, ok := question.MonthNamed(text); m != want || ok != (want != 0) {
			t.Errorf("%q is %v (%t), want %v", text, m, ok, want)
		}
	}
	v, err := question.Read(options, map[string]string{"month": "dec", "months": "All"})
	if err != nil {
		t.Fatal(err)
	}
	if v.Month("month") != time.December {
		t.Errorf("dec is %v", v.Month("month"))
	}
	if all := v.Months("months"); len(all) != 12 || all[0] != time.January || all[11] != time.December {
		t.Errorf("all months are %v", all)
	}
}
