package capability

import (
	"math"
	"testing"

	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// threeYears are missed by 1, 4 and 20 % of runs, begun in the third quarter by half
// of them and in the last by the rest; of two values as likely one has half as much
// and the other twice.
func threeYears() Odds {
	var o Odds
	for _, share := range []float64{0.01, 0.04, 0.2} {
		var year [Quarters]Sample
		for q, part := range []float64{0, 0, 0.5, 1} {
			at := share * part
			year[q] = Sample{at, at / 2, at * 2}
		}
		o = append(o, year)
	}
	return o
}

// Vessels run short in the quarter by whose end more runs than the limit have begun
// to miss a year: of 5 %, the third of the third year, 10 %. For all that is known it
// may be the last quarter of the second already, up to nearly twice 4 %.
func TestShortOfOdds(t *testing.T) {
	late := threeYears().Late()
	for _, c := range []struct {
		what string
		of   func(stats.Interval) float64
		want int
	}{{"by the estimate", Estimate, 2*Quarters + 2}, {"at the earliest", HighEnd, Quarters + 3}, {"at the latest", LowEnd, 2*Quarters + 2}} {
		if got := ShortIn(late, 0.05, c.of); got != c.want {
			t.Errorf("%s: short in quarter %d, by hand %d", c.what, got, c.want)
		}
	}
	if got := ShortIn(late, 0.5, HighEnd); got != 3*Quarters {
		t.Errorf("short in quarter %d where no year is", got)
	}
}

// The chance of being late before a quarter is that of the worst year that begins to
// be missed before it.
func TestLateByHand(t *testing.T) {
	o := threeYears()
	for before, want := range map[int]float64{0: 0, 2: 0, 3: 0.005, 4: 0.01, 6: 0.01, 7: 0.02, 8: 0.04, 11: 0.1, 12: 0.2} {
		if got := o.Late()[before].Estimate; math.Abs(got-want) > 1e-12 {
			t.Errorf("before quarter %d: %g, by hand %g", before, got, want)
		}
	}
}

// odds over growths are those of each by its weight.
func TestMixedOdds(t *testing.T) {
	a, b := threeYears(), threeYears()
	for q := range Quarters {
		for i := range b[1][q] {
			b[1][q][i] *= 5
		}
	}
	all := Mixed([]Odds{a, b}, []float64{0.75, 0.25})
	if got := all.Share(1)[0]; math.Abs(got-(0.75*0.04+0.25*0.2)) > 1e-12 {
		t.Errorf("a share of %g, by hand 0.08", got)
	}
	if got := all.Share(2)[2]; math.Abs(got-0.4) > 1e-12 {
		t.Errorf("a value of %g where both growths have 0.4", got)
	}
}

// A verdict is open where the other side is more likely than may be wrong. Of two
// values one is above 5 % in the second year, both are in the third, none is in the
// first.
func TestVerdictOfOdds(t *testing.T) {
	o := threeYears()
	for year, want := range []stats.Verdict{stats.Below, stats.Undecided, stats.Above} {
		if got := o.Verdict(year, 0.05, 0.1); got != want {
			t.Errorf("year %d: %v, by hand %v", year, got, want)
		}
	}
}

// A plant that becomes another within a year, by hand: of a year that 20 % of the runs
// begin to miss by half in the third quarter, and of which the other plant misses none, a
// change a third into that quarter leaves a third of that half; one on the first day of
// the year leaves nothing, and one on the last day of the horizon changes nothing.
func TestThenByHand(t *testing.T) {
	o, none := threeYears(), Constant(0, 3, 2)
	start := calendar.Date{Year: 2027, Month: 1, Day: 1}
	for _, c := range []struct {
		day  calendar.Date
		want float64 // of the third year
	}{
		{start, 0},
		{start.AddYears(2), 0},
		{start.AddYears(2).AddMonths(6), 0},
		{start.AddYears(2).AddMonths(7), 0.1 * 31 / 92}, // July of a quarter of 92 days
		{start.AddYears(2).AddMonths(9), 0.1},
		{start.AddYears(3), 0.2},
	} {
		if got := o.Then(none, QuartersUntil(start, 3, c.day)).Share(2)[0]; math.Abs(got-c.want) > 1e-12 {
			t.Errorf("a change on %v leaves %g, by hand %g", c.day, got, c.want)
		}
	}
}
