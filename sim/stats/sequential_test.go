package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// fivePercent asks whether at most 5 % of runs miss.
var fivePercent = ShareTest{Low: 0.03, High: 0.07, WrongAbove: 0.05, WrongBelow: 0.05}

// characteristic computes exactly, by adding up over the numbers of hits that are
// still undecided, with what chance the test ends above and how long it takes.
func characteristic(s ShareTest, p float64) (above, trials float64) {
	hit, miss := s.steps()
	low, high := s.bounds()
	alive := map[int]float64{0: 1} // by hits
	for n := 1; len(alive) > 0; n++ {
		next := map[int]float64{}
		for hits, chance := range alive {
			trials += chance
			for _, step := range []struct {
				hits   int
				chance float64
			}{{hits + 1, chance * p}, {hits, chance * (1 - p)}} {
				ratio := float64(step.hits)*hit + float64(n-step.hits)*miss
				switch {
				case ratio >= high:
					above += step.chance
				case ratio > low && step.chance > 1e-15:
					next[step.hits] += step.chance
				}
			}
		}
		alive = next
	}
	return above, trials
}

// expectedTrials returns about how many trials the test takes when the true
// probability is Low, and when it is High, by Wald's approximation. It leaves out
// that the last trial goes past the bound, so the truth is somewhat more. In
// between it may take several times as many.
func expectedTrials(s ShareTest) (atLow, atHigh float64) {
	hit, miss := s.steps()
	below, above := s.bounds()
	expected := func(p, aboveChance float64) float64 {
		return (aboveChance*above + (1-aboveChance)*below) / (p*hit + (1-p)*miss)
	}
	return expected(s.Low, s.WrongAbove), expected(s.High, 1-s.WrongBelow)
}

// Shows, exactly, that the chances of error keep to Wald's bounds, and that the
// expected number of trials is the one he gives or a little more.
func TestShareTestErrors(t *testing.T) {
	for _, s := range []ShareTest{
		fivePercent,
		{Low: 0.01, High: 0.05, WrongAbove: 0.1, WrongBelow: 0.05},
		{Low: 0.4, High: 0.6, WrongAbove: 0.01, WrongBelow: 0.2},
	} {
		atLow, trialsLow := characteristic(s, s.Low)
		atHigh, trialsHigh := characteristic(s, s.High)
		t.Logf("%+v: wrong %.4f and %.4f, trials %.0f and %.0f", s, atLow, 1-atHigh, trialsLow, trialsHigh)
		if atLow > s.WrongAbove/(1-s.WrongBelow) || 1-atHigh > s.WrongBelow/(1-s.WrongAbove) || atLow+1-atHigh > s.WrongAbove+s.WrongBelow {
			t.Errorf("%+v: wrong with %v and %v", s, atLow, 1-atHigh)
		}
		if atLow < s.WrongAbove/3 || 1-atHigh < s.WrongBelow/3 {
			t.Errorf("%+v: far more cautious than asked, %v and %v", s, atLow, 1-atHigh)
		}
		wantLow, wantHigh := expectedTrials(s)
		if trialsLow < 0.97*wantLow || trialsLow > 1.3*wantLow || trialsHigh < 0.97*wantHigh || trialsHigh > 1.3*wantHigh {
			t.Errorf("%+v: %v and %v trials, expected %v and %v", s, trialsLow, trialsHigh, wantLow, wantHigh)
		}
	}
}

// Shows where the test decides without a single hit, and with nothing but hits:
// the least n with n·ln(0.93/0.97) ≤ ln(0.05/0.95), and with n·ln(7/3) ≥ ln 19
// (derived).
func TestShareTestEnds(t *testing.T) {
	never := make([]bool, 100)
	always := make([]bool, 100)
	for i := range always {
		always[i] = true
	}
	if v, n := fivePercent.Decide(never); v != Below || n != 70 {
		t.Errorf("never: %v after %d", v, n)
	}
	if v, n := fivePercent.Decide(always); v != Above || n != 4 {
		t.Errorf("always: %v after %d", v, n)
	}
	if v, n := fivePercent.Decide(never[:69]); v != Undecided || n != 69 {
		t.Errorf("one less: %v after %d", v, n)
	}
}

// Shows that the verdict, and the number of trials that it rests on, do not depend
// on how many more there are: with fewer trials the test is undecided.
func TestShareTestStops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0, 0.3).Draw(t, "p")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		trials := make([]bool, 300)
		for i := range trials {
			trials[i] = r.Float64() < p
		}
		verdict, read := fivePercent.Decide(trials)
		n := rapid.IntRange(0, len(trials)).Draw(t, "n")
		early, after := fivePercent.Decide(trials[:n])
		if n >= read && (early != verdict || after != read) {
			t.Fatalf("%v after %d of %d, %v after %d of all", early, after, n, verdict, read)
		}
		if n < read && (early != Undecided || after != n) {
			t.Fatalf("%v after %d of %d, but %d decide", early, after, n, read)
		}
	})
}

// Shows that tests which make no sense are refused, and others not.
func TestShareTestRefusals(t *testing.T) {
	for _, test := range []ShareTest{
		{0, 0.1, 0.05, 0.05},
		{0.1, 0.1, 0.05, 0.05},
		{0.1, 1, 0.05, 0.05},
		{0.1, 0.2, 0, 0.05},
		{0.1, 0.2, 0.05, 0},
		{0.1, 0.2, 0.5, 0.5},
		{0.1, math.NaN(), 0.05, 0.05},
	} {
		if test.Check() == nil {
			t.Errorf("%+v: no error", test)
		}
	}
	if err := fivePercent.Check(); err != nil {
		t.Error(err)
	}
}

// With one trial fewer than the least the test cannot say "below", with the least
// it can. By hand, for 2 and 10 % and errors of 5 %: ln(0.05/0.95)/ln(0.90/0.98) =
// 34.6.
func TestLeastTrials(t *testing.T) {
	for _, c := range []struct {
		test ShareTest
		want int
	}{
		{ShareTest{Low: 0.02, High: 0.1, WrongAbove: 0.05, WrongBelow: 0.05}, 35},
		{ShareTest{Low: 0.004, High: 0.02, WrongAbove: 0.1, WrongBelow: 0.1}, 136},
		{ShareTest{Low: 0.08, High: 0.4, WrongAbove: 0.05, WrongBelow: 0.05}, 7},
	} {
		least := c.test.Least()
		if least != c.want {
			t.Errorf("%+v needs %d trials, by hand %d", c.test, least, c.want)
		}
		if v, _ := c.test.Decide(make([]bool, least)); v != Below {
			t.Errorf("%+v is %v after %d trials", c.test, v, least)
		}
		if v, _ := c.test.Decide(make([]bool, least-1)); v != Undecided {
			t.Errorf("%+v is %v after %d trials", c.test, v, least-1)
		}
	}
}
