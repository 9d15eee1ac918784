package plant

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// A change waits for the production of twelve months. Worked out on paper, for a
// plant that makes 2,400 kg dry a day in the mean of its first year, 2027, and
// nothing is drawn:
//
//   - Linear growth of 10 % of that each year. The twelve months that begin d days
//     after the start, and have n days, make 2,400 · (1 + 0.1 · ((d + n/2)/365.25 − ½))
//     a day: those before 1 July 2028 (d = 181, n = 366) 1.0497 times the first year,
//     those before 1 August (d = 212) 1.0581 times, so that 1.05 times is passed on
//     1 August 2028. On the way production itself passes it in early 2028.
//   - Without a warm-up twelve months are recorded on 1 January 2028. With one, which
//     makes what the first day does, 0.95 times, they are on the first day. From then
//     on k days of the first year are among them, and they make 0.95 + 0.1 ·
//     (k/365.25)²/2 times: 0.9586 before 1 June (k = 151), 0.9623 before 1 July (181).
//   - A pulse of 1,500 kg a day from 1 to 30 May 2028 is 45,000 kg, 123.0 kg on each
//     of 366 days, and one of 1,400 kg 114.8: between them lie 120 kg, 5 %.
//   - A season that is 1.4 from January to June, 0.6 from then on, and its mean over
//     the year, evens out: no twelve months are above 1.01 times the first year.
func TestCaseChangeOnProduction(t *testing.T) {
	const base = 2400.0
	growing := func(m *Model) { m.Feed.Growth = Linear{Rate: 0.1} }
	pulse := func(perDay float64) func(*Model) {
		return func(m *Model) {
			m.Feed.Pulses = []Pulse{{From: calendar.Date{Year: 2028, Month: time.May, Day: 1}, Days: 30, PerDay: perDay}}
		}
	}
	on := func(year int, month time.Month) calendar.Date { return calendar.Date{Year: year, Month: month, Day: 1} }
	never := calendar.Date{}
	for _, c := range []struct {
		name  string
		alter func(*Model)
		limit float64 // times base
		want  calendar.Date
	}{
		{"growing", growing, 1.05, on(2028, time.August)},
		{"growing after a warm-up", func(m *Model) { growing(m); m.WarmUp = 1 }, 1.05, on(2028, time.August)},
		{"growing beside feedstocks", func(m *Model) {
			growing(m)
			hauled := m.Cake
			hauled.Name = "hauled-in cake"
			m.Feedstocks = []Feedstock{{Material: hauled, PerDay: repeat12(400), Weekday: m.Feed.Weekday}}
		}, 1.05, on(2028, time.August)},
		{"growing, half of it diverted", func(m *Model) { growing(m); m.Vessels.Installed = 1 }, 1.05, on(2028, time.August)},
		{"too slowly", growing, 1.2, never},
		{"passed from the start", growing, 0.9, on(2028, time.January)},
		{"passed in the warm-up", func(m *Model) { growing(m); m.WarmUp = 1 }, 0.9, on(2027, time.January)},
		{"passed in the second year of warm-up", func(m *Model) { growing(m); m.WarmUp = 2 }, 0.9, on(2026, time.January)},
		{"not yet in the warm-up", func(m *Model) { growing(m); m.WarmUp = 1 }, 0.96, on(2027, time.July)},
		{"a pulse", pulse(1500), 1.05, on(2028, time.June)},
		{"a lesser pulse", pulse(1400), 1.05, never},
		{"a season", func(m *Model) {
			for i := range m.Feed.Month {
				m.Feed.Month[i] = 1.4
				if i >= 6 {
					m.Feed.Month[i] = 0.6
				}
			}
		}, 1.01, never},
	} {
		m := paper()
		m.Years = 2
		c.alter(&m)
		m.Changes = []Change{{Name: "more", Trigger: Trigger{Production: c.limit * base}, Lead: calendar.Span{Months: 2, Days: 14}, Holding: 1, Vessels: 3}}
		rec := mustRun(t, m, caseKey)
		switch {
		case c.want == never:
			if len(rec.Triggered) != 0 {
				t.Errorf("%s: decided %+v, on paper never", c.name, rec.Triggered)
			}
			continue
		case len(rec.Triggered) != 1 || rec.Triggered[0] != (Triggered{"more", c.want}):
			t.Errorf("%s: decided %+v, on paper on %v", c.name, rec.Triggered, c.want)
			continue
		}
		for i := range rec.Months {
			month := &rec.Months[i]
			there := c.want.AddMonths(2).Before(on(month.Year, month.Month).AddMonths(1)) // by its end
			want := float64(m.Vessels.Installed)
			if there {
				want += 3
			}
			if month.Vessels.Installed != want {
				t.Errorf("%s: %g vessels at the end of %d-%d, want %g", c.name, month.Vessels.Installed, month.Year, month.Month, want)
				break
			}
		}
	}
}

// Whatever is made and hauled in, a change on production is decided at the end of the
// first month that ends twelve months with a mean above its limit, by the months of
// the record themselves; and on no day if there is none. Without vessels all cake is
// diverted, which counts as well.
func TestChangeOnProductionByTheRecord(t *testing.T) {
	base := plantOf(t, paper())
	rapid.Check(t, func(t *rapid.T) {
		d := draw{t}
		m := base.Model
		d.supply(&m, []*calendar.Work{calendar.Always()})
		m.Years, m.Vessels.Installed = 3, 0
		limit := d.between("limit", 0.8, 1.3) * m.Feed.Base
		m.Changes = []Change{{Name: "more", Trigger: Trigger{Production: limit}, ProductStore: 1}}
		p, err := base.With(m)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := p.Run(t.Context(), random.Key{Seed: rapid.Uint64().Draw(t, "seed")})
		if err != nil {
			t.Fatal(err)
		}
		var want []Triggered
		for last := calendar.MonthsPerYear; last < len(rec.Months) && want == nil; last++ {
			year, dry, days := rec.Months[last-calendar.MonthsPerYear:last], 0.0, 0.0
			for i := range year {
				dry += year[i].Feed.Dry - year[i].Feed.FeedstockDry
				days += year[i].Days
			}
			off := dry/days/limit - 1
			if math.Abs(off) < 1e-9 {
				return // on the limit: this month or a later one
			}
			if off > 0 {
				want = []Triggered{{"more", m.Start.AddMonths(last)}}
			}
		}
		if !slices.Equal(rec.Triggered, want) {
			t.Fatalf("decided %+v, by the record %+v", rec.Triggered, want)
		}
	})
}

// Two changes that wait for signs of both kinds do not get in each other's way: each
// is decided when it is alone, and once.
func TestSignsOfBothKinds(t *testing.T) {
	m := paper()
	m.Years, m.Vessels.Installed = 2, 1
	m.Feed.Growth = Linear{Rate: 0.1}
	held := Change{Name: "held", Trigger: Trigger{Held: 0.5, For: 2 * sim.Day}, CakeSolids: 0.001}
	made := Change{Name: "made", Trigger: Trigger{Production: 2520}, CakeSolids: 0.001}
	alone := func(c Change) Triggered {
		m.Changes = []Change{c}
		rec, _ := follow(t, m, caseKey)
		if len(rec.Triggered) != 1 {
			t.Fatalf("%s alone: %+v", c.Name, rec.Triggered)
		}
		return rec.Triggered[0]
	}
	first, second := alone(held), alone(made)
	m.Changes = []Change{made, held}
	rec, _ := follow(t, m, caseKey)
	if len(rec.Triggered) != 2 || rec.Triggered[0] != first || rec.Triggered[1] != second {
		t.Errorf("together: %+v, alone %+v and %+v", rec.Triggered, first, second)
	}
}

// A trigger waits for one sign, in full.
func TestTriggersAreValidated(t *testing.T) {
	date := calendar.Date{Year: 2028, Month: time.May, Day: 4}
	for _, c := range []struct {
		name  string
		c     Change
		valid bool
	}{
		{"a date", Change{Date: date}, true},
		{"a share", Change{Trigger: Trigger{Held: 1}}, true},
		{"production", Change{Trigger: Trigger{Production: 500}}, true},
		{"nothing", Change{}, false},
		{"both", Change{Trigger: Trigger{Held: 0.5, Production: 500}}, false},
		{"more than all", Change{Trigger: Trigger{Held: 1.01}}, false},
		{"less than nothing", Change{Trigger: Trigger{Held: -0.5}}, false},
		{"negative production", Change{Trigger: Trigger{Production: -500}, Date: date}, false},
		{"a negative time", Change{Trigger: Trigger{Held: 0.5, For: -1}}, false},
		{"a time for production", Change{Trigger: Trigger{Production: 500, For: sim.Day}}, false},
	} {
		if err := c.c.validate(); (err == nil) != c.valid {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
