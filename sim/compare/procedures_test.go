package compare

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// normals are options whose numbers are normal with the given means and
// deviations. A part of the luck, common, of deviation one, is the same for all
// options in a replication.
func normals(seed uint64, means, sds []float64, common float64) []Option {
	options := make([]Option, len(means))
	for i := range means {
		options[i] = func(_ context.Context, rep int) (float64, error) {
			shared := rand.New(rand.NewPCG(seed, uint64(rep))).NormFloat64()
			own := rand.New(rand.NewPCG(seed+uint64(i+1)<<32, uint64(rep))).NormFloat64()
			return means[i] + sds[i]*own + common*shared, nil
		}
	}
	return options
}

// slippage is the hardest case: the best leads all others by just the difference
// that matters.
func slippage(k int, difference float64) (means, sds []float64) {
	means, sds = make([]float64, k), make([]float64, k)
	for i := range k {
		means[i], sds[i] = difference, 1
	}
	means[k-1] = 0
	return means, sds
}

// runsOf is the number of runs that a selection took.
func runsOf(s Selection) int {
	n := 0
	for _, xs := range s.Values {
		n += len(xs)
	}
	return n
}

// rate selects many times and returns how often it is right, and how many runs it
// takes on average.
func rate(t *testing.T, repeats, best int, setup Setup, zone Zone, options func(seed uint64) []Option) (right, runs float64) {
	t.Helper()
	for seed := range uint64(repeats) {
		s, err := KimNelson(context.Background(), options(seed), setup, zone)
		if err != nil {
			t.Fatal(err)
		}
		if s.Best == best {
			right++
		}
		runs += float64(runsOf(s))
	}
	return right / float64(repeats), runs / float64(repeats)
}

// Shows the guarantee in the hardest case, the best leading all others by just the
// difference that matters: right in 95 % of 1,000 repeats, less 2.5 standard
// errors; and that common luck spares half of the runs and more.
func TestGuarantee(t *testing.T) {
	const repeats, k, difference = 1000, 5, 0.6
	zone := Zone{Confidence: 0.95, Indifference: difference}
	setup := Setup{First: 10, Most: 1 << 20, Workers: 1}
	means, sds := slippage(k, difference)
	least := 0.95 - 2.5*math.Sqrt(0.95*0.05/repeats)

	right, separate := rate(t, repeats, k-1, setup, zone, func(seed uint64) []Option {
		return normals(seed, means, sds, 0)
	})
	t.Logf("right in %.3f, %.0f runs", right, separate)
	if right < least {
		t.Errorf("right in %v", right)
	}
	// The same spread of each option, four fifths of its variance common to all.
	for i := range sds {
		sds[i] = math.Sqrt(0.2)
	}
	right, shared := rate(t, repeats, k-1, setup, zone, func(seed uint64) []Option {
		return normals(seed, means, sds, math.Sqrt(0.8))
	})
	t.Logf("with common luck: right in %.3f, %.0f runs", right, shared)
	if right < least || shared > separate/2 {
		t.Errorf("with common luck right in %v with %v runs, without %v", right, shared, separate)
	}
}

// Shows that workers have no influence, that Most is kept to and an answer that
// rests on too few runs says so, that the goal is a matter of sign, and that
// progress counts every run.
func TestKimNelson(t *testing.T) {
	zone := Zone{Confidence: 0.95, Indifference: 0.2}
	choose := func(options []Option, setup Setup) (Selection, error) {
		return KimNelson(context.Background(), options, setup, zone)
	}
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(2, 6).Draw(t, "options")
		means := rapid.SliceOfN(rapid.Float64Range(-1, 1), k, k).Draw(t, "means")
		sds := rapid.SliceOfN(rapid.Float64Range(0.2, 1.5), k, k).Draw(t, "deviations")
		seed := rapid.Uint64().Draw(t, "seed")
		common := rapid.SampledFrom([]float64{0, 1}).Draw(t, "common")
		setup := Setup{First: 5, Most: 5*k + rapid.IntRange(0, 600).Draw(t, "spare"), Workers: 1}
		counted, planned := 0, 0
		setup.Progress = func(done, of int) {
			if counted++; done != counted || of < done || of < planned {
				t.Errorf("progress %d of %d after %d of %d", done, of, counted-1, planned)
			}
			planned = of
		}
		options := normals(seed, means, sds, common)
		a, err := choose(options, setup)
		if err != nil {
			t.Fatal(err)
		}
		if n := runsOf(a); n > setup.Most || counted > setup.Most || n > counted || counted != planned {
			t.Fatalf("%d runs, %d counted, %d planned, %d allowed", n, counted, planned, setup.Most)
		}
		setup.Progress, setup.Workers = nil, 4
		if b, _ := choose(options, setup); !reflect.DeepEqual(a, b) {
			t.Fatalf("%+v with one worker, %+v with four", a, b)
		}
		for i, o := range options {
			options[i] = func(ctx context.Context, rep int) (float64, error) {
				x, err := o(ctx, rep)
				return -x, err
			}
		}
		setup.Goal = Highest
		if b, _ := choose(options, setup); b.Best != a.Best || b.Reached != a.Reached || runsOf(b) != runsOf(a) {
			t.Fatalf("%+v, with all signs turned %+v", a, b)
		}
	})
}

// Shows when Kim and Nelson's procedure drops an option, worked out by hand: three
// first differences of 1, 2 and 3 have variance 1; h² is 2·(0.2⁻¹ − 1) = 8 for two
// options and 0.9; with a difference that matters of 1 the allowance on sums is
// (8 − r)/2. After 3 replications the lead is 6, above 2.5. With ten times the
// spread, 10, 20, 30, it is ½(800 − 3), and with leads of 20 from then on the sum
// 20r passes ½(800 − r) at r = 20.
func TestKimNelsonByHand(t *testing.T) {
	zone := Zone{Confidence: 0.9, Indifference: 1}
	for _, tc := range []struct {
		scale   float64
		dropped int
	}{{1, 3}, {10, 20}} {
		behind := func(_ context.Context, rep int) (float64, error) {
			if rep < 3 {
				return tc.scale * float64(rep+1), nil
			}
			return tc.scale * 2, nil
		}
		zero := func(context.Context, int) (float64, error) { return 0, nil }
		s, err := KimNelson(context.Background(), []Option{behind, zero}, Setup{First: 3, Most: 1000}, zone)
		if err != nil || s.Best != 1 || !s.Reached || !reflect.DeepEqual(s.Dropped, []int{tc.dropped, 0}) {
			t.Errorf("scale %v: %+v, error %v", tc.scale, s, err)
		}
	}
}

// Shows that equal options end the search, with a chance of one half, and that a
// certain lead is certain.
func TestNothingVaries(t *testing.T) {
	zone := Zone{Confidence: 0.9, Indifference: 1}
	fixed := func(x float64) Option { return func(context.Context, int) (float64, error) { return x, nil } }
	s, err := KimNelson(t.Context(), []Option{fixed(4), fixed(4)}, Setup{First: 5, Most: 100}, zone)
	if err != nil || s.Best != 0 || s.Chance != 0.5 || runsOf(s) != 10 {
		t.Errorf("equal: %+v, error %v", s, err)
	}
	s, err = KimNelson(t.Context(), []Option{fixed(4), fixed(3)}, Setup{First: 5, Most: 100}, zone)
	if err != nil || s.Best != 1 || s.Chance != 1 || !s.Reached {
		t.Errorf("certain: %+v, error %v", s, err)
	}
}

// Shows that failures name the option and the replication, and that questions
// which make no sense are refused.
func TestErrors(t *testing.T) {
	good := normals(1, []float64{0, 0.1}, []float64{1, 1}, 0)
	zone := Zone{Confidence: 0.95, Indifference: 0.1}
	setup := Setup{First: 5, Most: 5000, Workers: 2}
	failing := func(do func() (float64, error)) []Option {
		return []Option{good[0], func(ctx context.Context, rep int) (float64, error) {
			if rep == 3 {
				return do()
			}
			return good[1](ctx, rep)
		}}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	for name, tc := range map[string]struct {
		ctx     context.Context
		options []Option
		setup   Setup
		zone    Zone
		says    string
	}{
		"error":        {t.Context(), failing(func() (float64, error) { return 0, errors.New("planted") }), setup, zone, "option 1, replication 3: planted"},
		"panic":        {t.Context(), failing(func() (float64, error) { panic("planted") }), setup, zone, "option 1, replication 3: panic: planted"},
		"NaN":          {t.Context(), failing(func() (float64, error) { return math.NaN(), nil }), setup, zone, "option 1, replication 3: its number is NaN"},
		"cancelled":    {ended, good, setup, zone, "canceled"},
		"one option":   {t.Context(), good[:1], setup, zone, "1 options"},
		"goal":         {t.Context(), good, Setup{Goal: 2, First: 5, Most: 50}, zone, "goal 2"},
		"first":        {t.Context(), good, Setup{First: 1, Most: 50}, zone, "1 replications"},
		"most":         {t.Context(), good, Setup{First: 5, Most: 9}, zone, "9 runs allowed, 10 needed"},
		"confidence":   {t.Context(), good, setup, Zone{0.5, 1}, "confidence of 0.5"},
		"certainty":    {t.Context(), good, setup, Zone{1, 1}, "confidence of 1"},
		"indifference": {t.Context(), good, setup, Zone{0.9, 0}, "difference of 0"},
	} {
		if _, err := KimNelson(tc.ctx, tc.options, tc.setup, tc.zone); err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%s: error %v, want %q", name, err, tc.says)
		}
	}
}
