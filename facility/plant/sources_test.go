package plant

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// twoSources are a north and a south plant, whose weeks are the same each day but
// for the south's Sunday, on which it sends nothing and on other days 7/6.
func twoSources() []Source {
	north := Source{Name: "north", Base: 600, Growth: Compound{}, Month: repeat12(1), Weekday: [7]float64{1, 1, 1, 1, 1, 1, 1}, CakeSolids: repeat12(0.25)}
	south := Source{Name: "south", Base: 200, Growth: Compound{}, Month: repeat12(1), Weekday: [7]float64{0, 1, 1, 1, 1, 1, 1}, CakeSolids: repeat12(0.16)}
	south.Month[time.July-1] = 13 // of a mean of 2
	north.CakeSolids[time.July-1] = 0.20
	return []Source{north, south}
}

// What two sources are together, by hand. Base 600 + 200 = 800. In January the north
// sends 600 and the south 200 × 1/2 = 100 kg dry: 700/800 = 0.875 of the mean; wet
// 600/0.25 + 100/0.16 = 2400 + 625 = 3025 kg, so that the mixed cake has 700/3025 =
// 0.231405 solids. In July the south sends 200 × 13/2 = 1300: 1900/800 = 2.375; wet
// 600/0.20 + 1300/0.16 = 3000 + 8125 = 11125, 0.170787. On Sundays the south sends nothing: 600/800.
func TestSourcesTogetherByHand(t *testing.T) {
	f := Feed{Sources: twoSources()}
	f.Combine()
	july := time.July - 1
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"base", f.Base, 800}, {"growth", f.Growth.Factor(7), 1},
		{"January", f.Month[0], 0.875}, {"July", f.Month[july], 2.375},
		{"cake of January", f.CakeSolids[0], 700.0 / 3025}, {"cake of July", f.CakeSolids[july], 1900.0 / 11125},
		{"Sunday", f.Weekday[0], 0.75}, {"Monday", f.Weekday[1], 0.75 + 0.25*7/6},
	} {
		same(t, c.what, c.got, c.want)
	}

	// Monday 4 January 2027: 600 and 100 × 7/6 kg dry; with pulses 800 kg more at the
	// mixed cake's solids, and with noise on amount and solids 1.2 and 0.5 times.
	monday := calendar.Date{Year: 2027, Month: time.January, Day: 4}
	cake := paper().Cake
	q := f.sent(&cake, monday, 0.01, 1, 1, &calm)
	same(t, "dry of a Monday", q.Dry(), 600+700.0/6)
	same(t, "wet of a Monday", q.Total(), 2400+700.0/6/0.16)
	q = f.sent(&cake, monday, 0.01, 1.2, 0.5, &calm)
	same(t, "dry with noise", q.Dry(), 1.2*(600+700.0/6))
	same(t, "wet with noise", q.Total(), 1.2*(2400+700.0/6/0.16)/0.5)
	f.Pulses = []Pulse{{From: monday, Days: 1, PerDay: 800}}
	q = f.sent(&cake, monday, 0.01, 1, 1, &calm)
	same(t, "wet with a pulse", q.Total(), 2400+700.0/6/0.16+800*3025.0/700)

	// 3 points more: of each source, and the mixed cake follows.
	before := f.Sources[0].CakeSolids
	shared := f.Sources
	f.Thicken(0.03)
	same(t, "thicker cake of January", f.CakeSolids[0], 700/(600/0.28+100/0.19))
	if shared[0].CakeSolids != before {
		t.Error("the sources of another model became thicker")
	}
}

// Where one source grows and the other does not, production grows by the one, its part
// by as much more, and a growth of the whole in place of theirs leaves the parts.
// After 10 years a north that doubles by then sends 1200 against 200, by hand.
func TestPartsOfSourcesShift(t *testing.T) {
	f := Feed{Sources: twoSources()}
	f.Combine()
	if f.PartsShift(20) {
		t.Error("the parts shift although nothing grows")
	}
	f.Sources[0].Growth = Lines{{At: 0, Value: 1}, {At: 1, Value: 1}, {At: 10, Value: 2}}
	f.Combine()
	if !f.PartsShift(20) || f.PartsShift(1) {
		t.Error("the parts are not said to shift after the first year")
	}
	same(t, "growth together", f.Growth.Factor(10), 1400.0/800)
	january := calendar.Date{Year: 2037, Month: time.January, Day: 5} // a Monday
	same(t, "expected", f.Expected(january, 10), 1200+100)

	f.Growth = Compound{} // a growth scenario
	same(t, "expected at the first year's level", f.Expected(january, 10), (1200.0+100)*800/1400)
	cake := paper().Cake
	q := f.sent(&cake, january, 10, 1, 1, &calm)
	same(t, "dry at the first year's level", q.Dry(), (1200+700.0/6)*800/1400)

	f.Level()
	if f.PartsShift(20) || f.Growth.Factor(12) != 1 {
		t.Error("production does not stay level")
	}
}

// A plant whose cake comes from sources that are alike runs as the plant of one, to
// rounding, and a window of a horizon is fed as the horizon.
func TestSourcesAlikeAreOne(t *testing.T) {
	one := paper()
	one.Feed.Noise, one.Feed.SolidsCV = random.AR1Lognormal{CV: 0.2, Correlation: 0.5}, 0.04
	one.Feed.Growth = Compound{Rate: 0.05}
	several := one
	for i, part := range []float64{0.5, 0.3, 0.2} {
		several.Feed.Sources = append(several.Feed.Sources, Source{Name: string(rune('a' + i)), Base: part * one.Feed.Base, Growth: one.Feed.Growth,
			Month: one.Feed.Month, Weekday: one.Feed.Weekday, CakeSolids: one.Feed.CakeSolids})
	}
	several.Feed.Combine()
	want, got := mustRun(t, one, random.Key{Seed: 5}), mustRun(t, several, random.Key{Seed: 5})
	for i := range want.Months {
		a, b := &want.Months[i], &got.Months[i]
		for _, pair := range [][2]float64{{a.Feed.Dry, b.Feed.Dry}, {a.Feed.Wet, b.Feed.Wet}, {a.Mixing.CakeDry, b.Mixing.CakeDry}, {a.Product.Volume, b.Product.Volume}} {
			if math.Abs(pair[0]-pair[1]) > 1e-6*(1+pair[0]) {
				t.Errorf("month %d: %g with sources, %g without", i+1, pair[1], pair[0])
			}
		}
	}
}

// In a year without noise the sources together bring in what they send, wet and dry,
// whatever their seasons, weeks, growths and solids contents: the sum over the days.
func TestSourcesBringWhatTheySend(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := draw{rt}
		m := paper()
		m.Holding.Capacity = 1e9
		m.Feed.Sources = d.sources()
		m.Feed.Combine()
		rec := mustRun(t, m, random.Key{Seed: 1})
		dry, wet := 0.0, 0.0
		for day := range m.Start.DaysUntil(m.Start.AddYears(m.Years)) {
			date := m.Start.AddDays(day)
			for i := range m.Feed.Sources {
				s := &m.Feed.Sources[i]
				kg := s.Base * s.Growth.Factor(atNoon(day)) * s.Month[date.Month-1] / mean(s.Month[:]) * s.Weekday[date.Weekday()] / mean(s.Weekday[:])
				dry += kg
				wet += kg / s.CakeSolids[date.Month-1]
			}
		}
		if got := total(rec, func(m *Month) float64 { return m.Feed.Dry }); math.Abs(got/dry-1) > 1e-9 {
			rt.Errorf("%g kg dry came, %g were sent", got, dry)
		}
		if got := total(rec, func(m *Month) float64 { return m.Feed.Wet }); math.Abs(got/wet-1) > 1e-9 {
			rt.Errorf("%g kg wet came, %g were sent", got, wet)
		}
	})
}

// A window of the horizon is fed as its years of the horizon are.
func TestWindowOfSources(t *testing.T) {
	m := paper()
	m.Years = 6
	m.Feed.Sources = twoSources()
	m.Feed.Sources[0].Growth, m.Feed.Sources[1].Growth = Compound{Rate: 0.2}, Compound{Rate: -0.1}
	m.Feed.Combine()
	w := m.Window(4, 1)
	date := w.Start.AddDays(100)
	if a, b := m.Feed.Expected(date, 4+100/calendar.DaysPerYear), w.Feed.Expected(date, 100/calendar.DaysPerYear); math.Abs(a/b-1) > 1e-3 {
		t.Errorf("%g in the horizon, %g in the window", a, b)
	}
	if m.Feed.Sources[0].Growth != (Compound{Rate: 0.2}) {
		t.Error("the window changed the horizon")
	}
}

// A source that cannot be is refused, with its name.
func TestSourcesAreValidated(t *testing.T) {
	for what, spoil := range map[string]func(*Source){
		"production": func(s *Source) { s.Base = 0 },
		"growth":     func(s *Source) { s.Growth = nil },
		"negative":   func(s *Source) { s.Month[3] = -1 },
		"all zero":   func(s *Source) { s.Weekday = [7]float64{} },
		"cake":       func(s *Source) { s.CakeSolids[2] = 0.7 },
	} {
		m := paper()
		m.Feed.Sources = twoSources()
		m.Feed.Combine()
		spoil(&m.Feed.Sources[1])
		if err := m.Validate(); err == nil || !strings.Contains(err.Error(), "south") || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
}
