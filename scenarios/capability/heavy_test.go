package capability

import (
	"flag"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// How many runs of each kind TestAsHeavyInWholeRuns compares.
var heavyRuns = flag.Int("heavy.runs", 300, "runs of TestAsHeavyInWholeRuns")

// inMonths is a year of months.
func inMonths(of func(month int) float64) []float64 {
	out := make([]float64, calendar.MonthsPerYear)
	for i := range out {
		out[i] = of(i)
	}
	return out
}

// jumping is a year of 100 kg a day in the mean that jumps by 20 at mid year.
func jumping() []float64 {
	return inMonths(func(month int) float64 { return 90 + 20*float64(month/6) })
}

// By hand, of a year of 100 kg a day in the mean with 1 % that may leave untreated, where
// nothing swings: even production and what rises by 2 % are as heavy as their mean. What
// jumps by 20 % at mid year leaves 12 of 1,200 above 110 - 12/6 = 108 a day, as heavy as
// 108/0.99; where nothing may, as its highest month, also where it swings.
func TestHeavyByHand(t *testing.T) {
	for _, c := range []struct {
		name             string
		months           []float64
		may, swing, want float64
	}{
		{"even", inMonths(func(int) float64 { return 100 }), 0.01, 0, 100},
		{"even, and swings", inMonths(func(int) float64 { return 100 }), 0.01, 0.2, 100},
		{"rises slowly", inMonths(func(month int) float64 { return 100 + (float64(month)-5.5)/6 }), 0.01, 0, 100},
		{"jumps", jumping(), 0.01, 0, 108 / 0.99},
		{"jumps, and nothing may leave", jumping(), 0, 0, 110},
		{"jumps and swings, and nothing may leave", jumping(), 0, 0.2, 110},
	} {
		if got := newScale(c.may, c.swing).heavy(c.months); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g, by hand %g", c.name, got, c.want)
		}
	}
}

// Production that swings is as heavy as counting says: of two thousand equally likely days
// of each month, and of even production, as much is above what is carried.
func TestHeavyByCounting(t *testing.T) {
	const days, may = 2000, 0.01
	for _, swing := range []float64{0.02, 0.08, 0.3} {
		var day []float64
		for i := range days {
			day = append(day, math.Exp(swing*distuv.UnitNormal.Quantile((float64(i)+0.5)/days)-swing*swing/2))
		}
		left := func(load, carried float64) float64 {
			sum := 0.0
			for _, times := range day {
				sum += max(0, load*times-carried) / days
			}
			return sum
		}
		where := func(low, high float64, above func(x float64) bool) float64 {
			for high-low > 1e-6*low {
				if x := (low + high) / 2; above(x) {
					low = x
				} else {
					high = x
				}
			}
			return low
		}
		months := jumping()
		carried := where(50, 500, func(x float64) bool {
			sum := 0.0
			for _, load := range months {
				sum += left(load, x) / calendar.MonthsPerYear
			}
			return sum > may*100
		})
		want := where(50, 500, func(x float64) bool { return left(x, carried) < may*x })
		if got := newScale(may, swing).heavy(months); math.Abs(got-want) > 0.02 {
			t.Errorf("a swing of %g: as heavy as %.3f, by counting %.3f", swing, got, want)
		}
	}
}

// Whatever the months, what may leave and how production swings: it is as heavy as even
// production between its mean and its highest month, and twice the production twice as.
func TestHeavyHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		months := rapid.SliceOfN(rapid.Float64Range(50, 200), calendar.MonthsPerYear, calendar.MonthsPerYear).Draw(t, "months")
		w := newScale(rapid.SampledFrom([]float64{0, 1e-6, 1e-3, 0.01, 0.1, 0.5}).Draw(t, "may"), rapid.SampledFrom([]float64{0, 1e-3, 0.05, 0.2, 0.8}).Draw(t, "swing"))
		mean, most := stat.Mean(months, nil), slices.Max(months)
		got := w.heavy(months)
		if !(got > mean*(1-1e-6)) || !(got < most*(1+1e-6)) {
			t.Fatalf("%v are as heavy as %g, their mean is %g", months, got, mean)
		}
		twice := slices.Clone(months)
		for i := range twice {
			twice[i] *= 2
		}
		if again := w.heavy(twice); math.Abs(again-2*got) > 1e-6*got {
			t.Fatalf("twice as much is as heavy as %g, not %g", again, 2*got)
		}
	})
}

// By hand, of a load that takes a vessel for 20 days and a holding that takes what comes in
// 4: the mean of 24 days of which each is correlated with the next by 0.9 has
// (19 − 180·(1 − 0.9²⁴)/24)/24 of the variance of one. A plant with no swing has none.
func TestScaleByHand(t *testing.T) {
	f := swinging(t)
	part := (19 - 180*(1-math.Pow(0.9, 24))/24) / 24
	want := math.Sqrt(math.Log1p(0.2 * 0.2 * part))
	if got := scaleOf(f); math.Abs(got.swing-want) > 1e-12 || got.may != 0.01 {
		t.Errorf("%+v, by hand a swing of %g", got, want)
	}
	f.Model.Feed.Noise.CV = 0
	if got := scaleOf(f); got.swing != 0 || math.Abs(got.even-0.99) > 1e-12 {
		t.Errorf("%+v where nothing swings", got)
	}
}

// swinging is the small plant of expand, of which production swings for weeks: 2.5 t are
// what comes in 4 days.
func swinging(t *testing.T) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open("../expand/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Feed.Noise = random.AR1Lognormal{CV: 0.2, Correlation: 0.9}
	return f
}

// A year that jumps by a fifth at its middle is missed by as many runs as one of even
// production that is as heavy, or by some two points more (1,200 runs; so few as here are
// three points off). Were its swing left out, even production would be held for 4 % too
// heavy, which misses 12 points more; held for no heavier than its mean it misses 17 less.
func TestAsHeavyInWholeRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	f := swinging(t)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	const mean, jump, fewer, more = 632, 0.2, -0.04, 0.08
	months := inMonths(func(month int) float64 { return mean / (1 + jump/2) * (1 + jump*float64(month/6)) })
	missed := func(base float64, growth plant.Growth) float64 {
		c := study.Case{Alter: func(m *plant.Model) {
			*m = m.Window(1, 2)
			m.Feed.Base, m.Feed.Growth, m.Years = base, growth, 2
		}}
		runs, err := study.Each(t.Context(), s, study.Runs(&c, 0, *heavyRuns), func(r *study.Result) (bool, error) {
			return f.Planning.Target.Missed(r.Record.Months[calendar.MonthsPerYear:]), nil
		}, nil)
		if err != nil {
			t.Fatal(err)
		}
		n := 0.0
		for _, run := range runs {
			if run {
				n++
			}
		}
		return n / float64(len(runs))
	}
	jumps := missed(months[0], jumpsAfter{1.5, jump})
	even := missed(scaleOf(f).heavy(months), plant.Compound{})
	t.Logf("%.3f of the runs miss a year that jumps, %.3f one of even production as heavy", jumps, even)
	if by := jumps - even; by < fewer || by > more {
		t.Errorf("%.3f of the runs miss a year that jumps, %.3f one of even production as heavy", jumps, even)
	}
}

// jumpsAfter is growth by a part at one time, years.
type jumpsAfter struct{ years, by float64 }

func (j jumpsAfter) Factor(years float64) float64 {
	if years < j.years {
		return 1
	}
	return 1 + j.by
}
