package simulate

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// recordOf returns a record of some months, altered one by one from a base, and
// the whole years that they make.
func recordOf(n int, alter func(i int, m *plant.Month)) *plant.Record {
	rec := &plant.Record{}
	from := calendar.Date{Year: 2030, Month: time.January, Day: 1}
	for i := range n {
		date := from.AddMonths(i)
		m := plant.Month{Year: date.Year, Month: date.Month, Days: 30}
		alter(i, &m)
		rec.Months = append(rec.Months, m)
		if i%calendar.MonthsPerYear == 0 {
			rec.Years = append(rec.Years, plant.Year{From: date})
		}
	}
	return rec
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) }

// Use is work over schedule of the whole year, not the mean of the months; its
// peak is that of the busiest month. Overtime is told by itself: it is in neither. A resource of which there are always enough is
// left out. Spreads are over the replications.
func TestResourcesByHand(t *testing.T) {
	with := func(busyInMay float64) *plant.Record {
		return recordOf(24, func(i int, m *plant.Month) {
			m.Use[plant.Mixers] = plant.Use{Scheduled: 200, Busy: 50, Overtime: 3, Down: 1}
			if i == 4 {
				m.Use[plant.Mixers] = plant.Use{Scheduled: 100, Busy: busyInMay, Overtime: 30, Down: 2}
			}
			m.Use[plant.Operators] = plant.Use{Scheduled: 400, Busy: 100}
		})
	}
	resources := tallied(twoYears(), (*tally).resources, usual(with(60), with(80), with(100))...).Resources
	if len(resources) != 2 || resources[0].Name != "mixer" || resources[1].Name != "operator" {
		t.Fatalf("resources: %+v", resources)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"scheduled", resources[0].Years[0].Scheduled.P50, 11*200 + 100},
		{"busy", resources[0].Years[0].Busy.P50, 11*50 + 80},
		{"overtime", resources[0].Years[0].Overtime.P50, 11*3 + 30},
		{"down", resources[0].Years[0].Down.P50, 13},
		{"use", resources[0].Years[0].Use.P50, (11*50 + 80) / 2300.0},
		{"peak use", resources[0].Years[0].PeakUse.P50, 0.8},
		{"peak use, P90", resources[0].Years[0].PeakUse.P90, 0.96},
		{"use of the second year", resources[0].Years[1].Use.Mean, 0.25},
		{"operators", resources[1].Years[0].Use.Mean, 0.25},
	} {
		if !near(c.got, c.want) {
			t.Errorf("%s %g, want %g", c.what, c.got, c.want)
		}
	}
}

// Hours, moves and energies of a year are sums of its months, energies in kJ; the
// air's mean is over all hours, its peak that of the highest month. Without a
// limit the air is not followed.
func TestWorkByHand(t *testing.T) {
	rec := recordOf(12, func(i int, m *plant.Month) {
		m.Work.OperatorHours, m.Work.LoaderHours, m.Vessels.Moves = 10, 6, 4
		m.Work.MachineEnergy, m.Work.BlowerEnergy = 100, 200 // kWh
		m.Air.Volume, m.Air.Peak = 720_000, 1500
		if i == 7 {
			m.Air.Peak, m.Air.HoursOver, m.Product.HoursFull, m.Chips.Biofilter = 2100, 6, 30, 46
		}
	})
	var work Work
	var air *Air
	both := func(t *tally) { t.work(&work, inYear(0)); air = t.air(inYear(0)) }
	tallied(&plant.Plant{Model: plant.Model{Air: plant.Air{Blowers: 2000}}}, both, usual(rec)...)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"operator hours", work.OperatorHours.P50, 120},
		{"loader hours", work.LoaderHours.P50, 72},
		{"moves", work.Moves.P50, 48},
		{"energy of machines", work.MachineEnergy.P50, 1200 * 3600},
		{"energy of blowers", work.BlowerEnergy.P50, 2400 * 3600},
		{"media", work.MediaVolume.P50, 46},
		{"hours of a full store", work.StoreFull.P50, 30},
		{"mean air", air.Mean.P50, 1000},
		{"peak air", air.Peak.P50, 2100},
		{"hours over", air.HoursOver.P50, 6},
	} {
		if !near(c.got, c.want) {
			t.Errorf("%s %g, want %g", c.what, c.got, c.want)
		}
	}
	if tallied(&plant.Plant{}, both, usual(rec)...); air != nil {
		t.Errorf("air is followed without a limit: %+v", air)
	}
}

// A change with a trigger has a share of the replications and the median of its
// dates, the earlier of two; one that never came about has no date; one with a
// date of its own is not listed.
func TestTriggeredByHand(t *testing.T) {
	day := func(year int) calendar.Date { return calendar.Date{Year: year, Month: time.May, Day: 4} }
	held := plant.Trigger{Held: 0.8, For: 30 * sim.Day}
	p := &plant.Plant{Model: plant.Model{Changes: []plant.Change{
		{Name: "pad", Trigger: held}, {Name: "dated", Date: day(2030)}, {Name: "shift", Trigger: held}, {Name: "never", Trigger: plant.Trigger{Production: 9000}},
	}}}
	var records []*plant.Record
	for _, years := range [][2]int{{2036, 2033}, {2031, 0}, {0, 0}, {2034, 2041}, {2033, 0}} { // of pad and shift
		rec := &plant.Record{}
		for i, name := range []string{"pad", "shift"} {
			if years[i] > 0 {
				rec.Triggered = append(rec.Triggered, plant.Triggered{Change: name, Decided: day(years[i])})
			}
		}
		records = append(records, rec)
	}
	want := []Triggered{{"pad", 0.8, day(2033)}, {"shift", 0.4, day(2033)}, {Change: "never"}}
	got := tallied(p, (*tally).triggered, usual(records...)...).Triggered
	if len(got) != len(want) {
		t.Fatalf("got %+v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got %+v, want %+v", got[i], want[i])
		}
	}
}

// Where a trigger adds vessels in some replications only, what is installed is
// what the median one has, and a replication is short by its own number.
func TestVesselsThatATriggerAdds(t *testing.T) {
	with := func(installed, need int) Replication {
		return Replication{
			Usual: &plant.Record{Years: []plant.Year{{Installed: installed}}},
			Free:  &Free{Years: []FreeYear{{Peak: need}}, Peaks: make([]float64, 12)},
		}
	}
	all := []Replication{with(8, 9), with(10, 10), with(10, 8), with(8, 7)}
	p := &plant.Plant{Model: plant.Model{Years: 1}}
	if got := tallied(p, func(t *tally) { t.need(0) }, all...).Years[0].ShortOfVessels; got != 0.25 {
		t.Errorf("%g are short, want 0.25", got)
	}
	installed := func(t *tally) {
		t.median(&t.answer.Years[0].Installed, func(rec *plant.Record) float64 { return float64(rec.Years[0].Installed) })
	}
	if got := tallied(p, installed, all[:3]...).Years[0].Installed; got != 10 {
		t.Errorf("%d vessels, want 10", got)
	}
}

// Waits are means over the replications, by cause, month and year: what waits in
// January of a year is no part of the year before.
func TestWaitsByHand(t *testing.T) {
	with := func(scale float64) *plant.Record {
		return recordOf(24, func(i int, m *plant.Month) {
			m.Waits[plant.NoVessel] = scale * float64(i)
			m.Waits[plant.OffShift] = scale
		})
	}
	for _, w := range tallied(twoYears(), (*tally).waits, usual(with(1), with(3))...).Waits {
		want := [3]float64{}
		switch w.Cause {
		case plant.NoVessel.String():
			want = [3]float64{2 * 66, 2 * (66 + 144), 2 * 12}
		case plant.OffShift.String():
			want = [3]float64{24, 24, 2}
		}
		if got := [3]float64{w.Years[0], w.Years[1], w.Months[12]}; !near(got[0], want[0]) || !near(got[1], want[1]) || !near(got[2], want[2]) {
			t.Errorf("%s: %v of the first year, the second, and its January, want %v", w.Cause, got, want)
		}
	}
}
