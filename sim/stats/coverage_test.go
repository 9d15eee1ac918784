package stats

import (
	"context"
	"math"
	"testing"
)

// Shows that 95 % intervals hold the true value in 93 to 97 % of 1,000 repeats, of
// 100 observations each: the mean of a normal and of a skewed quantity, a median
// and the 90 % point, whose ends are order statistics, and the mean and the median
// of paired differences. (True values: exponential of mean 1 has median ln 2 and
// 90 % point ln 10.)
func TestCoverageOf95(t *testing.T) {
	const repeats, n, level = 1000, 100, 0.95
	r := newSequence(20260701)
	hits := map[string]int{}
	note := func(name string, i Interval, truth float64) {
		if i.Contains(truth) {
			hits[name]++
		}
	}
	for range repeats {
		bell, skewed, a, b := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			bell[i] = 5 + 2*normal(r)
			skewed[i] = -math.Log(1 - r())
			common := -4 * math.Log(1-r())
			a[i], b[i] = common+normal(r), common+normal(r)-0.7
		}
		note("mean", must(MeanInterval(bell, level)), 5)
		note("mean, skewed", must(MeanInterval(skewed, level)), 1)
		note("median", must(QuantileInterval(skewed, 0.5, level)), math.Ln2)
		note("90 % point", must(QuantileInterval(skewed, 0.9, level)), math.Ln10)
		note("paired mean", must(PairedMean(a, b, level)), 0.7)
		note("paired median", must(PairedQuantile(a, b, 0.5, level)), 0.7)
	}
	for _, name := range []string{"mean", "mean, skewed", "median", "90 % point", "paired mean", "paired median"} {
		share := float64(hits[name]) / repeats
		t.Logf("%s: %.3f", name, share)
		if share < 0.93 || share > 0.97 {
			t.Errorf("%s: in %.1f %% of repeats", name, 100*share)
		}
	}
}

// Shows what stopping at a width costs: a 95 % interval of the mean, for an
// exponential quantity known to 10 % of itself, holds in 93 % or more of 1,000
// repeats, and takes about the (1.96/0.1)² = 384 replications that theory says.
func TestCoverageOfStopping(t *testing.T) {
	const repeats = 1000
	r := newSequence(9)
	target := Target[float64]{Name: "mean", Value: identity, Estimate: MeanInterval, Level: 0.95, Relative: 0.1}
	hits, replications := 0, 0
	for range repeats {
		out, err := Replicate(context.Background(), Effort{First: 50, Batch: 10, Most: 2000, Workers: 1}, []Target[float64]{target},
			func(context.Context, int) (float64, error) { return -math.Log(1 - r()), nil }, nil)
		if err != nil || !out.Reached {
			t.Fatalf("not reached, error %v", err)
		}
		count(&hits, out.Findings[0].Interval, 1)
		replications += len(out.Results)
	}
	share, mean := float64(hits)/repeats, float64(replications)/repeats
	t.Logf("held in %.3f of repeats, after %.0f replications", share, mean)
	if share < 0.93 || share > 0.97 {
		t.Errorf("held in %.1f %% of repeats", 100*share)
	}
	near(t, "replications", mean, 384, 20)
}

func identity(x float64) float64 { return x }
