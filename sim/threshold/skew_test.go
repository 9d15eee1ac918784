package threshold

import (
	"math"
	"testing"
)

// Going on in hundredths of a spread, the share of trials that fail is that of the normal
// distribution to within 1e-9 and never falls, also past the points it is reckoned from.
func TestFailing(t *testing.T) {
	most, before := 0.0, 0.0
	for u := -12.0; u < 12; u += 0.01 {
		got := failing(u)
		most = max(most, math.Abs(got-normal(bend(u))))
		if got < before {
			t.Errorf("%g fail at %.2f, where %g do at less", got, u, before)
		}
		before = got
	}
	t.Logf("off by %.1e at the most", most)
	if most > 1e-9 {
		t.Errorf("off by %g", most)
	}
	if none := failing(math.Inf(-1)); none > 1e-10 {
		t.Errorf("%g fail at no load", none)
	}
}

// By hand: a deviate of one lies ln(1.15)/0.15 spreads above the middle, one of minus one
// farther below it, ln(0.85)/0.15, and one of minus seven below all loads.
func TestBendByHand(t *testing.T) {
	for _, c := range []struct{ deviate, spreads float64 }{{0, 0}, {1, 0.931746}, {-1, -1.083460}, {-7, math.Inf(-1)}} {
		got := unbend(c.deviate)
		if !(math.Abs(got-c.spreads) < 1e-6) && got != c.spreads {
			t.Errorf("a deviate of %g lies at %g spreads, by hand %g", c.deviate, got, c.spreads)
		}
		if back := bend(got); c.deviate > -7 && math.Abs(back-c.deviate) > 1e-12 {
			t.Errorf("a deviate of %g came back as %g", c.deviate, back)
		}
	}
}
