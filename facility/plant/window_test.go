package plant

import (
	"math"
	"strconv"
	"testing"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Windows of the horizon show what the whole run shows in those years: production
// and the vessels there are exactly, and what comes of it as far as the older years
// are forgotten. The plant grows, works by day, gains a vessel and shrinks in no year;
// the noise is off.
//
// A year begins with other loads under way in its window than in the whole run, so
// that a few more or fewer lots, of some hundred, become product within it: single
// years differ by up to 10 %, either way. That is no bias: all years but the first,
// each by a window of its own, as `when` asks for them, agree in sum. Vessels in use,
// by which years are judged, agree in each.
func TestWindowShowsTheSameYears(t *testing.T) {
	m := model()
	shift := dayShift(t, &m)
	m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = shift, shift, shift
	m.Years = 8
	m.Feed.Base = 500
	m.Feed.Growth = Compound{Rate: 0.03}
	m.Changes = []Change{{Name: "one more", Date: calendar.Date{Year: 2029, Month: 3, Day: 1}, Vessels: 1}}
	p := plantOf(t, m)
	run := func(m Model) *Record {
		q, err := p.With(m) // with the same tables
		if err != nil {
			t.Fatal(err)
		}
		rec, err := q.Run(t.Context(), random.Key{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		return rec
	}
	whole := run(m)
	window := func(first, years int) []Month {
		rec := run(m.Window(first, years))
		if len(rec.Months) != 12*years || rec.Months[0].Year != m.Start.Year+first {
			t.Fatalf("the window has %d months from %d", len(rec.Months), rec.Months[0].Year)
		}
		return rec.Months
	}
	var byYear []Month // each year by a window of its own
	for first := 1; first < m.Years; first++ {
		byYear = append(byYear, window(first, 1)...)
	}
	const later, years = 5, 2
	twoYears := window(later, years)
	sum := func(months []Month, of func(*Month) float64) float64 { return total(&Record{Months: months}, of) }
	for _, c := range []struct {
		what           string
		of             func(*Month) float64
		each, together float64 // tolerance of a year, and of all by themselves
	}{
		{"dry solids in", func(m *Month) float64 { return m.Feed.Dry }, 1e-9, 1e-9},
		{"vessels installed", func(m *Month) float64 { return m.Vessels.Installed }, 0, 0},
		{"vessels in use", func(m *Month) float64 { return m.Vessels.Mean }, 0.01, 0.005},
		{"chips used", func(m *Month) float64 { return m.Chips.Used }, 0.02, 0.005},
		{"fresh chips used", func(m *Month) float64 { return m.Chips.FreshUsed }, 0.05, 0.02},
		{"product", func(m *Month) float64 { return m.Product.Volume }, 0.1, 0.02},
	} {
		compare := func(years string, got, want, tolerance float64) {
			t.Logf("%s, %s: %.2f, in the whole run %.2f: %+.2f %%", c.what, years, got, want, 100*(got/want-1))
			if !(math.Abs(got-want) <= tolerance*want) {
				t.Errorf("%s, %s: %g, in the whole run %g", c.what, years, got, want)
			}
		}
		for first := 1; first < m.Years; first++ {
			year := whole.Months[12*first : 12*(first+1)]
			compare(strconv.Itoa(year[0].Year), sum(byYear[12*(first-1):12*first], c.of), sum(year, c.of), c.each)
		}
		compare("each year by itself", sum(byYear, c.of), sum(whole.Months[12:], c.of), c.together)
		compare("two years", sum(twoYears, c.of), sum(whole.Months[12*later:12*(later+years)], c.of), c.each)
	}
	if m.Feed.Growth != (Compound{Rate: 0.03}) || m.Changes[0].Hours != nil || m.Years != 8 {
		t.Error("the model of the whole run was altered")
	}
}
