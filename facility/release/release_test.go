package release

import (
	"testing"

	"loamcast/facility/process"
)

// says is a course told in numbers; 0 means never.
type says struct{ alone, together []float64 }

func (s says) Alone(i int) (float64, bool) { return s.alone[i], s.alone[i] > 0 }
func (s says) Together(i int) process.Met {
	return process.Met{Hours: s.together[i], OK: s.together[i] > 0}
}

// Shows the rule case by case (derived from the wording of the rule): the last
// criterion of the vessel counts, the first unmet one of vessel and pad decides,
// the longest wait on the pad is kept, and never is a failure.
func TestRule(t *testing.T) {
	v, b := process.InVessel, process.InVesselAndCuring
	for _, c := range []struct {
		name     string
		where    []process.Where
		courses  says
		stay     float64
		inVessel Decision
		due      Decision
	}{
		{"nothing asked", nil, says{}, 10, Decision{}, Decision{}},
		{"last of the vessel", []process.Where{v, v}, says{[]float64{30, 20}, []float64{0, 0}}, 30,
			Decision{Action: Stay, Until: 30}, Decision{}},
		{"never in the vessel", []process.Where{v, v}, says{[]float64{30, 0}, []float64{40, 40}}, 30,
			Decision{Action: Fail, Criterion: 1}, Decision{}},
		{"met at the very hour", []process.Where{b}, says{[]float64{10}, []float64{0}}, 10, Decision{}, Decision{}},
		{"longest wait on the pad", []process.Where{b, b, b}, says{[]float64{0, 90, 5}, []float64{25, 17, 5}}, 10,
			Decision{}, Decision{Pad: 15}},
		{"first unmet, not longest", []process.Where{b, b}, says{[]float64{20, 90}, []float64{0, 0}}, 10,
			Decision{}, Decision{Action: Stay, Until: 20}},
		{"judged again", []process.Where{b, b}, says{[]float64{20, 90}, []float64{0, 0}}, 20,
			Decision{}, Decision{Action: Stay, Criterion: 1, Until: 90}},
		{"neither vessel nor pad", []process.Where{b, b}, says{[]float64{0, 0}, []float64{12, 0}}, 10,
			Decision{}, Decision{Action: Fail, Criterion: 1}},
	} {
		criteria := make([]process.Criterion, len(c.where))
		for i, w := range c.where {
			criteria[i].Where = w
		}
		if d := InVessel(criteria, c.courses); d != c.inVessel {
			t.Errorf("%s: begun: %+v, want %+v", c.name, d, c.inVessel)
		}
		if d := Due(criteria, c.stay, c.courses); d != c.due {
			t.Errorf("%s: due: %+v, want %+v", c.name, d, c.due)
		}
	}
}

// Shows that stability is found to the hour above, and its absence told
// (expected values derived: what is left falls by one an hour).
func TestStable(t *testing.T) {
	left := func(h float64) float64 { return 100 - h }
	if h, ok := Stable(left, 60, 90); !ok || h < 40 || h > 41 {
		t.Errorf("stable %v after %g h, want 40 to 41", ok, h)
	}
	if h, ok := Stable(left, 5, 90); ok || h != 90 {
		t.Errorf("stable %v after %g h, want false at 90", ok, h)
	}
}
