package plant

import (
	"context"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// model returns a plausible plant with constant inputs and no calendar. The
// values are invented.
func model() Model {
	always := calendar.Always()
	m := Model{
		Start:  calendar.Date{Year: 2027, Month: 1, Day: 1},
		Years:  2,
		WarmUp: 1,
		Feed: Feed{
			Base:       600,
			Growth:     Compound{},
			Month:      repeat12(1),
			Weekday:    [7]float64{1, 1, 1, 1, 1, 1, 1},
			CakeSolids: repeat12(0.20),
		},
		Cake: material.Spec{Name: "cake", Moisture: 0.8, Volatile: 0.75, Readily: 0.52, Slowly: 0.08,
			Nitrogen: 0.046, BulkDensity: 1000},
		Holding: Holding{Capacity: 5000, StartWith: 1},
		Recipe:  Recipe{ChipsPerCake: 2.5},
		Mixer:   Mixer{Volume: 7.6, Scale: 5400, BatchTime: 5 * sim.Minute, Hours: always},
		Chips: Chips{
			Fresh: material.Spec{Name: "chips", Moisture: 0.38, Volatile: 0.98, Slowly: 0.22, Nitrogen: 0.0015,
				Coarse: 0.96, BulkDensity: 300},
			Moisture: repeat12(0.38),
			Capacity: 320, Reorder: 100, OrderUpTo: 300, Truckload: 69, LeadTime: 6 * sim.Day,
		},
		Vessels: Vessels{Installed: 8, Volume: 31, Payload: 18144,
			Residence: 18 * sim.Day, Minimum: 15 * sim.Day, Maximum: 28 * sim.Day,
			Turnaround: 36 * sim.Hour, PartFilled: 6 * sim.Day, Hours: always},
		Curing:    Curing{Capacity: 900, Time: 45 * sim.Day, Longest: 90 * sim.Day, ReadilyLeft: 1},
		Screening: Screening{Settings: screening.DefaultSettings(0.0095), Hours: always},
		Product:   Product{Capacity: 1200, Demand: repeat12(20)},
		Bulk:      material.DefaultBulk(),
		Chemistry: material.DefaultChemistry(),
		Active:    process.DefaultVesselModel(),
		Pile:      process.DefaultCuringModel(),
	}
	m.Active.Program = []process.Segment{
		{Name: "heat up and hold", Hours: 8 * 24, Setpoint: 62, MinFlow: 2},
		{Name: "hold", Hours: 11 * 24, Setpoint: 50, MinFlow: 2},
		{Name: "dry and cool", Hours: 9 * 24, Setpoint: 40, MinFlow: 20},
	}
	m.Bulk.CoarseDry = m.Chips.Fresh.DryBulkDensity() * m.Chips.Fresh.Coarse
	return m
}

func repeat12(v float64) (out [12]float64) {
	for i := range out {
		out[i] = v
	}
	return out
}

// plantOf makes a plant of a model.
func plantOf(t testing.TB, m Model) *Plant {
	t.Helper()
	p, err := New(m)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// mustRun runs one replication of a model.
func mustRun(t testing.TB, m Model, key random.Key) *Record {
	t.Helper()
	rec, err := plantOf(t, m).Run(context.Background(), key)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

// total sums one field over all reported months.
func total(rec *Record, of func(*Month) float64) float64 {
	sum := 0.0
	for i := range rec.Months {
		sum += of(&rec.Months[i])
	}
	return sum
}

// everyDay has the same shifts on all seven days.
func everyDay(shifts ...calendar.Shift) calendar.Week {
	return calendar.Week{shifts, shifts, shifts, shifts, shifts, shifts, shifts}
}

// weekdays has the same shifts from Monday to Friday and none at the weekend.
func weekdays(shifts ...calendar.Shift) calendar.Week {
	w := everyDay(shifts...)
	w[time.Saturday], w[time.Sunday] = nil, nil
	return w
}
