package recycle

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

func twelve(v float64) (out [12]float64) {
	for i := range out {
		out[i] = v
	}
	return out
}

// constant returns a plant with constant inputs that never closes and lacks
// nothing. The values are invented.
func constant() plant.Model {
	always := calendar.Always()
	m := plant.Model{
		Start:  calendar.Date{Year: 2027, Month: 1, Day: 1},
		Years:  1,
		WarmUp: 3,
		Feed: plant.Feed{
			Base: 1200, Growth: plant.Compound{}, Month: twelve(1), Weekday: [7]float64{1, 1, 1, 1, 1, 1, 1},
			CakeSolids: twelve(0.20),
		},
		Cake: material.Spec{Name: "cake", Moisture: 0.8, Volatile: 0.75, Readily: 0.52, Slowly: 0.08,
			Nitrogen: 0.046, BulkDensity: 1000},
		Holding: plant.Holding{Capacity: 5000, StartWith: 1},
		Recipe:  plant.Recipe{ChipsPerCake: 2.5},
		Mixer:   plant.Mixer{Volume: 70, Scale: 54000, BatchTime: 5 * sim.Minute, Hours: always},
		Chips: plant.Chips{
			Fresh: material.Spec{Name: "chips", Moisture: 0.38, Volatile: 0.98, Slowly: 0.22, Nitrogen: 0.0015,
				Coarse: 0.96, BulkDensity: 300},
			Moisture: twelve(0.38),
			Capacity: 3200, Reorder: 1000, OrderUpTo: 3000, Truckload: 69, LeadTime: sim.Day,
		},
		Vessels: plant.Vessels{Installed: 60, Volume: 31, Payload: 18144,
			Residence: 18 * sim.Day, Minimum: 15 * sim.Day, Maximum: 28 * sim.Day,
			Turnaround: 36 * sim.Hour, PartFilled: 6 * sim.Day, Hours: always},
		Curing:    plant.Curing{Capacity: 9000, Time: 45 * sim.Day, Longest: 90 * sim.Day, ReadilyLeft: 1},
		Screening: plant.Screening{Settings: screening.DefaultSettings(0.0095), Hours: always},
		Product:   plant.Product{Capacity: 12000, Demand: twelve(2000)},
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
	m.Active.Bulk, m.Pile.Bulk = m.Bulk, m.Bulk
	for _, c := range []*process.Model{m.Active, m.Pile} {
		c.Site.Temperature = twelve(12)
		c.Site.Humidity = twelve(0.7)
	}
	return m
}

// Shows that, on constant inputs and without waiting, a run and the steady loop
// have one load, one stay, one moisture at the screen and one destruction of volatile
// solids when both read courses
// from the response table: mix, filling, chips and screen are the same in both.
// What is left between `run` and `cycle` is then the table against the integration
// (derived). The run's loads are full to the payload and not past it. They find now
// and then no lot's chips, or two lots', on the pile: hence 3e-5 and not rounding.
// Where air comes in by its path, a load with wetter chips dries less itself and
// gives back wetter ones, so that these loads move the mean further: hence 5e-4.
func TestRunAgreesWithSteadyLoop(t *testing.T) {
	t.Run("air everywhere", func(t *testing.T) { agree(t, constant(), 3e-5) })
	t.Run("air by its path", func(t *testing.T) { agree(t, structured(3.2), 5e-4) })
}

// agree compares run and loop of a model.
func agree(t *testing.T, m plant.Model, within float64) {
	rec := ran(t, m)
	var sum plant.Month
	for i := range rec.Months {
		x := &rec.Months[i]
		sum.Loads.Filled += x.Loads.Filled
		sum.Loads.Wet += x.Loads.Wet
		sum.Loads.Moisture += x.Loads.Moisture
		sum.Release.Loads += x.Release.Loads
		sum.Release.Moisture += x.Release.Moisture
		sum.Screen.Lots += x.Screen.Lots
		sum.Screen.Moisture += x.Screen.Moisture
		sum.Loads.CakeVolatile += x.Loads.CakeVolatile
		sum.Loads.Volatile += x.Loads.Volatile
		sum.Losses.OxidisedCake += x.Losses.OxidisedCake
		sum.Losses.Oxidised += x.Losses.Oxidised
		sum.Chips.Used += x.Chips.Used
		sum.Chips.FreshUsed += x.Chips.FreshUsed
		sum.Screen.CoarseRecovered += x.Screen.CoarseRecovered
		sum.Screen.CoarseFed += x.Screen.CoarseFed
	}

	l := New(&m, time.January) // all months are alike
	vessel := process.NewResponses(m.Active, m.Vessels.Maximum.Hours())
	pad := process.NewResponses(m.Pile, m.Curing.Longest.Hours())
	along := func(r *process.Responses, p material.Parcel, hours float64) material.Parcel {
		var course process.Response
		if err := r.Of(&course, &p, l.Month); err != nil {
			t.Fatal(err)
		}
		course.Apply(&p, 0, hours)
		return p
	}
	var out material.Parcel   // of the vessel
	var whole, ofCake float64 // volatile solids destroyed, of those loaded
	steady, err := screening.SteadyRecycle(screening.Cycle{
		Mix: l.charge(l.Cake(), AsRun(&m, l.Month)),
		Process: func(batch material.Parcel) material.Parcel {
			full := l.Full(batch)
			cake := l.Cake().Times(full).Fine
			had := cake.Volatile()
			load := batch.Times(full)
			out = along(vessel, load, l.Stay)
			cured := along(pad, out, m.Curing.Time.Hours())
			whole = 1 - cured.Volatile()/load.Volatile()
			ofCake = (cake.DecayAs(&load.Fine, &out.Fine, &m.Chemistry) + cake.DecayAs(&out.Fine, &cured.Fine, &m.Chemistry)) / had
			return cured.Times(1 / full)
		},
		Screen: m.Screening.Settings,
	})
	if err != nil {
		t.Fatal(err)
	}

	fresh := m.Bulk.Volume(steady.Fresh) / m.Recipe.ChipsPerCake
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"wet mass of a load, kg", sum.Loads.Wet / float64(sum.Loads.Filled), m.Vessels.Payload},
		{"moisture of a load", sum.Loads.Moisture / float64(sum.Loads.Filled), steady.Batch.Moisture()},
		{"moisture out of the vessel", sum.Release.Moisture / float64(sum.Release.Loads), out.Moisture()},
		{"moisture at the screen", sum.Screen.Moisture / float64(sum.Screen.Lots), steady.Processed.Moisture()},
		{"fresh share of the chips", sum.Chips.FreshUsed / sum.Chips.Used, fresh},
		{"share of the coarse recovered", sum.Screen.CoarseRecovered / sum.Screen.CoarseFed, steady.Split.CoarseRecovery()},
	} {
		t.Logf("%s: %.9g in the run, %.9g in the loop", c.what, c.got, c.want)
		if !(math.Abs(c.got-c.want) <= within*c.want) {
			t.Errorf("%s: %.9g in the run, %.9g in the steady loop", c.what, c.got, c.want)
		}
	}
	// What is lost in a month is not of the very loads that are filled in it.
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"volatile solids destroyed", sum.Losses.Oxidised / sum.Loads.Volatile, whole},
		{"volatile solids of cake destroyed", sum.Losses.OxidisedCake / sum.Loads.CakeVolatile, ofCake},
	} {
		t.Logf("%s: %.5g in the run, %.5g in the loop", c.what, c.got, c.want)
		if !(math.Abs(c.got-c.want) <= 0.01*c.want) {
			t.Errorf("%s: %.5g in the run, %.5g in the steady loop", c.what, c.got, c.want)
		}
	}
}
