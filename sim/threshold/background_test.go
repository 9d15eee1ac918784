package threshold_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/sim/threshold"
)

// withBackground makes trials of units some of which fail at any load: each unit in a share
// of its trials of its own, beta distributed.
func withBackground(seed uint64, mean, together float64) [][]threshold.Trial {
	r := rand.New(rand.NewPCG(11, seed))
	units := append(invented(r, 32, ramp(0.7, 1.0, 8), 0.04, 0.02, 0.04), invented(r, 32, ramp(0.85, 1.1, 8), 0.04, 0.02, 0.04)...)
	own := distuv.Beta{Alpha: mean * together, Beta: (1 - mean) * together, Src: r}
	for _, unit := range units {
		share := own.Rand()
		for i := range unit {
			unit[i].Failed = unit[i].Failed || r.Float64() < share
		}
	}
	return units
}

// Where 12 % of the trials fail whatever the load, most of them of the same few units, that
// share is found, the curve above it is that of the others, and 90 % of the curves that are
// as likely hold the truth in most of the sets.
func TestFitFindsABackground(t *testing.T) {
	const sets, truth = 12, 0.12
	held, sum := 0, 0.0
	for set := range uint64(sets) {
		c, err := threshold.Fit(withBackground(set, truth, 1))
		if err != nil {
			t.Fatal(err)
		}
		if c.Background == 0 {
			t.Errorf("set %d: no background is seen; a spread of %g", set, c.Spread())
			continue
		}
		sum += c.Background
		below := 0
		for _, other := range c.Resample(200) {
			if other.Background < truth {
				below++
			}
		}
		if below > 10 && below < 190 {
			held++
		}
		if c.Middle() < 0.98 || c.Middle() > 1.12 || c.Spread() > 0.1 {
			t.Errorf("set %d: half of the others fail at %g, spread %g; made with 1.04 and 0.045", set, c.Middle(), c.Spread())
		}
		if share := c.Share(0.01); math.Abs(share-c.Background) > 1e-9 {
			t.Errorf("set %d: at next to no load %g fail; a background of %g", set, share, c.Background)
		}
	}
	t.Logf("%.3f in the mean, held in %d of %d", sum/sets, held, sets)
	if mean := sum / sets; mean < 0.09 || mean > 0.15 {
		t.Errorf("%g in the mean of the sets; made with %g", mean, truth)
	}
	if held < 8 {
		t.Errorf("ranges of 90 %% hold it in %d of %d sets", held, sets)
	}
}

// Where every trial fails by its load alone, no background is seen, however noisy the
// thresholds are.
func TestFitSeesNoBackgroundWhereNoneIs(t *testing.T) {
	for set := range uint64(16) {
		spread := []float64{0.03, 0.08, 0.15, 0.3}[set%4]
		loads := ramp(math.Exp(-2.6*spread), math.Exp(-0.2*spread), 8)
		c, err := threshold.Fit(invented(rand.New(rand.NewPCG(12, set)), 64, loads, 0, spread*0.4, spread*0.9))
		if err != nil {
			t.Fatal(err)
		}
		if c.Background != 0 {
			t.Errorf("set %d: a background of %g, spread %g; made without, %g", set, c.Background, c.Spread(), spread)
		}
	}
}

// A small background, which trials do not always show for sure, is seen where one is
// expected; where every trial fails by its load alone, next to none is told then either.
func TestExpectingABackground(t *testing.T) {
	const sets = 5
	surely, expecting, none := 0, 0, 0.0
	fitted := func(fit func([][]threshold.Trial) (*threshold.Curve, error), units [][]threshold.Trial) float64 {
		c, err := fit(units)
		if err != nil {
			t.Fatal(err)
		}
		return c.Background
	}
	for set := range uint64(sets) {
		with := withBackground(120+set, 0.025, 1)
		if fitted(threshold.Fit, with) > 0 {
			surely++
		}
		if fitted(threshold.FitExpecting, with) > 0 {
			expecting++
		}
		without := invented(rand.New(rand.NewPCG(14, set)), 64, ramp(0.85, 1.0, 8), 0.04, 0.02, 0.04)
		none += fitted(threshold.FitExpecting, without) / sets
	}
	t.Logf("of %d sets %d show a background, %d where one is expected; where none is %.4f is told in the mean", sets, surely, expecting, none)
	if surely == sets || expecting < sets || none > 0.01 {
		t.Error("a background that is expected is not seen, or seen where none is")
	}
}

// A share of trials up to the background fails at no load at all, and one above it where
// the curve says so: the two undo each other.
func TestLoadAndShareWithABackground(t *testing.T) {
	c, err := threshold.Fit(withBackground(1, 0.12, 1))
	if err != nil {
		t.Fatal(err)
	}
	for _, share := range []float64{0.01, c.Background} {
		if load := c.Load(share); load != 0 {
			t.Errorf("%g of the trials fail at %g; %g do whatever the load", share, load, c.Background)
		}
	}
	for _, share := range []float64{c.Background + 0.01, 0.3, 0.5, 0.9} {
		if got := c.Share(c.Load(share)); math.Abs(got-share) > 1e-9 {
			t.Errorf("a share of %g came back as %g", share, got)
		}
		logs := []float64{math.Log(c.Load(share))}
		if got := c.MeanShare(logs); math.Abs(got-share) > 1e-9 {
			t.Errorf("a share of %g is %g in the mean", share, got)
		}
	}
}
