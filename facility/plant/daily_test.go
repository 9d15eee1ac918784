package plant

import (
	"math"
	"testing"

	"loamcast/sim"
	"loamcast/sim/random"
)

// plainModel is a plant that a model in steps of a day can follow: seasons and
// growth, but whole days, no noise, no shifts, no criteria to wait for, and so
// large that a load more or less in a year does not count.
func plainModel() Model {
	m := model()
	m.Years, m.WarmUp = 2, 1
	m.Feed.Base, m.Holding.Capacity = 3000, 15000
	m.Feed.Growth = Compound{Rate: 0.04}
	m.Feed.Month = [12]float64{.9, .9, .93, .95, .96, 1, 1.12, 1.22, 1.22, 1.06, .9, .88}
	m.Feed.CakeSolids = [12]float64{.19, .19, .195, .2, .205, .21, .215, .215, .21, .205, .2, .195}
	m.Active.Criteria, m.Active.Step = nil, 1
	m.Vessels.Turnaround = 2 * sim.Day
	m.Curing.Capacity = 1e5
	m.Product.Capacity = 1e5
	m.Chips.Moisture = [12]float64{.46, .46, .43, .40, .37, .34, .32, .32, .35, .39, .43, .46}
	m.Chips.Capacity, m.Chips.OrderUpTo, m.Chips.Reorder = 1000, 600, 500
	return m
}

// compared are what both models count in a year.
var compared = []struct {
	what   string
	daily  func(*dailyYear) float64
	events func(*Month) float64
}{
	{"cake in, kg dry", func(y *dailyYear) float64 { return y.fed }, func(m *Month) float64 { return m.Feed.Dry }},
	{"cake mixed, kg dry", func(y *dailyYear) float64 { return y.mixed }, func(m *Month) float64 { return m.Mixing.CakeDry }},
	{"cake diverted, kg dry", func(y *dailyYear) float64 { return y.diverted }, func(m *Month) float64 { return m.Holding.DivertedDry }},
	{"chips bought, m3", func(y *dailyYear) float64 { return y.chipsBought }, func(m *Month) float64 { return m.Chips.Bought }},
	{"fresh chips used, m3", func(y *dailyYear) float64 { return y.chipsFresh }, func(m *Month) float64 { return m.Chips.FreshUsed }},
	{"chips recovered, m3", func(y *dailyYear) float64 { return y.chipsRecovered }, func(m *Month) float64 { return m.Chips.Recovered }},
	{"product, m3", func(y *dailyYear) float64 { return y.product }, func(m *Month) float64 { return m.Product.Volume }},
}

// The plant and an independent model in steps of a day agree within 3 % on each
// year's throughput, chips and product, with vessels for all and when a sixth of
// the cake finds none; then also on the solids diverted. They were found to differ
// by 1.1 % at most.
func TestDailyModelAgrees(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	const tolerance = 0.03
	for _, c := range []struct {
		name    string
		vessels int
		short   bool
	}{
		{"ample vessels", 100, false},
		{"short of vessels", 28, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := plainModel()
			m.Vessels.Installed = c.vessels
			rec, daily := mustRun(t, m, random.Key{Seed: 1}), runDaily(t, m)
			for i := range m.Years {
				months := &Record{Months: rec.Months[12*i : 12*i+12]}
				if short := daily[i].diverted > 0.1*daily[i].fed; short != c.short || !short && daily[i].diverted > 0 {
					t.Errorf("year %d: %.0f kg of %.0f are diverted", i+1, daily[i].diverted, daily[i].fed)
				}
				for _, q := range compared {
					events, daily := total(months, q.events), q.daily(&daily[i])
					t.Logf("year %d: %-21s %9.0f, by days %9.0f: %+.2f %%", i+1, q.what, events, daily, 100*(daily-events)/max(events, 1))
					if !(math.Abs(daily-events) <= tolerance*events) {
						t.Errorf("year %d: %s %.0f, by days %.0f", i+1, q.what, events, daily)
					}
				}
			}
		})
	}
}
