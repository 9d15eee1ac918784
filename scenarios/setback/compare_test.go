package setback

import (
	"math"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// quiet is a run of two years of 1,000 kg a month in which nothing is lost, and cake waits
// half a day.
func quiet() run {
	r := run{months: make([]month, 24)}
	for i := range r.months {
		r.months[i] = month{fed: 1000, delayed: 500, held: 100, fullest: 0.1}
	}
	return r
}

// A setback of March, by hand. In ten runs, each of 12,000 kg in twelve months: in March 2 %
// more leaves untreated, 20 kg, half of it in a load that fails, and in April each kg waits
// one day longer, which is 1,000 kg·d over 12,000 kg; in half of the runs another 40 kg in
// May. What happened in February, or a year later, is not counted.
//
//	untreated   20 or 60 kg: 40 in the mean; half of the runs either side by 20, so that the
//	            standard deviation is √(10·400/9) = 21.08, and with t = 1.833 of 9 degrees
//	            the mean is sure to 1.833·21.08/√10 = 12.22 kg
//	waits       1/12 day
//	felt        until the end of April: 2 %, and a day. In May it is 2 % of what comes in in
//	            the mean, with the same deviation: with t = 3.25 that is 20 ± 21.7 kg, which
//	            may be nothing
func TestCompareByHand(t *testing.T) {
	a := &Answer{Wrong: 0.05}
	a.Target = facilityfile.Target{MissShare: 0.05}
	var with, without []run
	for i := range 10 {
		x, y := quiet(), quiet()
		y.months[7].untreated = 5 // in both
		x.months[7].untreated = 5
		x.months[1].untreated, x.months[14].untreated = 500, 500 // before, and after
		x.months[2].untreated, x.months[2].failed, x.months[2].lost = 20, 10, 1
		x.months[3].delayed += 1000
		x.months[3].held, x.months[3].fullest = 900, 0.9
		x.tipping, y.tipping = 300, 100
		if i%2 == 0 {
			x.months[4].untreated = 40
			x.missed[2] = true
		}
		x.missed[1], y.missed[3] = true, true // of other twelve months
		with, without = append(with, x), append(without, y)
	}
	b := a.compare(calendar.Date{Year: 2030, Month: 3, Day: 1}, 2, with, without)
	for what, c := range map[string]struct{ got, want float64 }{
		"untreated":         {b.Untreated.Mean, 40},
		"least":             {b.Untreated.P10, 20},
		"most":              {b.Untreated.P90, 60},
		"sure of the mean":  {b.Untreated.Interval.HalfWidth(), 12.22},
		"in failed loads":   {b.Failed.Mean, 10},
		"loads":             {b.Lost.Mean, 1},
		"waits":             {b.Delay.Mean, 1. / 12},
		"tipping":           {b.Tipping.Mean, 200},
		"fullest":           {b.Fullest.P50, 0.9},
		"fullest without":   {b.FullestWithout.P50, 0.1},
		"held most":         {b.PeakHeld.P50, 900},
		"solids":            {b.solids, 12000},
		"misses":            {b.Missed.Estimate, 0.5},
		"misses without":    {b.Without.Estimate, 0},
		"felt, months":      {float64(b.Felt), 2},
		"felt from January": {float64(feltFor(with, without, 0)), 4},
	} {
		if math.Abs(c.got-c.want) > 0.005 {
			t.Errorf("%s: %g, by hand %g", what, c.got, c.want)
		}
	}
	if b.Verdict != stats.Above || b.VerdictWithout == stats.Above {
		t.Errorf("the target is %v with it and %v without", judged(b.Verdict), judged(b.VerdictWithout))
	}
	if same := a.compare(b.From, 2, without, without); same.Felt != 0 || !same.Nothing() || same.Untreated.Interval.Low != 0 || same.Delay.Mean != 0 {
		t.Errorf("runs differ from themselves: %+v", same)
	}
}

// Where the chance lies, beside 5 %, by what 64 runs let believe. Of the beta distribution
// there lie above 5 %, integrated numerically: after 0 of 64 misses 1.0 %, 1: 8.8 %, which
// is open at 5 % and not at 10, 3: 49 %, 5: 85 %, 7: 97.6 %, 20: all but 7e-12.
func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		missed int
		wrong  float64
		want   stats.Verdict
	}{
		{0, 0.05, stats.Below}, {1, 0.05, stats.Undecided}, {1, 0.1, stats.Below}, {3, 0.05, stats.Undecided},
		{7, 0.05, stats.Above}, {20, 0.001, stats.Above}, {5, 0.05, stats.Undecided},
	} {
		a := &Answer{Wrong: c.wrong}
		a.Target.MissShare = 0.05
		if i, got := a.chance(c.missed, 64); got != c.want || i.Estimate != float64(c.missed)/64 {
			t.Errorf("%d of 64 with %g wrong: %s, %g", c.missed, c.wrong, judged(got), i.Estimate)
		}
	}
}

// The beginnings that cost least and most, by hand: of what leaves untreated; where that is
// next to nothing everywhere, of waiting. Beginnings of which a run pairs with the best and
// differs either way are as good as it.
func TestRank(t *testing.T) {
	begin := func(untreated, delay []float64) Begin {
		b := Begin{untreated: untreated, delay: delay, solids: 1000}
		b.Untreated, b.Delay = excessOf(untreated), excessOf(delay)
		return b
	}
	none := []float64{0, 0, 0, 0}
	y := Year{Begins: []Begin{
		begin([]float64{3, 4, 3, 4}, none), begin([]float64{1, 2, 1, 2}, none), begin([]float64{2, 1, 2, 1}, none), begin([]float64{9, 9, 9, 8}, none),
	}}
	y.rank(0.05)
	if y.ByDelay || y.Least != 1 || y.Most != 3 || len(y.Alike) != 1 || y.Alike[0] != 2 || !y.Told() || y.Apart.Estimate != 7.25 {
		t.Errorf("ranked as %+v", y)
	}
	y = Year{Begins: []Begin{begin([]float64{0, 0.1, 0, 0}, []float64{1, 1, 1, 1.2}), begin(none, []float64{2, 2, 2, 2.4}), begin(none, []float64{0, 3, 0, 3})}}
	y.rank(0.05)
	if !y.ByDelay || y.Least != 0 || y.Most != 1 || !y.Told() || len(y.Alike) != 1 || y.Alike[0] != 2 {
		t.Errorf("ranked by waiting as %+v", y)
	}
}
