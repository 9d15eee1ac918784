package vesselplan_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
)

// The years found with single years and few of them are those of a plain run over
// the whole horizon, wherever production goes and whatever the file changes on the
// way. Noise is off. Years near the target may be judged either way, and so may
// those that bring almost what the vessels carry, 100 kg a day each: a year by
// itself knows nothing of a holding that fills for years. A year within which the plant
// changes, or production rises much, may be told as missed although it is kept: that a
// holding bridges some weeks is not reckoned with.
func TestSingleYearsAgreeWithWholeRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	s, err := study.New(handFile(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		base, rate, holding float64
		want                string
	}{
		{600, 0, 6000, "always kept"},
		{720, 0.06, 6000, "missed later"},
		{930, 0.01, 6000, "missed at once"},
		{793, -0.0187, 20000, "always kept, nearly what is carried and then less"},
	} {
		t.Run(c.want, func(t *testing.T) {
			f := *s.File
			f.Model.Feed.Base, f.Model.Holding.Capacity = c.base, c.holding
			if got := agreesWithWholeRun(t, s, &f, plant.Linear{Rate: c.rate}); !strings.HasPrefix(c.want, got) {
				t.Errorf("%g kg/day that grow by %g a year: %s", c.base, c.rate, got)
			}
		})
	}
	few(t, 15)
	rapid.Check(t, func(t *rapid.T) {
		f := *s.File
		f.Model.Feed.Base = float64(rapid.IntRange(600, 950).Draw(t, "base"))
		growth := drawGrowth(t)
		f.Model.Holding.Capacity = rapid.SampledFrom([]float64{2500, 6000, 20000}).Draw(t, "holding")
		f.Model.Changes = drawChanges(t, &f.Model)
		agreesWithWholeRun(t, s, &f, growth)
	})
}

// failer is what testing and rapid have in common.
type failer interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// agreesWithWholeRun compares the years that are found for a file under a growth
// with those of one run of the whole horizon, and tells which they are.
func agreesWithWholeRun(t failer, s *study.Study, f *facilityfile.File, growth plant.Growth) string {
	t.Helper()
	f.Planning.Growths = slices.Clone(f.Planning.Growths)
	f.Planning.Growths[0].Growth, f.Model.Feed.Growth = growth, growth
	one := *s
	one.File = f
	a, err := vesselplan.Ask(context.Background(), &one, answer.Setup{}, vesselplan.Options{UpTo: f.Model.Vessels.Installed, Runs: capability.Fewest, Wrong: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	result, err := one.Simulate(context.Background(), study.Run{Case: &study.Case{}})
	if err != nil {
		t.Fatal(err)
	}
	row := a.Growths[0].Rows[0]
	year := 0
	for months := range slices.Chunk(result.Record.Months, 12) {
		untreated, delay := plant.UntreatedShare(months)/f.Planning.Target.DivertedLimit, plant.CakeDelay(months)/f.Planning.Target.DelayLimit
		clear := (max(untreated, delay) > 3 || max(untreated, delay) < 1./3) && !balanced(result.Record, year)
		missed := f.Planning.Target.Missed(months)
		if clear && (year <= row.LastKept && missed || year == row.FirstMissed && !missed && !changes(&f.Model, year) && !rises(growth, year)) {
			t.Fatalf("kept through %d and missed from %d; in a whole run year %d leaves %.2f of what may and waits %.2f", row.LastKept, row.FirstMissed, year, untreated, delay)
		}
		if year == row.FirstMissed {
			break
		}
		year++
	}
	// The range is told with the usual chance of error, the years with a larger one, so that
	// it may begin before the last of them; it does not end before.
	if row.ShortTo < row.Short || row.LastKept >= 0 && row.ShortTo/4 < row.LastKept {
		t.Fatalf("kept through %d; short in quarters %d to %d", row.LastKept, row.Short, row.ShortTo)
	}
	switch {
	case row.LastKept == a.Horizon-1:
		return "always kept"
	case row.LastKept < 0:
		return "missed at once"
	}
	return "missed later"
}

// changes reports whether a change takes effect within a year, after its first day.
func changes(m *plant.Model, year int) bool {
	return slices.ContainsFunc(m.Changes, func(c plant.Change) bool {
		at := c.Lead.After(c.Date)
		return m.Start.AddYears(year).Before(at) && at.Before(m.Start.AddYears(year+1))
	})
}

// rises reports whether production differs within a year by more than a twentieth.
func rises(growth plant.Growth, year int) bool {
	least, most := math.Inf(1), 0.0
	for month := range 13 {
		factor := growth.Factor(float64(year) + float64(month)/12)
		least, most = min(least, factor), max(most, factor)
	}
	return most > 1.05*least
}

// few lets rapid draw fewer plants than it would, for each takes seconds, where
// nobody has asked for more.
func few(t *testing.T, checks int) {
	t.Helper()
	const usual = "100"
	f := flag.Lookup("rapid.checks")
	if f.Value.String() != usual {
		return
	}
	if err := f.Value.Set(strconv.Itoa(checks)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Value.Set(usual); err != nil {
			t.Error(err)
		}
	})
}

// balanced reports whether a year brings almost what the vessels carry that it
// begins or ends with.
func balanced(rec *plant.Record, year int) bool {
	fed := 0.0
	for _, m := range rec.Months[12*year : 12*year+12] {
		fed += m.Feed.Dry
	}
	for _, y := range rec.Years[max(0, year-1) : year+1] {
		if carried := 365 * 100 * float64(y.Installed); math.Abs(fed/carried-1) < 0.05 {
			return true
		}
	}
	return false
}

// drawGrowth draws production that rises and falls.
func drawGrowth(t *rapid.T) plant.Growth {
	switch rapid.IntRange(0, 2).Draw(t, "form") {
	case 0:
		return plant.Linear{Rate: rapid.Float64Range(-0.02, 0.08).Draw(t, "rate")}
	case 1:
		var steps plant.Steps
		for i := range rapid.IntRange(1, 3).Draw(t, "steps") {
			steps = append(steps, plant.Point{At: 3*float64(i) + rapid.Float64Range(1, 3.9).Draw(t, "at"), Value: rapid.Float64Range(0.8, 1.5).Draw(t, "factor")})
		}
		return steps
	}
	lines := plant.Lines{{At: 0, Value: 1}}
	for i := range rapid.IntRange(1, 3).Draw(t, "corners") {
		lines = append(lines, plant.Point{At: 4*float64(i) + rapid.Float64Range(1, 4.9).Draw(t, "at"), Value: rapid.Float64Range(0.8, 1.5).Draw(t, "factor")})
	}
	return lines
}

// drawChanges draws vessels that the file itself adds.
func drawChanges(t *rapid.T, m *plant.Model) []plant.Change {
	var changes []plant.Change
	for i := range rapid.IntRange(0, 2).Draw(t, "changes") {
		changes = append(changes, plant.Change{
			Name: fmt.Sprint("vessels ", i), Vessels: rapid.IntRange(1, 3).Draw(t, "vessels"),
			Date: m.Start.AddDays(rapid.IntRange(0, 4000).Draw(t, "day")), Lead: calendar.Span{Months: rapid.IntRange(0, 8).Draw(t, "months of lead"), Days: rapid.IntRange(0, 60).Draw(t, "days of lead")},
		})
	}
	return changes
}
