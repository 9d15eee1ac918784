package simulate

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// demo returns the plant of the demo with one dated change more.
func demo(t *testing.T, change plant.Change) *plant.Plant {
	t.Helper()
	f, err := facilityfile.Parse(examples.Demo, examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Start = calendar.Date{Year: 2030, Month: time.January, Day: 1}
	f.Model.Vessels.Early = false // so that vessels sustain in proportion
	f.Model.Changes = append(f.Model.Changes, change)
	p, err := plant.New(f.Model)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What arrives and is carried are means over days, and the highest month's; what
// the stages sustain is the plant's own arithmetic on the year's last day, the
// tightest first, with the headroom over what arrives.
func TestCapacitiesByYear(t *testing.T) {
	p := demo(t, plant.Change{Name: "more", Date: calendar.Date{Year: 2031, Month: time.December, Day: 31}, Vessels: 40})
	rec := recordOf(24, func(i int, m *plant.Month) {
		m.Feed.Dry, m.Mixing.CakeDry = 30*600, 30*500
		if i%calendar.MonthsPerYear == 5 {
			m.Feed.Dry, m.Mixing.CakeDry = 30*900, 30*700
		}
		m.Mixing.Wet, m.Mixing.Volume = m.Mixing.CakeDry*18, m.Mixing.CakeDry*0.03
	})
	p.Years = 2
	years := tallied(p, (*tally).capacities, usual(rec)...).Capacities
	sustained := func(y CapacityYear, name string) float64 {
		for _, s := range y.Stages {
			if s.Name == name {
				return s.Sustains
			}
		}
		t.Fatalf("%s: %s is left out", y.Label, name)
		return 0
	}
	for i, y := range years {
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"arrived", y.Arrived.P50, 625}, {"arrived in June", y.ArrivedPeak.P50, 900},
			{"carried", y.Carried.P50, 500 + 200.0/12}, {"carried in June", y.CarriedPeak.P50, 700},
		} {
			if !near(c.got, c.want) {
				t.Errorf("%s: %s %g kg/day, want %g", y.Label, c.what, c.got, c.want)
			}
		}
		if !slices.IsSortedFunc(y.Stages, func(a, b Stage) int { return cmp.Compare(a.Sustains, b.Sustains) }) {
			t.Errorf("%s: the tightest stage is not the first: %+v", y.Label, y.Stages)
		}
		lastDay := calendar.Date{Year: 2030 + i, Month: time.December, Day: 31}
		own := p.Capacities(lastDay, plant.NeedsOf(rec.Months[12*i:12*i+12]))
		if len(own) != len(y.Stages) || len(own) == 0 {
			t.Fatalf("%s: %d stages, the plant has %d", y.Label, len(y.Stages), len(own))
		}
		for _, c := range own {
			if got := sustained(y, c.Stage.String()); got != c.CakeDry {
				t.Errorf("%s: %v sustains %g kg/day, by the plant %g", y.Label, c.Stage, got, c.CakeDry)
			}
		}
		for _, s := range y.Stages {
			if !near(s.Headroom, s.Sustains/625-1) {
				t.Errorf("%s: headroom of %s %g", y.Label, s.Name, s.Headroom)
			}
		}
	}
	before, after := sustained(years[0], "vessels"), sustained(years[1], "vessels")
	if installed := float64(p.Vessels.Installed); !near(after/before, (installed+40)/installed) {
		t.Errorf("40 vessels more make %g times as much of %g", after/before, installed)
	}
}
