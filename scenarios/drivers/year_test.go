package drivers

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/scenarios/capability"
	"loamcast/sim/threshold"
)

// When what is carried is passed, by hand: 0 in a year is just what is carried.
func TestPassed(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name        string
		years       []float64
		rise        float64
		at          float64
		kept, begun float64
	}{
		{"a quarter of the way from the third year to the fourth", []float64{-0.3, -0.2, -0.1, 0.3}, 0.1, 3.25, 0, 0},
		{"just carried is kept", []float64{-0.1, 0, 0.1}, 0.1, 2, 0, 0},
		{"in the first year, half of a rise above", []float64{0.05, 0.15}, 0.1, 0.5, 0, 0},
		{"from the first year on by far", []float64{0.25, 0.35}, 0.1, 0, 0, 1},
		{"from the first year on, without growth", []float64{0.01, 0.01}, 0, 0, 0, 1},
		{"never", []float64{-0.1, 0, 0}, 0.1, 3, 1, 0},
		{"recovers", []float64{-0.1, 0.1, -0.1, 0.1}, 0.1, 1.5, 0, 0},
		{"carries all, then nothing", []float64{-inf, inf}, 0.1, 1, 0, 0},
	} {
		got := passed(c.years, c.rise)
		if math.Abs(got.value-c.at) > 1e-12 || got.kept != c.kept || got.begun != c.begun {
			t.Errorf("%s: %+v; by hand %g, kept %g, begun %g", c.name, got, c.at, c.kept, c.begun)
		}
	}
}

// The first year above what is carried is the one after whose beginning the time lies,
// with a plant that carries less it is never later, and it moves without jumps as what is
// carried does, where production rises.
func TestPassedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rises := rapid.SliceOfN(rapid.Float64Range(0.001, 0.1), 1, 20).Draw(t, "rises")
		years := []float64{rapid.Float64Range(-0.5, 0.1).Draw(t, "first")}
		for _, rise := range rises {
			years = append(years, years[len(years)-1]+rise)
		}
		at := passed(years, rises[0])
		first := slices.IndexFunc(years, func(y float64) bool { return y > 0 })
		if (at.kept == 1) != (first < 0) || first >= 0 && (at.value < float64(first) || at.value > float64(first+1)) {
			t.Fatalf("%+v; the first year above is %d", at, first)
		}
		less := rapid.Float64Range(0, 1e-6).Draw(t, "less")
		worse := slices.Clone(years)
		for i := range worse {
			worse[i] += less
		}
		if sooner := passed(worse, rises[0]); sooner.value > at.value+1e-9 || sooner.value < at.value-less/0.001-1e-9 {
			t.Fatalf("a plant that carries %g less: %g, after %g", less, sooner.value, at.value)
		}
	})
}

// What is carried in each year is that of the plant in force, and in a year in which it
// changes the least of both; a plant without a curve carries all or nothing.
func TestLimits(t *testing.T) {
	of := func(carried float64) *capability.Capability {
		return &capability.Capability{Curve: &threshold.Curve{Mean: math.Log(carried), Within: 0.05}}
	}
	stages := []capability.Stage{{After: 0, Capability: of(700)}, {After: 4, Capability: of(900)}, {After: 10, Capability: of(800)},
		{After: 12, Capability: &capability.Capability{}}, {After: 16, Capability: &capability.Capability{Never: true}}}
	got := limits(stages, 5, 0.5)
	for year, want := range []float64{700, 900, 800, math.Inf(1), 0} {
		if !(math.Abs(got[year]-want) < 1e-9 || got[year] == want) {
			t.Errorf("year %d: %g, by hand %g", year, got[year], want)
		}
	}
	if at := limits(stages[:1], 1, 0.05)[0]; math.Abs(at-700*math.Pow(1-0.15*1.6449, 0.05/0.15)) > 0.01 {
		t.Errorf("at 5 %% of the years %g is carried", at)
	}
}

// Where what the plant carries tells nothing after all, it is found once more by runs of
// the whole horizon, and the answer says why and nothing of what was found before; any
// other failure stays one.
func TestWhatIsCarriedMayNotTell(t *testing.T) {
	other := errors.New("another")
	for _, c := range []struct {
		first  error
		asked  int
		by     string
		failed error
	}{
		{nil, 1, "", nil},
		{other, 1, "", other},
		{fmt.Errorf("%w, in replication 3", capability.ErrApart), 2, "one run is nowhere near", nil},
	} {
		p, a, asked := &planner{yearly: &yearly{}, done: 5, years: 90}, &Answer{Median: 3, Main: "fast", Kept: 0.5, Begun: 0.5}, 0
		err := p.orByRuns(a, func() error {
			if asked++; asked == 1 {
				return c.first
			}
			if p.yearly != nil || p.done != 0 || p.years != 0 || a.Median != 0 || a.Main != "" || a.Kept != 0 || a.Begun != 0 {
				t.Errorf("%v: found again from %+v and %+v", c.first, p, a)
			}
			return nil
		})
		if asked != c.asked || !errors.Is(err, c.failed) || !strings.Contains(a.ByRuns, c.by) || c.by == "" && a.ByRuns != "" {
			t.Errorf("%v: found %d times, by %q, %v", c.first, asked, a.ByRuns, err)
		}
	}
}
