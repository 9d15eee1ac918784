package cycleplan

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
)

// What a load gave in the vessel counts on the pad too: water that evaporated and
// that ran off, ammonia and the work of the blower.
func TestPadGoesOnFromTheVessel(t *testing.T) {
	last := process.Sample{Hours: 240, Blower: 5}
	last.Exchange.Vapour, last.Exchange.Leachate, last.Exchange.NH3 = 3, 4, 2
	s := &recycle.Steady{Journey: &recycle.Journey{
		Vessel: &process.Course{Samples: []process.Sample{last}}, Curing: &process.Course{},
	}}
	_, pad := parts(&plant.Model{Active: &process.Model{}, Pile: &process.Model{}}, s)
	got, want := [4]float64{pad.start, pad.water, pad.ammonia, pad.blower}, [4]float64{240, 7, 2, 5}
	if got != want {
		t.Errorf("start, water, ammonia and blower of the pad: %v, want %v", got, want)
	}
}
