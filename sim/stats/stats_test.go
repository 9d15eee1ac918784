package stats

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// Shows area, mean, extremes, time above, and time at each level of a level
// worked out by hand, and that Reset begins anew.
func TestTimeWeighted(t *testing.T) {
	w := NewTimeWeighted(10, 2)
	w.Watch(2)
	w.CountLevels()
	w.Set(20, 5) // 2 for 10 s
	w.Add(24, -4)
	w.Set(24, 3) // 1 for no time
	w.Add(30, -3)
	near(t, "area", w.Area(40), 20+20+18+0, 0)
	near(t, "mean", w.Mean(40), 58.0/30, 1e-15)
	near(t, "min", w.Min(), 0, 0)
	near(t, "max", w.Max(), 5, 0)
	near(t, "time above 2", w.TimeAbove(2, 40), 10, 0)
	if got := w.Histogram(40); !slices.Equal(got, []int64{10, 0, 10, 6, 0, 4}) {
		t.Errorf("histogram %v", got)
	}
	for _, tc := range []struct {
		q    float64
		want int
	}{{0, 0}, {1.0 / 3, 0}, {0.34, 2}, {0.6666, 2}, {0.67, 3}, {0.99, 5}, {1, 5}} {
		if got := w.Covering(tc.q, 40); got != tc.want {
			t.Errorf("covering %v: %d, want %d", tc.q, got, tc.want)
		}
	}
	w.Set(40, 4)
	w.Reset(40)
	near(t, "mean of no time", w.Mean(40), 4, 0)
	near(t, "area after reset", w.Area(45), 20, 0)
	near(t, "time above after reset", w.TimeAbove(2, 45), 5, 0)
	near(t, "min after reset", w.Min(), 4, 0)
	if got := w.Covering(0.5, 45); got != 4 {
		t.Errorf("covering after reset: %d", got)
	}
}

// Shows straight lines, up and down, across a threshold and beside it.
func TestRamp(t *testing.T) {
	w := NewTimeWeighted(0, 0)
	w.Watch(4)
	w.Watch(100)
	w.RampTo(10, 10)
	w.RampTo(15, 0)
	w.RampTo(25, 0)
	near(t, "area", w.Area(25), 50+25, 1e-12)
	near(t, "above 4", w.TimeAbove(4, 25), 6+3, 1e-12)
	near(t, "above 100", w.TimeAbove(100, 25), 0, 0)
}

// Shows that misuse panics instead of giving a number.
func TestTimeWeightedMisuse(t *testing.T) {
	for name, do := range map[string]func(w *TimeWeighted){
		"backwards":      func(w *TimeWeighted) { w.Set(4, 1) },
		"not a number":   func(w *TimeWeighted) { w.Set(6, math.NaN()) },
		"not watched":    func(w *TimeWeighted) { w.TimeAbove(1, 6) },
		"not a count":    func(w *TimeWeighted) { w.CountLevels(); w.Set(6, 0.5); w.Set(7, 1) },
		"negative count": func(w *TimeWeighted) { w.CountLevels(); w.Set(6, -1); w.Set(7, 1) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if _, ok := recover().(error); !ok {
					t.Error("no panic with an error")
				}
			}()
			do(NewTimeWeighted(5, 0))
		})
	}
}

// Shows the tally against the two-pass formulas, also far from zero.
func TestTally(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offset := rapid.SampledFrom([]float64{0, 1e6, -1e9}).Draw(t, "offset")
		xs := rapid.SliceOfN(rapid.Float64Range(-100, 100), 2, 50).Draw(t, "xs")
		var tally Tally
		for i := range xs {
			xs[i] += offset
			tally.Add(xs[i])
		}
		mean, sd := stat.MeanStdDev(xs, nil)
		if math.Abs(tally.Mean()-mean) > 1e-13*max(math.Abs(offset), 100) || math.Abs(tally.SD()-sd) > 1e-6*max(sd, 1) {
			t.Fatalf("mean %v, deviation %v, want %v, %v", tally.Mean(), tally.SD(), mean, sd)
		}
		if tally.N() != len(xs) || tally.Min() != slices.Min(xs) || tally.Max() != slices.Max(xs) {
			t.Fatal("count or extremes")
		}
	})
	var none Tally
	for _, v := range []float64{none.Mean(), none.Variance(), none.SD(), none.Min(), none.Max()} {
		if !math.IsNaN(v) {
			t.Errorf("an empty tally says %v", v)
		}
	}
}

// Shows the t interval of five observations: mean 10, deviation 1.5811, and the
// 97.5 % point 2.776 of t with 4 degrees of freedom (statistical tables, memory).
func TestMeanInterval(t *testing.T) {
	i, err := MeanInterval([]float64{8, 9, 10, 11, 12}, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "estimate", i.Estimate, 10, 1e-12)
	near(t, "half-width", i.HalfWidth(), 2.776445*math.Sqrt(2.5)/math.Sqrt(5), 1e-5)
	if !i.Contains(8.1) || i.Contains(12) {
		t.Error("Contains is wrong")
	}
}

// Shows that intervals hold the true value about as often as they say: of 2,000
// experiments each, within 4 standard errors of the level, or above it where the
// interval is known to be cautious.
func TestCoverage(t *testing.T) {
	r := newSequence(11)
	const experiments, level = 2000, 0.90
	var meanHits, medianHits, shareHits, batchHits int
	for range experiments {
		xs := make([]float64, 40)
		ones := 0
		for i := range xs {
			xs[i] = r()
			if r() < 0.2 {
				ones++
			}
		}
		count(&meanHits, must(MeanInterval(xs, level)), 0.5)
		count(&medianHits, must(QuantileInterval(xs, 0.5, level)), 0.5)
		count(&shareHits, must(Wilson(ones, len(xs), level)), 0.2)
		series := make([]float64, 2003)
		for i := range series {
			if i > 0 {
				series[i] = 0.5 * series[i-1]
			}
			series[i] += r() - 0.5
		}
		count(&batchHits, must(BatchMeans(series, 20, level)), 0)
	}
	slack := 4 * math.Sqrt(level*(1-level)/experiments)
	for _, tc := range []struct {
		name     string
		hits     int
		low, top float64
	}{
		{"mean", meanHits, level - slack, level + slack},
		{"median", medianHits, level - slack, 0.96},
		{"share", shareHits, level - slack - 0.02, level + slack + 0.02},
		{"batch means", batchHits, level - slack, level + slack},
	} {
		if got := float64(tc.hits) / experiments; got < tc.low || got > tc.top {
			t.Errorf("%s: covered %v, want %v to %v", tc.name, got, tc.low, tc.top)
		}
	}
}

func count(hits *int, i Interval, truth float64) {
	if i.Contains(truth) {
		*hits++
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// Shows that batches leave out the beginning, where it doesn't divide.
func TestBatchMeansDropsTheBeginning(t *testing.T) {
	i := must(BatchMeans([]float64{1000, 1, 3, 2, 4, 3, 5}, 3, 0.95))
	near(t, "estimate", i.Estimate, 3, 1e-12)
}

// Shows the ranks given in checks.md ("Engine", order statistics for a 95 %
// interval) and the 59 replications below which the maximum bounds nothing.
func TestQuantileRanks(t *testing.T) {
	for _, tc := range []struct {
		n         int
		q         float64
		low, high int
	}{
		{100, 0.90, 84, 96},
		{1000, 0.95, 937, 964},
		{10, 0.95, 8, 11}, // 11: no upper bound
		{5, 0.05, 0, 2},   // 0: no lower bound
	} {
		low, high, err := QuantileRanks(tc.n, tc.q, 0.95)
		if err != nil || low != tc.low || high != tc.high {
			t.Errorf("n %d, q %v: ranks %d–%d, want %d–%d (%v)", tc.n, tc.q, low, high, tc.low, tc.high, err)
		}
	}
	if got := MinimumToBound(0.95, 0.95); got != 59 {
		t.Errorf("MinimumToBound: %d, want 59", got)
	}
	i := must(QuantileInterval([]float64{3, 1, 2}, 0.95, 0.95))
	if !math.IsInf(i.High, 1) {
		t.Errorf("upper end %v from 3 observations", i.High)
	}
}

// Shows definition 7 by hand, and the ends.
func TestQuantile(t *testing.T) {
	xs := []float64{40, 10, 30, 20}
	for _, tc := range []struct{ q, want float64 }{{0, 10}, {0.1, 13}, {0.5, 25}, {0.9, 37}, {1, 40}} {
		near(t, "quantile", Quantile(xs, tc.q), tc.want, 1e-12)
	}
	if !math.IsNaN(Quantile(nil, 0.5)) || xs[0] != 40 {
		t.Error("no observations, or the observations were sorted in place")
	}
}

// Shows the Wilson interval of 10 in 20 at 95 %, 0.2993 to 0.7007 (derived from
// the formula with z = 1.959964), and at the ends, z²/(n + z²) for none of n.
func TestWilson(t *testing.T) {
	i := must(Wilson(10, 20, 0.95))
	near(t, "low", i.Low, 0.29930, 1e-5)
	near(t, "high", i.High, 0.70070, 1e-5)
	i = must(Wilson(0, 20, 0.95))
	near(t, "low", i.Low, 0, 0)
	near(t, "high", i.High, 3.841459/(20+3.841459), 1e-6)
	i = must(Wilson(20, 20, 0.95))
	near(t, "high", i.High, 1, 0)
}

// Shows that questions without an answer are errors.
func TestRefusals(t *testing.T) {
	xs := []float64{1, 2, 3}
	for name, ask := range map[string]func() error{
		"mean of one":     func() error { _, err := MeanInterval(xs[:1], 0.9); return err },
		"level 1":         func() error { _, err := MeanInterval(xs, 1); return err },
		"level 0":         func() error { _, err := Wilson(1, 2, 0); return err },
		"level NaN":       func() error { _, err := QuantileInterval(xs, 0.5, math.NaN()); return err },
		"quantile 1":      func() error { _, err := QuantileInterval(xs, 1, 0.9); return err },
		"no observations": func() error { _, err := QuantileInterval(nil, 0.5, 0.9); return err },
		"no trials":       func() error { _, err := Wilson(0, 0, 0.9); return err },
		"too many":        func() error { _, err := Wilson(3, 2, 0.9); return err },
		"one batch":       func() error { _, err := BatchMeans(xs, 1, 0.9); return err },
		"four batches":    func() error { _, err := BatchMeans(xs, 4, 0.9); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkTimeWeightedSet(b *testing.B) {
	w := NewTimeWeighted(0, 0)
	w.CountLevels()
	var t int64
	for b.Loop() {
		t += 7
		w.Set(t, float64(t%5))
	}
}
