package release

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The moment of being dry is found on any curve that falls, steep at first or at the
// end, to what a moisture of 1e-9 is worth (derived: the curves are inverted by hand);
// a load that is dry from the start takes no time, and one that is not dry at the end
// takes all there is.
func TestDry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start, fall := rapid.Float64Range(0.4, 0.7).Draw(t, "start"), rapid.Float64Range(0.01, 0.3).Draw(t, "fall")
		bend := rapid.SampledFrom([]float64{0.2, 0.5, 1, 2, 5}).Draw(t, "bend")
		longest := rapid.Float64Range(1, 2000).Draw(t, "longest")
		moisture := func(h float64) float64 { return start - fall*math.Pow(h/longest, bend) }
		enough := rapid.Float64Range(0.3, 0.7).Draw(t, "enough")
		hours, ok := Dry(moisture, enough, longest)
		switch {
		case enough >= start:
			if !ok || hours != 0 {
				t.Fatalf("dry from the start: after %g h, %v", hours, ok)
			}
		case enough < start-fall-2*closeEnough:
			if ok || hours != longest {
				t.Fatalf("never dry: after %g h of %g, %v", hours, longest, ok)
			}
		case enough > start-fall:
			want := longest * math.Pow((start-enough)/fall, 1/bend)
			if !ok || math.Abs(moisture(hours)-enough) > closeEnough && math.Abs(hours-want) > 1e-6 {
				t.Fatalf("dry after %g h, want %g; %v", hours, want, ok)
			}
		}
	})
}
