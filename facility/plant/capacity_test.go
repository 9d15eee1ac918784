package plant

import (
	"math"
	"testing"

	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/random"
)

// ampleModel is a plant with far more of everything than the feed of demand can fill, so
// that a test can make one stage short.
func ampleModel() Model {
	m := model()
	m.Active.Program = []process.Segment{{Name: "hold", Hours: 240, Setpoint: 58, MinFlow: 4}}
	m.Active.Criteria = nil
	m.Active.Site.Temperature = repeat12(15)
	m.Years, m.WarmUp = 3, 1
	m.Feed.Base = 4000
	m.Holding = Holding{Capacity: 20000, StartWith: 1}
	m.Vessels = Vessels{Installed: 60, Volume: 31, Payload: 18144,
		Residence: 10 * sim.Day, Minimum: 8 * sim.Day, Maximum: 15 * sim.Day,
		Turnaround: 1 * sim.Day, PartFilled: 30 * sim.Day, Hours: m.Vessels.Hours}
	m.Curing = Curing{Capacity: 1e5, Time: 15 * sim.Day, Longest: 30 * sim.Day, ReadilyLeft: 1}
	m.Chips.Capacity, m.Chips.OrderUpTo, m.Chips.Reorder, m.Chips.LeadTime = 3000, 3000, 2000, 3*sim.Day
	m.Product = Product{Capacity: 2000, Demand: repeat12(1000)}
	return m
}

// A plant that is offered more than it can take, and short of one thing only,
// carries what the arithmetic says that this thing sustains.
func TestShortStageCarriesItsCapacity(t *testing.T) {
	base := plantOf(t, ampleModel())
	shift := dayShift(t, &base.Model)
	onShift := func(m *Model) { m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = shift, shift, shift }
	haul := func(m *Model) { m.Yard.Move = 30 * sim.Minute }
	for _, c := range []struct {
		name  string
		stage Stage
		short func(*Model)
	}{
		{"vessels", AtVessels, func(m *Model) { m.Vessels.Installed = 12 }},
		{"vessels, day shift", AtVessels, func(m *Model) { onShift(m); haul(m); m.Vessels.Installed = 12 }},
		{"mixer", AtMixer, func(m *Model) { m.Mixer.BatchTime = 4 * sim.Hour }},
		{"mixer, day shift", AtMixer, func(m *Model) { onShift(m); m.Mixer.BatchTime = 68 * sim.Minute }},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := base.Model
			c.short(&m)
			p, err := base.With(m)
			if err != nil {
				t.Fatal(err)
			}
			rec, err := p.Run(t.Context(), random.Key{Seed: 1})
			if err != nil {
				t.Fatal(err)
			}
			carried := total(rec, func(m *Month) float64 { return m.MixedDry }) / total(rec, func(m *Month) float64 { return m.DaysInMonth })
			for _, s := range p.Capacities(0, NeedsOf(rec.Months)) {
				t.Logf("%-16s %8.0f", s.Stage, s.CakeDry)
				if s.Stage != c.stage {
					continue
				}
				t.Logf("carried %.0f, capacity %.0f: %+.1f %%", carried, s.CakeDry, 100*(carried/s.CakeDry-1))
				if math.Abs(carried/s.CakeDry-1) > 0.05 {
					t.Errorf("off")
				}
			}
			t.Log(total(rec, func(m *Month) float64 { return m.MixedDry })/total(rec, func(m *Month) float64 { return m.Loads }), p.StaticNeed(0).LoadCakeDry,  total(rec, func(m *Month) float64 { return m.Batches })/total(rec, func(m *Month) float64 { return m.Loads }))
		})
	}
}
