package sensitivity

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/random"
	"loamcast/sim/replicate"
	"loamcast/sim/stats"
)

// Shows the estimates by hand, for one input and two rows with values 0, 4, 1 and
// 2, 6, 5 at their three points: the four at a and b have the mean 3 and the
// variance 20/3; first 1 − (9 + 1)/(2 · 2 · 20/3) = 0.625, total (1 + 9)/(2 · 2 ·
// 20/3) = 0.375.
func TestSharesByHand(t *testing.T) {
	dec, err := NewDecomposition(1, 2, 1)
	if err != nil {
		t.Fatal(err)
	}
	s, err := dec.Shares([]float64{0, 4, 1, 2, 6, 5}, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", s.Mean, 3, 1e-12)
	near(t, "variance", s.Variance, 20.0/3, 1e-12)
	near(t, "first", s.Inputs[0].First.Estimate, 0.625, 1e-12)
	near(t, "total", s.Inputs[0].Total.Estimate, 0.375, 1e-12)
}

// Shows the structure of the design for any size: per row two points within the
// cube, and one more for each input that differs from the first in it alone, where
// it equals the second.
func TestRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dims := rapid.IntRange(1, 6).Draw(t, "inputs")
		rows := rapid.IntRange(2, 20).Draw(t, "rows")
		dec, err := NewDecomposition(dims, rows, rapid.Uint64().Draw(t, "seed"))
		if err != nil || len(dec.Points()) != rows*(dims+2) {
			t.Fatalf("%d points, error %v", len(dec.Points()), err)
		}
		for row := range slices.Chunk(dec.Points(), dims+2) {
			a, b := row[0], row[1]
			for d, c := range row[2:] {
				want := slices.Clone(a)
				want[d] = b[d]
				if !slices.Equal(c, want) || a[d] == b[d] || a[d] <= 0 || a[d] >= 1 {
					t.Fatalf("a %v, b %v, input %d: %v", a, b, d, c)
				}
			}
		}
	})
}

// Shows the shares of the Ishigami function: 99.9 % intervals with 8,000 rows hold
// the published values and are at most 0.06 wide on either side.
func TestIshigami(t *testing.T) {
	s := sharesOf(t, ishigami, 3, 8000, 20260702, 0.999)
	for d, share := range s.Inputs {
		holds(t, "first", share.First, ishigamiFirst[d], 0.06)
		holds(t, "total", share.Total, ishigamiTotal[d], 0.06)
	}
	// Mean a/2; variance a²/8 + bπ⁴/5 + b²π⁸/18 + 1/2 (derived by integration).
	near(t, "mean", s.Mean, 3.5, 0.15)
	near(t, "variance", s.Variance, 49.0/8+0.1*math.Pow(math.Pi, 4)/5+0.01*math.Pow(math.Pi, 8)/18+0.5, 0.6)
}

// Shows the same of a product of eight factors, where most inputs matter little,
// which the totals tell precisely.
func TestProduct(t *testing.T) {
	as := []float64{0, 1, 4.5, 9, 99, 99, 99, 99} // as usual for this function (memory)
	f, first, total := product(as)
	s := sharesOf(t, f, len(as), 4000, 3, 0.999)
	for d, share := range s.Inputs {
		holds(t, "first", share.First, first[d], 0.09)
		holds(t, "total", share.Total, total[d], 0.08)
		if as[d] == 99 && share.Total.High > 0.0002 {
			t.Errorf("input %d matters: %+v", d, share.Total)
		}
	}
}

// Shows that intervals of 95 % hold the published shares of the Ishigami function
// in 93 to 97 % of 1,000 repeats of 400 rows, and that the estimates are right on
// average, within a bias of a fortieth.
func TestCoverageOfShares(t *testing.T) {
	const repeats = 1000
	all, err := replicate.Run(t.Context(), repeats, 0, func(_ context.Context, rep int) (Shares, error) {
		return shares(ishigami, 3, 400, uint64(rep), 0.95)
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var hits, sums [3][2]float64
	for _, s := range all {
		for d, share := range s.Inputs {
			if within(share.First, ishigamiFirst[d]) {
				hits[d][0]++
			}
			if within(share.Total, ishigamiTotal[d]) {
				hits[d][1]++
			}
			sums[d][0] += share.First.Estimate
			sums[d][1] += share.Total.Estimate
		}
	}
	for d := range hits {
		for i, truth := range []float64{ishigamiFirst[d], ishigamiTotal[d]} {
			held := hits[d][i] / repeats
			t.Logf("input %d, %s: held in %.3f, mean estimate %.4f, true %.4f", d+1, []string{"first", "total"}[i], held, sums[d][i]/repeats, truth)
			if held < 0.93 || held > 0.97 {
				t.Errorf("held in %v of repeats", held)
			}
			near(t, "mean estimate", sums[d][i]/repeats, truth, 0.025)
		}
	}
}

// Shows, for sums of one function of each input, what must hold up to rounding or
// always: an input without influence has a total of exactly zero, and shares do
// not depend on the output's unit nor on its zero point.
func TestSharesKeepTheirPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slopes := rapid.SliceOfN(rapid.Float64Range(0.1, 9), 2, 5).Draw(t, "slopes")
		slopes[1] = 0
		seed := rapid.Uint64().Draw(t, "seed")
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		shift := rapid.Float64Range(-1e4, 1e4).Draw(t, "shift")
		f := linear(slopes)
		s := sharesOf(t, f, len(slopes), 30, seed, 0.9)
		moved := sharesOf(t, func(p []float64) float64 { return shift - scale*f(p) }, len(slopes), 30, seed, 0.9)
		for d, share := range s.Inputs {
			for _, pair := range [][2]float64{
				{share.First.Estimate, moved.Inputs[d].First.Estimate}, {share.First.Low, moved.Inputs[d].First.Low},
				{share.Total.Estimate, moved.Inputs[d].Total.Estimate}, {share.Total.High, moved.Inputs[d].Total.High},
			} {
				if math.Abs(pair[0]-pair[1]) > 1e-6*(1+math.Abs(pair[0])) {
					t.Fatalf("input %d: %+v, with another unit %+v", d, share, moved.Inputs[d])
				}
			}
		}
		if i := s.Inputs[1].Total; i.Estimate != 0 || i.High != 0 {
			t.Fatalf("an input without influence: %+v", i)
		}
	})
}

// Shows that chance given as an input of its own gets its share, and leaves the
// others' ratio alone: variances of 4/12, 1/12 and, for the luck, 5/12.
func TestChanceAsAnInput(t *testing.T) {
	luck := func(u float64) float64 {
		replication := int(u * 1e6)
		r := random.Key{Seed: 8, Replication: replication}.Stream("luck")
		return math.Sqrt(5) * random.Uniform{Min: 0, Max: 1}.Draw(r)
	}
	s := sharesOf(t, func(p []float64) float64 { return 2*p[0] + p[1] + luck(p[2]) }, 3, 4000, 6, 0.999)
	for d, want := range []float64{0.4, 0.1, 0.5} {
		holds(t, "total", s.Inputs[d].Total, want, 0.06)
		holds(t, "first", s.Inputs[d].First, want, 0.06)
	}
}

// Shows what shares mean with inputs tied together: of the sum of two standard
// normal inputs of correlation r the first has the share (1 + r)/2, with what the
// second has in common with it, and the second (1 − r)/2 of its own (derived).
func TestCorrelatedInputs(t *testing.T) {
	const r = 0.6
	input := random.Normal{SD: 1}
	s := sharesOf(t, func(p []float64) float64 {
		a, own := input.Quantile(p[0]), input.Quantile(p[1])
		return a + r*a + math.Sqrt(1-r*r)*own
	}, 2, 4000, 2, 0.999)
	for d, want := range []float64{(1 + r) / 2, (1 - r) / 2} {
		holds(t, "total", s.Inputs[d].Total, want, 0.08)
		holds(t, "first", s.Inputs[d].First, want, 0.08)
	}
	near(t, "variance", s.Variance, 2+2*r, 0.3)
}

// Shows that an output that does not vary, wholly or in most rows, is no
// nonsense: shares of zero without any variance, and an interval that reaches down
// to zero where a single value makes it.
func TestHardlyVaries(t *testing.T) {
	s := sharesOf(t, func([]float64) float64 { return 0.1 }, 2, 50, 1, 0.95)
	for _, share := range s.Inputs {
		if want := (stats.Interval{Level: 0.95}); s.Variance != 0 || share.First != want || share.Total != want {
			t.Errorf("constant: %+v", s)
		}
	}
	for rows := 5; rows < 100; rows++ {
		dec, err := NewDecomposition(2, rows, 1)
		if err != nil {
			t.Fatal(err)
		}
		values := slices.Repeat([]float64{0.1}, len(dec.Points()))
		values[4] = 7 // at the first of the two points of the second row
		if s, err = dec.Shares(values, 0.95); err != nil {
			t.Fatal(err)
		}
		for _, share := range s.Inputs {
			// Bootstrap samples without the row do not vary, and count as zero.
			if share.First.Estimate != 1 || share.First.Low != 0 || share.Total.Low != 0 {
				t.Errorf("%d rows, one value apart: %+v", rows, share)
			}
		}
	}
}

// Shows that the seed settles everything, that another one is another sample, and
// that more rows or trajectories keep the points there are.
func TestDeterministic(t *testing.T) {
	a, b := sharesOf(t, ishigami, 3, 60, 4, 0.9), sharesOf(t, ishigami, 3, 60, 4, 0.9)
	if !reflect.DeepEqual(a, b) || reflect.DeepEqual(a, sharesOf(t, ishigami, 3, 60, 5, 0.9)) {
		t.Error("shares do not follow the seed")
	}
	if !reflect.DeepEqual(effectsOf(t, ishigami, 3, 9, 4), effectsOf(t, ishigami, 3, 9, 4)) {
		t.Error("effects do not follow the seed")
	}
	few, _ := NewDecomposition(3, 5, 4)
	many, _ := NewDecomposition(3, 9, 4)
	if !reflect.DeepEqual(few.Points(), many.Points()[:len(few.Points())]) {
		t.Error("more rows changed the first ones")
	}
	short, _ := NewScreening(3, 5, 4, 4)
	long, _ := NewScreening(3, 9, 4, 4)
	if !reflect.DeepEqual(short.Points(), long.Points()[:len(short.Points())]) {
		t.Error("more trajectories changed the first ones")
	}
}
