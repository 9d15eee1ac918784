package stats

import (
	"math"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// Shows area, mean, the highest level and the time at each, of a level worked out
// by hand, and that Reset begins anew.
func TestTimeWeighted(t *testing.T) {
	w := NewTimeWeighted(10, 2)
	w.CountLevels()
	w.Set(20, 5) // 2 for 10 s
	w.Add(24, -4)
	w.Set(24, 3) // 1 for no time
	w.Add(30, -3)
	near(t, "area", w.Area(40), 20+20+18+0, 0)
	near(t, "mean", w.Mean(40), 58.0/30, 1e-15)
	since := NewTimeWeighted(0, 2) // nothing else has asked before
	near(t, "mean since the last change", since.Mean(10), 2, 0)
	near(t, "max", w.Max(), 5, 0)
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
	near(t, "max after reset", w.Max(), 4, 0)
	near(t, "area after reset", w.Area(45), 20, 0)
	if got := w.Covering(0.5, 45); got != 4 {
		t.Errorf("covering after reset: %d", got)
	}
}

// Shows the area under straight lines, up and down.
func TestRamp(t *testing.T) {
	w := NewTimeWeighted(0, 0)
	w.RampTo(10, 10)
	w.RampTo(15, 0)
	w.RampTo(25, 0)
	near(t, "area", w.Area(25), 50+25, 1e-12)
}

// Shows that misuse panics instead of giving a number.
func TestTimeWeightedMisuse(t *testing.T) {
	for name, do := range map[string]func(w *TimeWeighted){
		"backwards":      func(w *TimeWeighted) { w.Set(4, 1) },
		"not a number":   func(w *TimeWeighted) { w.Set(6, math.NaN()) },
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

// Shows the t interval of five observations: mean 10, deviation 1.5811, and the
// 97.5 % point 2.776 of t with 4 degrees of freedom (statistical tables, memory).
func TestMeanInterval(t *testing.T) {
	i, err := MeanInterval([]float64{8, 9, 10, 11, 12}, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "estimate", i.Estimate, 10, 1e-12)
	near(t, "half-width", i.HalfWidth(), 2.776445*math.Sqrt(2.5)/math.Sqrt(5), 1e-5)
}

// Shows that intervals hold the true value about as often as they say: of 2,000
// experiments each, within 4 standard errors of the level.
func TestCoverage(t *testing.T) {
	r := newSequence(11)
	const experiments, level = 2000, 0.90
	var meanHits, shareHits int
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
		count(&shareHits, must(Wilson(ones, len(xs), level)), 0.2)
	}
	slack := 4 * math.Sqrt(level*(1-level)/experiments)
	for _, tc := range []struct {
		name     string
		hits     int
		low, top float64
	}{
		{"mean", meanHits, level - slack, level + slack},
		{"share", shareHits, level - slack - 0.02, level + slack + 0.02},
	} {
		if got := float64(tc.hits) / experiments; got < tc.low || got > tc.top {
			t.Errorf("%s: covered %v, want %v to %v", tc.name, got, tc.low, tc.top)
		}
	}
}

func count(hits *int, i Interval, truth float64) {
	if i.Low <= truth && truth <= i.High {
		*hits++
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
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
// In between it ends where the share seen is z standard errors of the end itself
// away, the equation that the interval solves (derived).
func TestWilson(t *testing.T) {
	const z = 1.959964 // of the normal distribution, at 95 %
	for n := 2; n <= 60; n += 7 {
		for successes := range n + 1 {
			i, p := must(Wilson(successes, n, 0.95)), float64(successes)/float64(n)
			for _, end := range []float64{i.Low, i.High} {
				if end > 0 && end < 1 {
					near(t, "standard errors away", math.Abs(p-end)/math.Sqrt(end*(1-end)/float64(n)), z, 1e-5)
				}
			}
			near(t, "estimate", i.Estimate, p, 0)
			if (i.Low == 0) != (successes == 0) || (i.High == 1) != (successes == n) {
				t.Errorf("%d of %d: %v to %v", successes, n, i.Low, i.High)
			}
		}
	}
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
		"mean of one": func() error { _, err := MeanInterval(xs[:1], 0.9); return err },
		"level 1":     func() error { _, err := MeanInterval(xs, 1); return err },
		"level NaN":   func() error { _, err := MeanInterval(xs, math.NaN()); return err },
		"level 0":     func() error { _, err := Wilson(1, 2, 0); return err },
		"no trials":   func() error { _, err := Wilson(0, 0, 0.9); return err },
		"too many":    func() error { _, err := Wilson(3, 2, 0.9); return err },
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
