package plant

import (
	"math"
	"testing"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// A window of the horizon shows what the whole run shows in those years: the
// production exactly, and what comes of it as far as the older years are
// forgotten. The plant grows, works by day, gains a vessel before the window and
// shrinks in none of it; the noise is off.
func TestWindowShowsTheSameYears(t *testing.T) {
	m := model()
	shift := dayShift(t, &m)
	m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = shift, shift, shift
	m.Years = 8
	m.Feed.Base = 500
	m.Feed.Growth = Compound{Rate: 0.03}
	m.Changes = []Change{{Name: "one more", Date: calendar.Date{Year: 2029, Month: 3, Day: 1}, Vessels: 1}}
	const first, years = 5, 3
	whole, window := mustRun(t, m, random.Key{Seed: 1}), mustRun(t, m.Window(first, years), random.Key{Seed: 1})
	if len(window.Months) != 12*years || window.Months[0].Year != m.Start.Year+first {
		t.Fatalf("the window has %d months from %d", len(window.Months), window.Months[0].Year)
	}
	part := &Record{Months: whole.Months[12*first : 12*(first+years)]}
	for _, c := range []struct {
		what      string
		of        func(*Month) float64
		tolerance float64
	}{
		{"dry solids in", func(m *Month) float64 { return m.Feed.Dry }, 1e-9},
		{"vessels installed", func(m *Month) float64 { return m.Vessels.Installed }, 0},
		{"vessels in use", func(m *Month) float64 { return m.Vessels.Mean }, 0.01},
		{"chips used", func(m *Month) float64 { return m.Chips.Used }, 0.01},
		{"fresh chips used", func(m *Month) float64 { return m.Chips.FreshUsed }, 0.02},
		{"product", func(m *Month) float64 { return m.Product.Volume }, 0.02},
	} {
		got, want := total(window, c.of), total(part, c.of)
		t.Logf("%-18s %12.2f, in the whole run %12.2f: %+.2f %%", c.what, got, want, 100*(got/want-1))
		if !(math.Abs(got-want) <= c.tolerance*want) {
			t.Errorf("%s: %g, in the whole run %g", c.what, got, want)
		}
	}
	if m.Feed.Growth != (Compound{Rate: 0.03}) || m.Changes[0].Hours != nil || m.Years != 8 {
		t.Error("the model of the whole run was altered")
	}
}
