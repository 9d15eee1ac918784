package threshold_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"

	"loamcast/sim/threshold"
)

// at is the logarithm of the threshold for which a standard normal deviate stands, of a
// middle and a spread.
func at(deviate, middle, spread float64) float64 {
	const skew = 0.15
	return middle + spread*math.Log(1+skew*deviate)/skew
}

// invented makes trials of units whose thresholds are known: the logarithm of their middle,
// and the spread between units and within them.
func invented(r *rand.Rand, units int, loads []float64, middle, between, within float64) [][]threshold.Trial {
	spread := math.Hypot(between, within)
	out := make([][]threshold.Trial, units)
	for i := range out {
		of := between * r.NormFloat64()
		for _, load := range loads {
			bears := middle
			if spread > 0 {
				bears = at((of+within*r.NormFloat64())/spread, middle, spread)
			}
			out[i] = append(out[i], threshold.Trial{Load: load, Failed: math.Log(load) > bears})
		}
	}
	return out
}

func ramp(from, to float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = from * math.Pow(to/from, float64(i)/float64(n-1))
	}
	return out
}

// Over many sets of trials made from a known curve, the estimate of the load at
// which a twentieth fails is right in the mean, and the range of 90 % of the
// resampled curves holds the true one in about so many of the sets.
func TestFitFindsTheCurve(t *testing.T) {
	const mean, between, within = 0.18, 0.025, 0.042
	true05 := math.Exp(at(-1.644854, mean, math.Hypot(between, within)))
	loads := ramp(1.05, 1.30, 7)
	const sets = 120
	held, sum := 0, 0.0
	for set := range sets {
		c, err := threshold.Fit(invented(rand.New(rand.NewPCG(7, uint64(set))), 64, loads, mean, between, within))
		if err != nil {
			t.Fatal(err)
		}
		sum += math.Log(c.Load(0.05))
		below := 0
		for _, other := range c.Resample(200) {
			if other.Load(0.05) < true05 {
				below++
			}
		}
		if below > 10 && below < 190 {
			held++
		}
	}
	if bias := sum/sets - math.Log(true05); math.Abs(bias) > 0.003 {
		t.Errorf("the load at which a twentieth fails is off by %.2f %% in the mean", 100*bias)
	}
	t.Logf("held in %d of %d", held, sets)
	if held < 98 {
		t.Errorf("ranges of 90 %% hold the true load in %d of %d sets", held, sets)
	}
}

// So are the ranges where nearly all of the spread stays with a unit, so that each fails from
// some load on. With the usual nodes alone 16 of 40 held.
func TestFitWhereMostStays(t *testing.T) {
	const mean, spread, stays, sets = 0.18, 0.04, 5, 40 // stays: times as much as is new in a trial
	load := math.Exp(at(-1.281552, mean, spread))
	loads := ramp(math.Exp(mean-3.2*spread), math.Exp(mean-0.2*spread), 8)
	within := spread / math.Hypot(1, stays)
	held := 0
	for set := range sets {
		c, err := threshold.Fit(invented(rand.New(rand.NewPCG(7, uint64(set))), 64, loads, mean, within*stays, within))
		if err != nil {
			t.Fatal(err)
		}
		below := 0
		for _, other := range c.Resample(200) {
			if other.Share(load) < 0.1 {
				below++
			}
		}
		if below > 10 && below < 190 {
			held++
		}
	}
	t.Logf("held in %d of %d", held, sets)
	if held < 32 {
		t.Errorf("ranges of 90 %% hold the share of a tenth in %d of %d sets", held, sets)
	}
}

// A thing that always fails above one load and never below it has its threshold
// between the two loads tried next to it, and next to no spread.
func TestFitOfASharpThreshold(t *testing.T) {
	c, err := threshold.Fit(invented(rand.New(rand.NewPCG(1, 1)), 16, ramp(1, 1.2, 41), math.Log(1.101), 0, 0))
	if err != nil {
		t.Fatal(err)
	}
	if mid := c.Load(0.5); mid < 1.095 || mid > 1.106 || c.Load(0.05) < 1.09 {
		t.Errorf("%g fail half, %g a twentieth; the threshold is 1.101", mid, c.Load(0.05))
	}
}

// Thresholds far sharper than the steps between loads, and not quite the same in one set
// of units and the next, leave next to nothing to tell the spread by; the fit and the
// curves that are as likely keep to where they lie all the same.
func TestFitOfSharpThresholdsThatDiffer(t *testing.T) {
	var units [][]threshold.Trial
	for _, set := range []struct{ from, step, at float64 }{
		{5.6302, 1.0243, 6.0}, {5.9133, 1.00183, 5.94}, {5.9118, 1.0008, 5.924}, {5.902, 1.0008, 5.914},
	} {
		for range 16 {
			var unit []threshold.Trial
			for load, n := set.from, 0; n < 8; load, n = load*set.step, n+1 {
				unit = append(unit, threshold.Trial{Load: load, Failed: load > set.at})
			}
			units = append(units, unit)
		}
	}
	c, err := threshold.Fit(units)
	if err != nil {
		t.Fatal(err)
	}
	for _, other := range append(c.Resample(200), c) {
		if at := other.Load(0.5); !(at > 5.9 && at < 5.95) || !(other.Spread() < 0.01) {
			t.Errorf("half fail at %g, spread %g", at, other.Spread())
		}
	}
}

// Fits that go on side by side find what each finds by itself, to the last bit.
func TestFitsSideBySide(t *testing.T) {
	const sets = 48
	loads := ramp(1.05, 1.30, 8)
	fit := func(set int) *threshold.Curve {
		c, err := threshold.Fit(invented(rand.New(rand.NewPCG(9, uint64(set))), 24, loads, 0.18, 0.025, 0.042))
		if err != nil {
			t.Error(err)
		}
		return c
	}
	alone, beside := make([]*threshold.Curve, sets), make([]*threshold.Curve, sets)
	for set := range sets {
		alone[set] = fit(set)
	}
	var wg sync.WaitGroup
	for set := range sets {
		wg.Go(func() { beside[set] = fit(set) })
	}
	wg.Wait()
	for set := range sets {
		if !reflect.DeepEqual(alone[set], beside[set]) {
			t.Errorf("set %d: %v side by side, %v alone", set, beside[set], alone[set])
		}
	}
}

func TestFitRefuses(t *testing.T) {
	all := [][]threshold.Trial{{{Load: 1, Failed: true}, {Load: 2, Failed: true}}}
	if _, err := threshold.Fit(all); !errors.Is(err, threshold.ErrOneSided) {
		t.Errorf("%v where all trials failed", err)
	}
	if _, err := threshold.Fit([][]threshold.Trial{{{Load: 0}, {Load: 1, Failed: true}}}); err == nil {
		t.Error("a load of nothing passes")
	}
}

// The curve of a thing that bears 1.1 times the load says of 1.1 times a load what the
// other says of the load, and so do those that are as likely.
func TestScaled(t *testing.T) {
	c, err := threshold.Fit(invented(rand.New(rand.NewPCG(3, 4)), 64, ramp(1.05, 1.30, 8), 0.18, 0.025, 0.042))
	if err != nil {
		t.Fatal(err)
	}
	more := c.Scaled(1.1)
	likely := more.Resample(5)
	for i, other := range append([]*threshold.Curve{c}, c.Resample(5)...) {
		scaled := more
		if i > 0 {
			scaled = likely[i-1]
		}
		if share, moved := other.Share(1.2), scaled.Share(1.2*1.1); math.Abs(share-moved) > 1e-9 {
			t.Errorf("a share of %g became %g", share, moved)
		}
	}
}
