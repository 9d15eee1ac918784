package compare

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
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

type procedure func(ctx context.Context, options []Option, setup Setup) (Selection, error)

func withZone(p func(context.Context, []Option, Setup, Zone) (Selection, error), z Zone) procedure {
	return func(ctx context.Context, options []Option, setup Setup) (Selection, error) {
		return p(ctx, options, setup, z)
	}
}

func untilChance(enough float64) procedure {
	return func(ctx context.Context, options []Option, setup Setup) (Selection, error) {
		return Allocate(ctx, options, setup, enough)
	}
}

// rate runs a procedure many times and returns how often it is right, and how
// many runs it takes on average.
func rate(t *testing.T, repeats, best int, p procedure, setup Setup, options func(seed uint64) []Option) (right, runs float64) {
	t.Helper()
	for seed := range uint64(repeats) {
		s, err := p(context.Background(), options(seed), setup)
		if err != nil {
			t.Fatal(err)
		}
		if s.Best == best {
			right++
		}
		runs += float64(s.Runs())
	}
	return right / float64(repeats), runs / float64(repeats)
}

// Shows the guarantee in the hardest case, the best leading all others by just the
// difference that matters: right in 95 % of 1,000 repeats, less 2.5 standard
// errors; that Rinott's procedure is not far more cautious than asked; and that
// common luck spares Kim and Nelson's half of the runs and more.
func TestGuarantee(t *testing.T) {
	const repeats, k, difference = 1000, 5, 0.6
	zone := Zone{Confidence: 0.95, Indifference: difference}
	setup := Setup{First: 10, Most: 1 << 20, Workers: 1}
	means, sds := slippage(k, difference)
	least := 0.95 - 2.5*math.Sqrt(0.95*0.05/repeats)

	right, rinott := rate(t, repeats, k-1, withZone(Rinott, zone), setup, func(seed uint64) []Option {
		return normals(seed, means, sds, 0)
	})
	t.Logf("Rinott: right in %.3f, %.0f runs", right, rinott)
	if right < least || right > 0.98 {
		t.Errorf("Rinott is right in %v", right)
	}
	right, separate := rate(t, repeats, k-1, withZone(KimNelson, zone), setup, func(seed uint64) []Option {
		return normals(seed, means, sds, 0)
	})
	t.Logf("Kim and Nelson: right in %.3f, %.0f runs", right, separate)
	if right < least || separate > rinott {
		t.Errorf("Kim and Nelson is right in %v with %v runs, Rinott's takes %v", right, separate, rinott)
	}
	// The same spread of each option, four fifths of its variance common to all.
	for i := range sds {
		sds[i] = math.Sqrt(0.2)
	}
	right, shared := rate(t, repeats, k-1, withZone(KimNelson, zone), setup, func(seed uint64) []Option {
		return normals(seed, means, sds, math.Sqrt(0.8))
	})
	t.Logf("with common luck: right in %.3f, %.0f runs", right, shared)
	if right < least || shared > separate/2 {
		t.Errorf("with common luck right in %v with %v runs, without %v", right, shared, separate)
	}
}

// Shows that for the same number of runs allocation is right more often than an
// equal number for each: ten options at equal steps, one standard deviation twice
// the others, as in the experiments of the paper (setting of our own).
func TestAllocateBeatsEqualShares(t *testing.T) {
	const repeats, k, budget = 600, 10, 400
	means, sds := make([]float64, k), make([]float64, k)
	for i := range k {
		means[i], sds[i] = 0.5*float64(i), 2
	}
	sds[1] = 4
	options := func(seed uint64) []Option { return normals(seed, means, sds, 0) }
	allocated, _ := rate(t, repeats, 0, untilChance(0.999999), Setup{First: 10, Most: budget, Workers: 1}, options)
	equal, _ := rate(t, repeats, 0, untilChance(0.999999), Setup{First: budget / k, Most: budget, Workers: 1}, options)
	t.Logf("right in %.3f, with equal shares in %.3f", allocated, equal)
	if se := math.Sqrt((allocated*(1-allocated) + equal*(1-equal)) / repeats); allocated < equal+3*se {
		t.Errorf("right in %v, with equal shares in %v", allocated, equal)
	}
}

// Shows the shares against the rule worked out by hand for leads 1 and 2 and
// variances 4: ratios (2/1)² = 4 and (2/2)² = 1, and for the best
// 2·√(16/4 + 1/4) = √17.
func TestShares(t *testing.T) {
	around := func(mean float64) []float64 { return []float64{mean - math.Sqrt2, mean + math.Sqrt2} }
	got := shares(1, [][]float64{around(1), around(0), around(2)}, Lowest)
	total := 4 + 1 + math.Sqrt(17)
	for i, want := range []float64{4 / total, math.Sqrt(17) / total, 1 / total} {
		if math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("share %d is %v, want %v", i, got[i], want)
		}
	}
	if got := shares(0, [][]float64{{1, 1}, {2, 2}}, Lowest); got != nil {
		t.Errorf("shares %v where nothing varies", got)
	}
}

// Shows that each option gets the replications that its own spread calls for, and
// none that another one gets too.
func TestRinottSecondStage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(2, 5).Draw(t, "options")
		sds := rapid.SliceOfN(rapid.Float64Range(0.1, 4), k, k).Draw(t, "deviations")
		zone := Zone{Confidence: 0.9, Indifference: 1}
		setup := Setup{First: 6, Most: 1 << 20, Workers: 2}
		options := normals(rapid.Uint64().Draw(t, "seed"), make([]float64, k), sds, 0)
		asked := make([]int, k)
		for i, o := range options {
			options[i] = func(ctx context.Context, rep int) (float64, error) {
				if rep%k != i {
					return 0, errors.New("a replication of another option")
				}
				return o(ctx, rep)
			}
		}
		s, err := Rinott(context.Background(), options, setup, zone)
		if err != nil {
			t.Fatal(err)
		}
		h := RinottConstant(k, 6, 0.9)
		for i, xs := range s.Values {
			asked[i] = max(6, int(math.Ceil(h*h*stat.Variance(xs[:6], nil))))
			if len(xs) != asked[i] {
				t.Fatalf("option %d has %d replications, want %d", i, len(xs), asked[i])
			}
		}
		if !s.Reached || s.Best != bestMean(s.Values, Lowest) {
			t.Fatalf("%+v", s)
		}
	})
}

// Shows, for every procedure, that workers have no influence, that Most is kept to
// and an answer that rests on too few runs says so, that the goal is a matter of
// sign, and that progress counts every run.
func TestProcedures(t *testing.T) {
	zone := Zone{Confidence: 0.95, Indifference: 0.2}
	for name, p := range map[string]procedure{
		"Rinott":     withZone(Rinott, zone),
		"Kim-Nelson": withZone(KimNelson, zone),
		"allocate":   untilChance(0.95),
	} {
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
					t.Errorf("%s: progress %d of %d after %d of %d", name, done, of, counted-1, planned)
				}
				planned = of
			}
			options := normals(seed, means, sds, common)
			a, err := p(context.Background(), options, setup)
			if err != nil {
				t.Fatal(err)
			}
			if a.Runs() > setup.Most || a.Runs() != counted || a.Runs() != planned {
				t.Fatalf("%s: %d runs, %d counted, %d planned, %d allowed", name, a.Runs(), counted, planned, setup.Most)
			}
			setup.Progress, setup.Workers = nil, 4
			if b, _ := p(context.Background(), options, setup); !reflect.DeepEqual(a, b) {
				t.Fatalf("%s: %+v with one worker, %+v with four", name, a, b)
			}
			for i, o := range options {
				options[i] = func(ctx context.Context, rep int) (float64, error) {
					x, err := o(ctx, rep)
					return -x, err
				}
			}
			setup.Goal = Highest
			if b, _ := p(context.Background(), options, setup); b.Best != a.Best || b.Reached != a.Reached || b.Runs() != a.Runs() {
				t.Fatalf("%s: %+v, with all signs turned %+v", name, a, b)
			}
			setup.Goal, setup.Most = Lowest, 5*k
			b, _ := p(context.Background(), normals(seed, make([]float64, k), sds, common), setup)
			certain := func(is bool) {
				if b.Reached != is {
					t.Fatalf("%s: equal options after 5 replications: %+v", name, b)
				}
			}
			switch name {
			case "allocate":
				certain(b.Chance >= 0.95)
			case "Rinott": // where so little varied that the first stage was enough
				h := RinottConstant(k, setup.First, zone.Confidence)
				certain(!slices.ContainsFunc(b.Values, func(xs []float64) bool {
					return h*h*stat.Variance(xs, nil) > float64(setup.First)*zone.Indifference*zone.Indifference
				}))
			}
		})
	}
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

// Shows that equal options end the procedures, with a chance of one half, and that
// a certain lead is certain.
func TestNothingVaries(t *testing.T) {
	zone := Zone{Confidence: 0.9, Indifference: 1}
	fixed := func(x float64) Option { return func(context.Context, int) (float64, error) { return x, nil } }
	for name, p := range map[string]procedure{
		"Rinott": withZone(Rinott, zone), "Kim-Nelson": withZone(KimNelson, zone), "allocate": untilChance(0.9),
	} {
		s, err := p(context.Background(), []Option{fixed(4), fixed(4)}, Setup{First: 5, Most: 100})
		if err != nil || s.Best != 0 || s.Chance != 0.5 || s.Runs() != 10 {
			t.Errorf("%s, equal: %+v, error %v", name, s, err)
		}
		s, err = p(context.Background(), []Option{fixed(4), fixed(3)}, Setup{First: 5, Most: 100})
		if err != nil || s.Best != 1 || s.Chance != 1 || !s.Reached {
			t.Errorf("%s, certain: %+v, error %v", name, s, err)
		}
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
			if rep == 15 {
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
		"error":        {t.Context(), failing(func() (float64, error) { return 0, errors.New("planted") }), setup, zone, "option 1, replication 15: planted"},
		"panic":        {t.Context(), failing(func() (float64, error) { panic("planted") }), setup, zone, "option 1, replication 15: panic: planted"},
		"NaN":          {t.Context(), failing(func() (float64, error) { return math.NaN(), nil }), setup, zone, "option 1, replication 15: its number is NaN"},
		"cancelled":    {ended, good, setup, zone, "canceled"},
		"one option":   {t.Context(), good[:1], setup, zone, "1 options"},
		"goal":         {t.Context(), good, Setup{Goal: 2, First: 5, Most: 50}, zone, "goal 2"},
		"first":        {t.Context(), good, Setup{First: 1, Most: 50}, zone, "1 replications"},
		"most":         {t.Context(), good, Setup{First: 5, Most: 9}, zone, "9 runs allowed, 10 needed"},
		"confidence":   {t.Context(), good, setup, Zone{0.5, 1}, "confidence of 0.5"},
		"certainty":    {t.Context(), good, setup, Zone{1, 1}, "confidence of 1"},
		"indifference": {t.Context(), good, setup, Zone{0.9, 0}, "difference of 0"},
	} {
		for _, p := range []procedure{withZone(Rinott, tc.zone), withZone(KimNelson, tc.zone)} {
			if _, err := p(tc.ctx, tc.options, tc.setup); err == nil || !strings.Contains(err.Error(), tc.says) {
				t.Errorf("%s: error %v, want %q", name, err, tc.says)
			}
		}
		_, err := Allocate(tc.ctx, tc.options, tc.setup, tc.zone.Confidence)
		if name != "indifference" && (err == nil || !strings.Contains(err.Error(), tc.says)) {
			t.Errorf("%s: error %v, want %q", name, err, tc.says)
		}
	}
}
