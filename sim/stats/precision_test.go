package stats

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

// draw is a job whose number depends on the replication alone.
func draw(_ context.Context, rep int) (float64, error) {
	return normal(rand.New(rand.NewPCG(77, uint64(rep))).Float64), nil
}

func meanWithin(absolute float64) Target[float64] {
	return Target[float64]{Name: "level", Value: identity, Estimate: MeanInterval, Level: 0.95, Absolute: absolute}
}

// Shows that replication goes on until the half-width is reached and not longer:
// at the end it is, one batch before it was not.
func TestReplicateStopsAtWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		effort := Effort{First: rapid.IntRange(5, 40).Draw(t, "first"), Batch: rapid.IntRange(1, 30).Draw(t, "batch"), Most: 5000}
		want := rapid.Float64Range(0.1, 0.5).Draw(t, "half-width")
		out := must(Replicate(context.Background(), effort, []Target[float64]{meanWithin(want)}, draw, nil))
		n := len(out.Results)
		if !out.Reached || out.Findings[0].Interval.HalfWidth() > want || (n-effort.First)%effort.Batch != 0 {
			t.Fatalf("%d replications, %+v", n, out.Findings)
		}
		if n > effort.First {
			if before := must(MeanInterval(out.Results[:n-effort.Batch], 0.95)); before.HalfWidth() <= want {
				t.Fatalf("%v was reached one batch earlier", before.HalfWidth())
			}
		}
	})
}

// Shows that the number of workers has no influence, and that progress counts all
// replications up to those of the end.
func TestReplicateWhateverTheWorkers(t *testing.T) {
	targets := []Target[float64]{
		meanWithin(0.15),
		{Name: "90 % point", Value: identity, Estimate: OfQuantile(0.9), Level: 0.9, Absolute: 0.3},
		{Name: "above 1", Value: identity, Estimate: OfShare(1), Level: 0.9, Absolute: 0.06, Relative: 0.01},
	}
	var first Outcome[float64]
	for i, workers := range []int{1, 2, 8} {
		last := 0
		out := must(Replicate(context.Background(), Effort{First: 20, Batch: 16, Most: 4000, Workers: workers}, targets, draw,
			func(done, planned int) {
				if done != last+1 || planned < done {
					t.Errorf("progress %d of %d after %d", done, planned, last)
				}
				last = done
			}))
		if i == 0 {
			first = out
		}
		if !reflect.DeepEqual(out, first) || last != len(out.Results) || !out.Reached {
			t.Errorf("%d workers: %d replications, %+v", workers, len(out.Results), out.Findings)
		}
	}
	// The 90 % point and the share of a normal quantity: 1.2816 and 15.87 %
	// (statistical tables, memory).
	near(t, "90 % point", first.Findings[1].Interval.Estimate, 1.2816, 0.3)
	near(t, "share above 1", first.Findings[2].Interval.Estimate, 0.1587, 0.06)
}

// Shows what is said when the effort ends first: not reached, how far off, and
// about how many it would take, which then does.
func TestNotReached(t *testing.T) {
	effort := Effort{First: 20, Batch: 20, Most: 100}
	out := must(Replicate(context.Background(), effort, []Target[float64]{meanWithin(0.05)}, draw, nil))
	f := out.Findings[0]
	if out.Reached || f.Reached || len(out.Results) != 100 {
		t.Fatalf("%d replications, %+v", len(out.Results), f)
	}
	// About (1.96/0.05)² = 1537; the deviation is known from 100 numbers to 7 %.
	near(t, "projected", float64(f.Projected), 1537, 450)
	for _, says := range []string{"level: ", "not the ± 0.05 asked for", "that takes about "} {
		if !strings.Contains(f.String(), says) {
			t.Errorf("%q does not say %q", f, says)
		}
	}
	effort.Most = f.Projected * 12 / 10
	if out = must(Replicate(context.Background(), effort, []Target[float64]{meanWithin(0.05)}, draw, nil)); !out.Reached {
		t.Errorf("not reached with 1.2 × %d", f.Projected)
	}
	if got := out.Findings[0].String(); !strings.HasSuffix(got, ", as asked") {
		t.Errorf("reached says %q", got)
	}
}

// Shows that replications which are all equal are not taken for certainty before
// 59 of them, and that a quantile without a bound yet is not reached.
func TestNoWidthIsNotCertainty(t *testing.T) {
	constant := func(context.Context, int) (float64, error) { return 3, nil }
	out := must(Replicate(context.Background(), Effort{First: 5, Batch: 1, Most: 200}, []Target[float64]{meanWithin(1)}, constant, nil))
	if !out.Reached || len(out.Results) != 59 {
		t.Errorf("reached %v after %d", out.Reached, len(out.Results))
	}
	out = must(Replicate(context.Background(), Effort{First: 5, Batch: 1, Most: 20}, []Target[float64]{meanWithin(1)}, constant, nil))
	if f := out.Findings[0]; out.Reached || f.Projected != 59 {
		t.Errorf("after 20: %+v", f)
	}
	high := Target[float64]{Name: "high", Value: identity, Estimate: OfQuantile(0.95), Level: 0.95, Relative: 0.5}
	out = must(Replicate(context.Background(), Effort{First: 5, Batch: 5, Most: 20}, []Target[float64]{high}, draw, nil))
	if f := out.Findings[0]; out.Reached || f.Projected != 0 || !math.IsInf(f.Interval.High, 1) {
		t.Errorf("a quantile without a bound: %+v", f)
	}
}

// Shows that a relative bound follows the size of the estimate, and that with an
// absolute one beside it the easier of the two is enough.
func TestRelativeAndAbsolute(t *testing.T) {
	target := Target[float64]{Name: "x", Value: func(x float64) float64 { return x - 20 }, Estimate: MeanInterval, Level: 0.95, Relative: 0.01}
	effort := Effort{First: 10, Batch: 5, Most: 2000}
	relative := must(Replicate(context.Background(), effort, []Target[float64]{target}, draw, nil))
	near(t, "asked for", relative.Findings[0].Wanted, 0.2, 0.005)
	target.Absolute = 0.4
	both := must(Replicate(context.Background(), effort, []Target[float64]{target}, draw, nil))
	near(t, "asked for", both.Findings[0].Wanted, 0.4, 0)
	if len(both.Results) >= len(relative.Results) {
		t.Errorf("%d replications with the wider bound, %d without", len(both.Results), len(relative.Results))
	}
}

// Shows that failures say which replication, also in a later batch, that numbers
// which are none are refused, and demands that make no sense too.
func TestReplicateErrors(t *testing.T) {
	effort := Effort{First: 10, Batch: 10, Most: 100, Workers: 2}
	at := func(rep int, do func() (float64, error)) func(context.Context, int) (float64, error) {
		return func(ctx context.Context, i int) (float64, error) {
			if i == rep {
				return do()
			}
			return draw(ctx, i)
		}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	plain := func() (float64, error) { return 0, nil }
	bad := meanWithin(0.01)
	bad.Level = 1
	for name, tc := range map[string]struct {
		ctx    context.Context
		effort Effort
		target Target[float64]
		job    func(context.Context, int) (float64, error)
		says   string
	}{
		"error":      {t.Context(), effort, meanWithin(0.01), at(34, func() (float64, error) { return 0, errors.New("planted") }), "planted"},
		"panic":      {t.Context(), effort, meanWithin(0.01), at(34, func() (float64, error) { panic("planted") }), "replication 34: panic: planted"},
		"NaN":        {t.Context(), effort, meanWithin(0.01), at(34, func() (float64, error) { return math.NaN(), nil }), "level of replication 34 is NaN"},
		"cancelled":  {ended, effort, meanWithin(0.01), draw, "canceled"},
		"level":      {t.Context(), effort, bad, draw, "level: stats: confidence level 1"},
		"no bound":   {t.Context(), effort, meanWithin(0), draw, "asks for a half-width of 0"},
		"bound NaN":  {t.Context(), effort, meanWithin(math.NaN()), draw, "NaN"},
		"first of 1": {t.Context(), Effort{First: 1, Batch: 1, Most: 9}, meanWithin(1), at(0, plain), "can't begin with 1"},
		"no batch":   {t.Context(), Effort{First: 2, Most: 9}, meanWithin(1), at(0, plain), "add 0 at a time"},
		"most":       {t.Context(), Effort{First: 5, Batch: 1, Most: 4}, meanWithin(1), at(0, plain), "end at 4"},
	} {
		_, err := Replicate(tc.ctx, tc.effort, []Target[float64]{tc.target}, tc.job, nil)
		if err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%s: error %v, want %q", name, err, tc.says)
		}
	}
}
