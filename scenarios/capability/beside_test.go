package capability

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/sim/stats"
	"loamcast/sim/threshold"
)

// How far off a move may be is what it is off by in many repeats: pairs of ramps whose
// years are strained as a known curve has it, with chance of which a part is the same in
// both, tell a move of a tenth. In nine tenths of the repeats, or nearly so with eight
// ramps, it lies within 1.895 times what is told (Student's t, seven degrees), and among the middle nine tenths of the
// curves that are as likely. A second variant, which meets the same chances, is off as
// the first is, by the repeats and by the curves.
func TestHowFarOffAMoveMayBe(t *testing.T) {
	const moved, spread, chance, common = 0.1, 0.05, 0.35, 0.7
	strained := func(at float64) float64 { return 1.5 * (1 + math.Tanh(at/spread)) }
	timer := &timer{middle: 1, spread: spread}
	for at := -1.0; at <= 1; at += 0.001 {
		timer.response = append(timer.response, lost{at, strained(at)})
	}
	curve := &threshold.Curve{Within: spread}
	found := &Capability{Curve: curve, Likely: make([]*threshold.Curve, Resamples+1)}
	for i := range found.Likely {
		found.Likely[i] = curve
	}
	const sets = 400
	half := (rampHigh - rampLow) / 2 * spread
	within, among, actual, told, alike := 0, 0, 0.0, 0.0, 0.0
	var offs [2][]float64
	for set := range sets {
		r := rand.New(rand.NewPCG(5, uint64(set)))
		own, other, second := &attempt{}, &attempt{expected: moved}, &attempt{expected: 2 * moved}
		for range beside {
			var a, b, c []lost
			unit := spread / 2 * r.NormFloat64()
			for year := range rampYears {
				at := spread * (rampLow + (rampHigh-rampLow)*float64(year)/(rampYears-1))
				shared := math.Sqrt(common) * r.NormFloat64()
				of := func() float64 {
					return max(0, strained(at-unit)+chance*(shared+math.Sqrt(1-common)*r.NormFloat64()))
				}
				a, b, c = append(a, lost{at, of()}), append(b, lost{at + moved, of()}), append(c, lost{at + 2*moved, of()})
			}
			own.years, other.years, second.years = append(own.years, a), append(other.years, b), append(second.years, c)
		}
		for _, a := range []*attempt{own, other, second} {
			a.times = a.expected + timer.times(slices.Concat(a.years...), a.expected, half)
		}
		off, by := floats.Norm(timer.apart(own, other), 2), other.times-own.times-moved
		actual, told = actual+by*by/sets, told+off*off/sets
		if math.Abs(by) < 1.895*off {
			within++
		}
		found.own = own
		means, seconds := meansOf(timer.likely(found, other)), meansOf(timer.likely(found, second))
		offs[0], offs[1] = append(offs[0], by), append(offs[1], second.times-own.times-2*moved)
		alike += stat.Correlation(means, seconds, nil) / sets
		if stats.Quantile(means, 0.05) < moved && moved < stats.Quantile(means, 0.95) {
			among++
		}
	}
	t.Logf("off by %.5f, told %.5f; within it in %d, among the likely in %d of %d", math.Sqrt(actual), math.Sqrt(told), within, among, sets)
	if ratio := math.Sqrt(told / actual); ratio < 0.85 || ratio > 1.2 {
		t.Errorf("%.5f is told, and it is off by %.5f", math.Sqrt(told), math.Sqrt(actual))
	}
	if within < 0.84*sets || among < 0.84*sets {
		t.Errorf("ranges of 90 %% hold in %d and %d of %d", within, among, sets)
	}
	together := stat.Correlation(offs[0], offs[1], nil)
	t.Logf("two variants are off together by a correlation of %.2f, by the likely %.2f", together, alike)
	if math.Abs(together-alike) > 0.12 || alike < 0.3 {
		t.Errorf("two variants are off together by a correlation of %.2f, by the likely %.2f", together, alike)
	}
}

// meansOf are those of the logarithm of what some curves have half of the years bear.
func meansOf(curves []*threshold.Curve) (out []float64) {
	for _, c := range curves {
		out = append(out, c.Mean)
	}
	return out
}

// Ramps tell what a variant carries if it lies near where they were laid, or where the plant
// itself lies in the same replications; where next to all of their years are missed, or none
// is, they tell nothing, however the plant fares. A ramp spans 2.4 spreads, so that half of it
// is 0.06, by half of which they may be off, and by three quarters they tell something.
func TestRampsAreJudgedByTheirLuck(t *testing.T) {
	timer := &timer{spread: 0.05}
	for _, c := range []struct {
		by, luck, off float64
		done, lost    bool
	}{
		{0.02, 0, 0.02, true, false},
		{-0.04, -0.02, -0.02, true, false},
		{-0.04, 0, -0.04, false, false},
		{-0.04, 0.02, -0.06, false, false},
		{0.02, -0.03, 0.05, true, false}, // it lies where it was laid
		{-0.06, -0.05, -0.06, false, true},
		{0.06, 0, 0.06, false, true},
	} {
		a := &attempt{}
		if off := timer.judge(a, c.by, c.luck); math.Abs(off-c.off) > 1e-9 || a.done != c.done || a.lost != c.lost {
			t.Errorf("%g with luck %g: off by %g, done %v, lost %v; want %+v", c.by, c.luck, off, a.done, a.lost, c)
		}
	}
}
