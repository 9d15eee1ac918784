package process

import (
	"math/rand/v2"
	"testing"
	"time"
)

// A load on the pad that is integrated by itself, as far as it is looked at, says at any
// hours, asked for in any order, what it says when it is followed to its end at first, to
// the last bit (expected values from that).
func TestAloneAsFarAsLookedAt(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 9))
	turned := DefaultCuringModel()
	turned.Criteria, turned.Tipped, turned.Turning = nil, &Handling{}, Turning{At: []float64{100, 400}}
	for name, m := range map[string]*Model{"still": still(), "turned": turned} {
		r := NewResponses(m, tableHours)
		r.levels = 0 // none is interpolated
		for range 20 {
			month := time.Month(1 + rng.IntN(12))
			p, start := plantLoad(rng, month), 20+40*rng.Float64()
			whole, err := r.from(p, month, start)
			if err != nil {
				t.Fatal(err)
			}
			parts, _ := r.from(p, month, start)
			whole.at(2 * tableHours)
			if whole.stencil.rest != nil || parts.stencil.rest == nil {
				t.Fatalf("%s: at its end a load is integrated on, or one that is not looked at is not", name)
			}
			for range 6 {
				hours := 1.2 * tableHours * rng.Float64()
				if a, b := *parts.at(hours), *whole.at(hours); a != b {
					t.Fatalf("%s: after %v h %+v in parts, %+v at once", name, hours, a, b)
				}
				if a, b := parts.Temperature(hours), whole.Temperature(hours); a != b {
					t.Fatalf("%s: after %v h %v °C in parts, %v at once", name, hours, a, b)
				}
				parts, _ = r.from(p, month, start)
				if a, b := warmest(&parts, hours), warmest(&whole, hours); a != b {
					t.Fatalf("%s: up to %v h at most %v °C in parts, %v at once", name, hours, a, b)
				}
			}
		}
	}
}

// still is a pad on which lots begin at what they were tipped with and are not turned.
func still() *Model {
	m := DefaultCuringModel()
	m.Criteria, m.Tipped = nil, &Handling{}
	return m
}

// warmest returns what Warmest says of a level that loads on a pad come to at times.
func warmest(s *Response, hours float64) (v [2]float64) {
	v[0], v[1] = s.Warmest(hours, 40)
	return v
}
