package money

import (
	"math"
	"testing"
)

// yearly makes flows that are paid now and at the end of each year.
func yearly(amounts ...float64) []Flow {
	var out []Flow
	for k, usd := range amounts {
		out = append(out, Flow{Part: Sales, Year: max(0, k-1), At: float64(k), Amount: usd})
	}
	return out
}

// Shows payback of series worked out by hand. In the discounted one 1,000 comes
// back as 400/1.1 + 400/1.21 = 694.21 and the rest, 305.79, within the third
// year's 300.53 and the fourth's 273.21: 3 + 5.26/273.21 = 3.0193.
func TestPayback(t *testing.T) {
	for _, c := range []struct {
		name     string
		flows    []Flow
		discount float64
		want     float64 // NaN: never
	}{
		{"simple", yearly(-1000, 400, 400, 400, 400), 0, 2.5},
		{"discounted", yearly(-1000, 400, 400, 400, 400), 0.10, 3 + (1000-400*(1/1.1+1/1.21+1/1.331))/(400/1.4641)},
		{"to the last cent", yearly(-0.3, 0.1, 0.1, 0.1), 0, 3},
		{"never", yearly(-1000, 400, 400), 0, math.NaN()},
		{"at once", yearly(0, 10), 0, 0},
		{"undone by a replacement, then for good", yearly(-100, 150, -120, 35, 70), 0, 3.5},
		{"undone at the end", yearly(-100, 150, -120), 0, math.NaN()},
		{"received, then paid, then back", yearly(50, -80, 60), 0, 1.5},
	} {
		after, ok := plain(0).Payback(c.flows, 5, c.discount)
		if ok == math.IsNaN(c.want) {
			t.Errorf("%s: paid back %v after %g, want %g", c.name, ok, after, c.want)
		} else if ok {
			near(t, c.name, after, c.want, 1e-9)
		}
	}
}

// Shows a saving judged as the difference of two options: 60,000 USD more for a
// press now, and 12,000 USD less tipping a year for 8 years. Derived: simple
// payback 5 years, and a rate of return at which P/A = 5, 11.815 %.
func TestExtra(t *testing.T) {
	r := plain(0.06)
	r.Escalation = 0.03
	tip := func(usd float64) []Flow {
		var out []Flow
		for year := range 8 {
			out = append(out, Flow{Part: Tipping, Year: year, At: float64(year + 1), Amount: -usd, Escalation: r.Escalation})
		}
		return out
	}
	press := append(tip(8000), Flow{Part: Capital, Amount: -60_000, Escalation: r.Escalation})
	extra := Extra(press, tip(20_000))

	after, ok := r.Payback(extra, 8, 0)
	if !ok {
		t.Fatal("never paid back")
	}
	nearly(t, "payback", after, 5)
	rate, ok := r.InternalRates(extra).Sole()
	if !ok {
		t.Fatal(r.InternalRates(extra).Warning())
	}
	near(t, "rate", rate, 0.11815, 5e-6)
	near(t, "P/A at the rate", SeriesPresentWorth(rate, 8), 5, 1e-9)
	near(t, "worth of the difference", r.PresentWorth(extra), r.PresentWorth(press)-r.PresentWorth(tip(20_000)), 1e-6)
}
