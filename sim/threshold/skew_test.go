package threshold

import (
	"math"
	"testing"
)

// By hundredths of a spread, the share of trials that fail is that of the normal
// distribution to within 1e-9 and never falls, also past the points it is reckoned from.
func TestFailing(t *testing.T) {
	most, before := 0.0, 0.0
	for u := -12.0; u < 12; u += 0.01 {
		got := failing(u)
		most = max(most, math.Abs(got-normal(first(bend(u)))))
		if got < before {
			t.Errorf("%g fail at %.2f, where %g do at less", got, u, before)
		}
		before = got
	}
	t.Logf("off by %.1e at the most", most)
	if most > 1e-9 {
		t.Errorf("off by %g", most)
	}
	if none := failing(math.Inf(-1)); none != 0 {
		t.Errorf("%g fail at no load", none)
	}
}

func first(deviate, _ float64) float64 { return deviate }

// By hand: a deviate of one lies ln(1.15)/0.15 spreads above the middle, one of minus one
// farther below it, ln(0.85)/0.15. Four spreads below it lies that of (e⁻⁰·⁶ − 1)/0.15, and
// one more below that by e⁻⁰·⁶ another spread down. The slope is that of differences.
func TestBendByHand(t *testing.T) {
	for _, c := range []struct{ deviate, spreads float64 }{{0, 0}, {1, 0.931746}, {-1, -1.083460}, {-3.007922, -4}, {-3.556734, -5}, {5.480792, 4}, {12.769267, 8}} {
		got := unbend(c.deviate)
		if !(math.Abs(got-c.spreads) < 1e-5) {
			t.Errorf("a deviate of %g lies at %g spreads, by hand %g", c.deviate, got, c.spreads)
		}
		const step = 1e-6
		back, slope := bend(got)
		if by := (first(bend(got+step)) - first(bend(got-step))) / (2 * step); math.Abs(back-c.deviate) > 1e-12 || math.Abs(by-slope) > 1e-6 {
			t.Errorf("a deviate of %g came back as %g, with a slope of %g, by differences %g", c.deviate, back, slope, by)
		}
	}
}
