package sensitivity

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// Shows the structure of the design for any size: coordinates on the levels, one
// move of half the range at each step, every input once in each trajectory.
func TestTrajectories(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dims := rapid.IntRange(1, 8).Draw(t, "inputs")
		trajectories := rapid.IntRange(2, 12).Draw(t, "trajectories")
		levels := 2 * rapid.IntRange(1, 5).Draw(t, "levels")
		s, err := NewScreening(dims, trajectories, levels, rapid.Uint64().Draw(t, "seed"))
		if err != nil || len(s.Points()) != trajectories*(dims+1) {
			t.Fatalf("%d points, error %v", len(s.Points()), err)
		}
		for trajectory := range slices.Chunk(s.Points(), dims+1) {
			moves := make([]int, dims)
			for i, p := range trajectory {
				for d, u := range p {
					level := u*float64(levels) - 0.5
					if u <= 0 || u >= 1 || math.Abs(level-math.Round(level)) > 1e-9 {
						t.Fatalf("coordinate %v is on none of %d levels", u, levels)
					}
					if i > 0 && u != trajectory[i-1][d] {
						moves[d]++
						if math.Abs(math.Abs(u-trajectory[i-1][d])-0.5) > 1e-15 {
							t.Fatalf("moved from %v to %v", trajectory[i-1][d], u)
						}
					}
				}
			}
			if slices.Max(moves) != 1 || slices.Min(moves) != 1 {
				t.Fatalf("moves %v", moves)
			}
		}
	})
}

// Shows that all levels of an input come up alike: of 4,000 starts and ends the
// counts of 6 levels have a chi squared, of 5 degrees of freedom, below its 99.9 %
// point 20.52 (statistical tables, memory).
func TestLevelsComeUpAlike(t *testing.T) {
	const trajectories, levels = 4000, 6
	s, err := NewScreening(2, trajectories, levels, 5)
	if err != nil {
		t.Fatal(err)
	}
	for d := range 2 {
		counts := make([]float64, levels)
		for trajectory := range slices.Chunk(s.Points(), 3) {
			counts[int(trajectory[0][d]*levels)]++
		}
		var chi float64
		for _, c := range counts {
			const want = trajectories / float64(levels)
			chi += (c - want) * (c - want) / want
		}
		if chi > 20.52 {
			t.Errorf("input %d: counts %v, chi squared %v", d, counts, chi)
		}
	}
}

// Shows that the effects of a linear function are its slopes, without spread.
func TestLinearEffectsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slopes := rapid.SliceOfN(rapid.Float64Range(-50, 50), 1, 9).Draw(t, "slopes")
		effects := effectsOf(t, linear(slopes), len(slopes), 6, rapid.Uint64().Draw(t, "seed"))
		for d, e := range effects {
			b := slopes[d]
			if math.Abs(e.Mu-b) > 1e-9 || math.Abs(e.MuStar.Estimate-math.Abs(b)) > 1e-9 || e.Sigma > 1e-9 || e.MuStar.HalfWidth() > 1e-9 {
				t.Fatalf("slope %v: %+v", b, e)
			}
		}
	})
}

// morris is the test function of the paper of 1991, of 20 inputs, with its small
// random coefficients left out (from memory): w = 2u − 1, but 2(1.1u/(u + 0.1) −
// ½) for inputs 3, 5 and 7; slopes of 20 for the first ten inputs, −15 for pairs of
// the first six, −10 for triples of the first five, 5 for quadruples of the first
// four.
func morris(p []float64) float64 {
	w := make([]float64, len(p))
	for i, u := range p {
		w[i] = 2*u - 1
		if i == 2 || i == 4 || i == 6 {
			w[i] = 2 * (1.1*u/(u+0.1) - 0.5)
		}
	}
	var y float64
	for _, x := range w[:10] {
		y += 20 * x
	}
	return y - 15*products(w[:6], 2) - 10*products(w[:5], 3) + 5*products(w[:4], 4)
}

// products is the sum of the products of all choices of n of the ws.
func products(ws []float64, n int) float64 {
	if n == 0 {
		return 1
	}
	var sum float64
	for i := range ws {
		sum += ws[i] * products(ws[i+1:], n-1)
	}
	return sum
}

// Shows what the paper's figure shows: inputs 8, 9 and 10 have a pure slope (of
// 20 · 2 = 40), 1 to 6 act together with others and 7 bends, so these have a
// spread; 11 to 20 have no effect at all. All with 20 trajectories, 420 points.
func TestMorrisFunction(t *testing.T) {
	effects := effectsOf(t, morris, 20, 20, 1991)
	for d, e := range effects {
		t.Logf("input %2d: mu* %6.2f (%.2f to %.2f), mu %7.2f, sigma %6.2f", d+1, e.MuStar.Estimate, e.MuStar.Low, e.MuStar.High, e.Mu, e.Sigma)
		switch {
		case d < 6:
			if e.Sigma < 15 || e.MuStar.Low < 10 {
				t.Errorf("input %d: %+v, should matter and act together with others", d+1, e)
			}
		case d == 6:
			if e.Sigma < 1 || math.Abs(e.Mu-e.MuStar.Estimate) > 1e-9 {
				t.Errorf("input 7: %+v, should bend but always rise", e)
			}
		case d < 10:
			near(t, "slope", e.Mu, 40, 1e-9)
			near(t, "spread of a slope", e.Sigma, 0, 1e-9)
		case e.MuStar.Estimate != 0 || e.Sigma != 0 || e.MuStar.High != 0:
			t.Errorf("input %d: %+v, should have no effect", d+1, e)
		}
	}
}

// meanSize computes the true MuStar of input d of f, on a grid of levels, from
// all points of the grid.
func meanSize(f func(p []float64) float64, dims, levels, d int) float64 {
	p := make([]float64, dims)
	var sum, n float64
	var visit func(j int)
	visit = func(j int) {
		switch {
		case j == dims:
			low := f(p)
			p[d] += 0.5
			sum += math.Abs(f(p)-low) / 0.5
			n++
			p[d] -= 0.5
		case j == d:
			for i := range levels / 2 {
				p[j] = (float64(i) + 0.5) / float64(levels)
				visit(j + 1)
			}
		default:
			for i := range levels {
				p[j] = (float64(i) + 0.5) / float64(levels)
				visit(j + 1)
			}
		}
	}
	visit(0)
	return sum / n
}

// Shows that the 95 % interval on MuStar holds the true value in 93 to 97 % of
// 1,000 repeats, with 50 trajectories on 8 levels, for the four inputs of a
// product, which all bend and act together, and that MuStar is right on average,
// within 4 standard errors.
func TestCoverageOfMuStar(t *testing.T) {
	const repeats, dims, levels = 1000, 4, 8
	f, _, _ := product([]float64{0, 1, 4.5, 9})
	var errors [dims][]float64
	var hits [dims]float64
	truth := make([]float64, dims)
	for d := range truth {
		truth[d] = meanSize(f, dims, levels, d)
	}
	for seed := range uint64(repeats) {
		s, err := NewScreening(dims, 50, levels, seed)
		if err != nil {
			t.Fatal(err)
		}
		effects, err := s.Effects(evaluate(f, s.Points()), 0.95)
		if err != nil {
			t.Fatal(err)
		}
		for d, e := range effects {
			if within(e.MuStar, truth[d]) {
				hits[d]++
			}
			errors[d] = append(errors[d], e.MuStar.Estimate-truth[d])
		}
	}
	for d := range truth {
		held := hits[d] / repeats
		t.Logf("input %d: true %.3f, held in %.3f", d+1, truth[d], held)
		if held < 0.93 || held > 0.97 {
			t.Errorf("input %d: held in %v of repeats", d+1, held)
		}
		mean, sd := stat.MeanStdDev(errors[d], nil)
		near(t, "bias", mean, 0, 4*sd/math.Sqrt(repeats))
	}
}

// Shows a blind spot that the documentation owns up to: what repeats itself after
// half of the range, as the second input of the Ishigami function does, has no
// elementary effects, and with two levels neither has a symmetric bend.
func TestBlindSpot(t *testing.T) {
	if e := effectsOf(t, ishigami, 3, 20, 1)[1]; e.MuStar.Estimate > 1e-9 {
		t.Errorf("%+v", e)
	}
	bend := func(p []float64) float64 { return math.Abs(p[0] - 0.5) }
	s, err := NewScreening(1, 20, 2, 1)
	if err != nil {
		t.Fatal(err)
	}
	e, err := s.Effects(evaluate(bend, s.Points()), 0.95)
	if err != nil || e[0].MuStar.Estimate != 0 {
		t.Errorf("two levels: %+v, error %v", e, err)
	}
	if e := effectsOf(t, bend, 1, 20, 1)[0]; e.MuStar.Low < 0.4 {
		t.Errorf("four levels: %+v", e)
	}
}

// Shows that the interval of a size has no part below zero, where an input matters
// in one corner only and few trajectories meet it.
func TestSizeIsNotNegative(t *testing.T) {
	corner := func(p []float64) float64 { return max(p[0]+p[1]+p[2]-2.5, 0) }
	cut := false
	for seed := range uint64(20) {
		for _, e := range effectsOf(t, corner, 3, 5, seed) {
			if e.MuStar.Low < 0 || e.MuStar.Estimate < e.MuStar.Low {
				t.Errorf("seed %d: %+v", seed, e)
			}
			cut = cut || e.MuStar.Low == 0 && e.MuStar.Estimate > 0
		}
	}
	if !cut {
		t.Error("no interval reached zero, so nothing is shown")
	}
}
