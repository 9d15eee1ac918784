package process

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The heat balance is solved in every step, however long and however hot the load
// runs, as long as there is water: the temperature at the end is what the mean of the step says. Loads that
// heat up fast under little air, in the steps of six hours that the table of curing
// courses takes, are where Newton's method alone ran away to temperatures at which
// air boils and masses were no longer numbers.
func TestStepIsSolved(t *testing.T) {
	m := DefaultCuringModel()
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		m := *m
		m.Blower.PerDry = f("air", 0.5, 150)
		table := NewResponses(&m, 20*24)
		month := rapid.SampledFrom([]time.Month{time.January, time.March, time.July}).Draw(t, "month")
		load, _ := table.compose(rapid.Custom(func(t *rapid.T) [dims]float64 {
			f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
			return [dims]float64{f("rise", -2, 1), f("slow", -3, 0), f("wet", -1.6, 0.2), f("coarse", 0.1, 0.8)}
		}).Filter(func(place [dims]float64) bool {
			_, ok := table.compose(place, month)
			return ok
		}).Draw(t, "place of a load that can be composed"), month)
		r := m.start(load, month, math.NaN(), rapid.SampledFrom([]stride{fixed(0.5), fixed(1), fixed(24), tableSteps, slowSteps}).Draw(t, "steps"))
		before, dry := r.temperature, false
		r.advance(20*24, func(s *state) {
			if s.parcel.Water == 0 {
				dry = true // the step was cut short of what it would have evaporated
			}
			if after := 2*s.last.mean - before; !dry && !(math.Abs(s.temperature-after) < 1e-3) {
				t.Fatalf("at %g h: %.4f °C, but the mean of the step gives %.4f °C", s.hours, s.temperature, after)
			}
			if math.IsNaN(s.temperature) {
				t.Fatalf("at %g h: not a number", s.hours)
			}
			before = s.temperature
		})
	})
}
