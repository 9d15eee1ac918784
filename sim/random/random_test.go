package random

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

func draws(r *rand.Rand, n int) []uint64 {
	xs := make([]uint64, n)
	for i := range xs {
		xs[i] = r.Uint64()
	}
	return xs
}

// Shows the mixer against the published first outputs of SplitMix64 for seed 0
// (values from memory of the reference implementation).
func TestScramble(t *testing.T) {
	if got := scramble(0); got != 0xe220a8397b1dcdaf {
		t.Errorf("first output %x", got)
	}
	if got := scramble(golden); got != 0x6e789e6aa1b965f4 {
		t.Errorf("second output %x", got)
	}
}

// Shows that equal keys give equal streams, that a change in any part of a key
// gives another one, and that the first numbers of many streams have no pattern.
func TestStreams(t *testing.T) {
	k := Key{Seed: 1, Replication: 2}
	want := draws(k.Stream("repair", 3), 8)
	if got := draws(k.Stream("repair", 3), 8); !slices.Equal(got, want) {
		t.Error("the same key gives another stream")
	}
	seen := map[uint64]string{want[0]: "repair 3"}
	for name, r := range map[string]*rand.Rand{
		"other seed":        Key{2, 2}.Stream("repair", 3),
		"other replication": Key{1, 3}.Stream("repair", 3),
		"swapped":           Key{2, 1}.Stream("repair", 3),
		"other name":        k.Stream("repairs", 3),
		"other entity":      k.Stream("repair", 4),
		"no entity":         k.Stream("repair"),
		"entity 0":          k.Stream("repair", 0),
		"two entities":      k.Stream("repair", 3, 0),
		"order":             k.Stream("repair", 0, 3),
		"no name":           k.Stream("", 3),
	} {
		first := r.Uint64()
		if other, ok := seen[first]; ok {
			t.Errorf("%s begins like %s", name, other)
		}
		seen[first] = name
	}

	// The first numbers over replications and entities: mean, spread and
	// correlation of neighbours as of independent uniforms, within 5 deviations.
	var us []float64
	for rep := range 200 {
		for e := range uint64(200) {
			us = append(us, Key{0, rep}.Stream("load", e).Float64())
		}
	}
	if distinct := slices.Compact(slices.Sorted(slices.Values(us))); len(distinct) != len(us) {
		t.Errorf("%d of %d streams begin like another", len(us)-len(distinct), len(us))
	}
	n := math.Sqrt(float64(len(us)))
	if m := stat.Mean(us, nil); math.Abs(m-0.5) > 5/math.Sqrt(12)/n {
		t.Errorf("mean of first numbers %v", m)
	}
	for _, lag := range []int{1, 200} {
		if c := stat.Correlation(us[lag:], us[:len(us)-lag], nil); math.Abs(c) > 5/n {
			t.Errorf("correlation of streams %d apart: %v", lag, c)
		}
	}
}

// Shows that a stream does not depend on what other streams were used for.
func TestStreamsDontShift(t *testing.T) {
	k := Key{Seed: 9}
	alone := draws(k.Stream("a"), 4)
	draws(k.Stream("b"), 100)
	if got := draws(k.Stream("a"), 4); !slices.Equal(got, alone) {
		t.Error("another stream shifted this one")
	}
}

// exponential adds to the distribution what tests ask of any.
type exponential struct{ Exponential }

func (e exponential) Mean() float64 { return e.Expected }
func (exponential) Validate() error { return nil }

type moments struct {
	d        Distribution
	sd       float64
	min, max float64
}

var inf = math.Inf(1)

// Deviations and bounds by the textbook formulas of each distribution.
var allDistributions = []moments{
	{Constant{3}, 0, 3, 3},
	{Uniform{2, 8}, 6 / math.Sqrt(12), 2, 8},
	{Uniform{5, 5}, 0, 5, 5},
	{exponential{Exponential{4}}, 4, 0, inf},
	{Triangular{1, 2, 6}, math.Sqrt((1 + 4 + 36 - 2 - 6 - 12.0) / 18), 1, 6},
	{Triangular{1, 1, 6}, 5 / math.Sqrt(18), 1, 6},
	{Triangular{4, 4, 4}, 0, 4, 4},
	// Beta variance (mean − min)(max − mean)/(shape + 3), shape 4.
	{PERT{1, 2, 6}, math.Sqrt(1.5 * 3.5 / 7), 1, 6},
	{PERT{-3, 0, 0}, math.Sqrt(2.5 * 0.5 / 7), -3, 0},
	{PERT{4, 4, 4}, 0, 4, 4},
	{Normal{-2, 3}, 3, -inf, inf},
	{LognormalMeanCV{10, 0.4}, 4, 0, inf},
	{LognormalMeanCV{10, 0}, 0, 10, 10},
	{Empirical{Values: []float64{1, 2, 6}}, math.Sqrt(41.0/3 - 9), 1, 6},
	{Empirical{Values: []float64{0.5, 9}, Weights: []float64{16, 1}}, 2, 0.5, 9},
	{Empirical{Values: []float64{1, 2, 3}, Weights: []float64{0, 5, 0}}, 0, 2, 2},
}

// Shows mean and deviation of each distribution by 200,000 draws: the mean within
// 5 standard errors, the deviation within 3 %, and all draws within the bounds.
func TestMoments(t *testing.T) {
	const n = 200_000
	for i, tc := range allDistributions {
		if err := tc.d.Validate(); err != nil {
			t.Errorf("%#v: %v", tc.d, err)
		}
		draws := n
		if _, slow := tc.d.(PERT); slow {
			draws = n / 10
		}
		r := Key{Seed: 5}.Stream("moments", uint64(i))
		xs := make([]float64, draws)
		for i := range xs {
			xs[i] = tc.d.Draw(r)
		}
		mean, sd := stat.MeanStdDev(xs, nil)
		if math.Abs(mean-tc.d.Mean()) > 5*tc.sd/math.Sqrt(float64(draws))+1e-12 {
			t.Errorf("%#v: mean %v, want %v", tc.d, mean, tc.d.Mean())
		}
		if math.Abs(sd-tc.sd) > 0.03*tc.sd+1e-9 {
			t.Errorf("%#v: deviation %v, want %v", tc.d, sd, tc.sd)
		}
		if low, high := slices.Min(xs), slices.Max(xs); low < tc.min-1e-12 || high > tc.max+1e-12 {
			t.Errorf("%#v: draws from %v to %v", tc.d, low, high)
		}
	}
}

// fixedSource always gives the same number.
type fixedSource struct {
	value uint64
	calls int
}

func (s *fixedSource) Uint64() uint64 { s.calls++; return s.value }

// Shows, for every distribution, what common random numbers rest on: one number
// from the stream for each draw, finite at both ends of its range, and draws that
// never fall when the number rises.
func TestOneNumberForEachDraw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tc := rapid.SampledFrom(allDistributions).Draw(t, "distribution")
		a := rapid.Uint64().Draw(t, "a")
		b := rapid.SampledFrom([]uint64{0, math.MaxUint64, a}).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		draw := func(v uint64) float64 {
			src := &fixedSource{value: v}
			x := tc.d.Draw(rand.New(src))
			if src.calls != 1 || math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%#v: %v from %d numbers", tc.d, x, src.calls)
			}
			return x
		}
		if low, high := draw(a), draw(b); low > high*(1+1e-12)+1e-12 && high > 0 || low > high+1e-9 {
			t.Fatalf("%#v: %v at %d, %v at %d", tc.d, low, a, high, b)
		}
	})
}

// Shows that the noise has mean one, the spread and the memory asked for, and is
// in its steady state from the first step.
func TestNoise(t *testing.T) {
	for _, d := range []AR1Lognormal{{0.3, 0}, {0.3, 0.7}, {1, 0.5}, {0, 0.9}} {
		const sequences, length = 4000, 50
		var first, all, here, next []float64
		for i := range uint64(sequences) {
			n := d.Start(Key{Seed: 3}.Stream("noise", i))
			xs := make([]float64, length)
			for j := range xs {
				xs[j] = n.Next()
			}
			first = append(first, xs[0])
			all = append(all, xs...)
			here = append(here, xs[:length-1]...)
			next = append(next, xs[1:]...)
		}
		mean, sd := stat.MeanStdDev(all, nil)
		// Correlated values count for n(1−ρ)/(1+ρ) independent ones.
		effective := sequences * length * (1 - d.Correlation) / (1 + d.Correlation)
		if math.Abs(mean-1) > 5*d.CV/math.Sqrt(effective)+1e-12 || math.Abs(sd-d.CV) > 0.05*d.CV+1e-12 {
			t.Errorf("%+v: mean %v, deviation %v", d, mean, sd)
		}
		if m, s := stat.MeanStdDev(first, nil); math.Abs(m-1) > 5*d.CV/math.Sqrt(sequences)+1e-12 || math.Abs(s-d.CV) > 0.15*d.CV+1e-12 {
			t.Errorf("%+v: first step has mean %v, deviation %v", d, m, s)
		}
		if d.CV == 0 {
			continue
		}
		if c := stat.Correlation(here, next, nil); math.Abs(c-d.Correlation) > 0.03 {
			t.Errorf("%+v: correlation %v", d, c)
		}
	}
}

// Shows that parameters which make no sense are refused.
func TestValidate(t *testing.T) {
	nan := math.NaN()
	for _, tc := range []struct {
		d    interface{ Validate() error }
		says string
	}{
		{Constant{nan}, "NaN"},
		{Uniform{3, 2}, "above maximum"},
		{Uniform{0, inf}, "+Inf"},
		{Triangular{1, 7, 6}, "not in order"},
		{PERT{2, 1, 6}, "not in order"},
		{PERT{nan, 1, 6}, "NaN"},
		{Normal{0, -1}, "negative"},
		{LognormalMeanCV{0, 1}, "not above zero"},
		{LognormalMeanCV{1, -1}, "negative"},
		{LognormalMeanCV{1, inf}, "+Inf"},
		{Empirical{}, "no values"},
		{Empirical{Values: []float64{nan}}, "NaN"},
		{Empirical{Values: []float64{1}, Weights: []float64{1, 2}}, "2 weights"},
		{Empirical{Values: []float64{1}, Weights: []float64{-1}}, "negative"},
		{Empirical{Values: []float64{1}, Weights: []float64{inf}}, "+Inf"},
		{Empirical{Values: []float64{1}, Weights: []float64{0}}, "all weights are zero"},
	} {
		if err := tc.d.Validate(); err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%#v: error %v, want %q", tc.d, err, tc.says)
		}
	}
}

func BenchmarkStream(b *testing.B) {
	b.ReportAllocs()
	var e uint64
	for b.Loop() {
		e++
		Key{1, 2}.Stream("residence", e).Uint64()
	}
}

func BenchmarkDraw(b *testing.B) {
	r := Key{}.Stream("bench")
	for _, tc := range []struct {
		name string
		d    Distribution
	}{
		{"Exponential", exponential{Exponential{1}}}, {"Triangular", Triangular{1, 2, 3}}, {"PERT", PERT{1, 2, 3}},
		{"Normal", Normal{1, 2}}, {"Lognormal", LognormalMeanCV{1, 0.3}},
	} {
		b.Run(tc.name, func(b *testing.B) {
			for b.Loop() {
				tc.d.Draw(r)
			}
		})
	}
}
