package vesselplan

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
	"loamcast/sim/threshold"
)

// threeYears are missed by 1, 4 and 20 % of runs, begun in the third quarter by half
// of them and in the last by the rest; of two values as likely one has half as much
// and the other twice.
func threeYears() odds {
	var o odds
	for _, share := range []float64{0.01, 0.04, 0.2} {
		var year [quarters]sample
		for q, part := range []float64{0, 0, 0.5, 1} {
			at := share * part
			year[q] = sample{at, at / 2, at * 2}
		}
		o = append(o, year)
	}
	return o
}

// Vessels run short in the quarter by whose end more runs than the limit have begun
// to miss a year: of 5 %, the third of the third year, 10 %. For all that is known it
// may be the last quarter of the second already, up to nearly twice 4 %.
func TestShortOfOdds(t *testing.T) {
	late := threeYears().late()
	for _, c := range []struct {
		what string
		of   func(stats.Interval) float64
		want int
	}{{"by the estimate", estimate, 2*quarters + 2}, {"at the earliest", highEnd, quarters + 3}, {"at the latest", lowEnd, 2*quarters + 2}} {
		if got := shortIn(late, 0.05, c.of); got != c.want {
			t.Errorf("%s: short in quarter %d, by hand %d", c.what, got, c.want)
		}
	}
	if got := shortIn(late, 0.5, highEnd); got != 3*quarters {
		t.Errorf("short in quarter %d where no year is", got)
	}
}

// The chance of being late before a quarter is that of the worst year that begins to
// be missed before it.
func TestLateByHand(t *testing.T) {
	o := threeYears()
	for before, want := range map[int]float64{0: 0, 2: 0, 3: 0.005, 4: 0.01, 6: 0.01, 7: 0.02, 8: 0.04, 11: 0.1, 12: 0.2} {
		if got := o.late()[before].Estimate; math.Abs(got-want) > 1e-12 {
			t.Errorf("before quarter %d: %g, by hand %g", before, got, want)
		}
	}
}

// Odds over growths are those of each by its weight.
func TestMixedOdds(t *testing.T) {
	a, b := threeYears(), threeYears()
	for q := range quarters {
		for i := range b[1][q] {
			b[1][q][i] *= 5
		}
	}
	all := mixed([]odds{a, b}, []float64{0.75, 0.25})
	if got := all.share(1)[0]; math.Abs(got-(0.75*0.04+0.25*0.2)) > 1e-12 {
		t.Errorf("a share of %g, by hand 0.08", got)
	}
	if got := all.share(2)[2]; math.Abs(got-0.4) > 1e-12 {
		t.Errorf("a value of %g where both growths have 0.4", got)
	}
}

// A verdict is open where the other side is more likely than may be wrong. Of two
// values one is above 5 % in the second year, both are in the third, none is in the
// first.
func TestVerdictOfOdds(t *testing.T) {
	o := threeYears()
	for year, want := range []stats.Verdict{stats.Below, stats.Undecided, stats.Above} {
		if got := o.verdict(year, 0.05, 0.1); got != want {
			t.Errorf("year %d: %v, by hand %v", year, got, want)
		}
	}
	var r Row
	o.row(&r, 0.05, 0.1)
	if r.LastKept != 0 || r.FirstMissed != 2 || r.Short != quarters+3 || r.ShortTo != 2*quarters+2 || len(r.Shares) != 3 {
		t.Errorf("%+v", r)
	}
}

// Orders: the sample's years from 2027, and a lead of half a year: who orders by the
// end of a quarter has vessels two quarters later.
func TestOrdersByHand(t *testing.T) {
	a := &Answer{Basis: answer.Basis{Start: calendar.Date{Year: 2027, Month: 1, Day: 1}, Horizon: 3, Target: facilityfile.Target{MissShare: 0.05}}, Lead: calendar.Span{Months: 6}}
	f := &facilityfile.File{}
	f.Planning.Priced = true
	f.Planning.Economy.Prices.Tipping = money.Price{Amount: 0.1}
	for month := range f.Model.Feed.CakeSolids {
		f.Model.Feed.CakeSolids[month] = 0.2
	}
	lost := make([]float64, 12)
	lost[7], lost[11] = 100, 900
	a.Orders = a.orders(outlook{all: threeYears(), byGrowth: []odds{threeYears()}, lost: lost}, f)
	if len(a.Orders) != 10 {
		t.Fatalf("%d orders", len(a.Orders))
	}
	// By the end of Q4 2028 (the eighth): in use on 1 July 2029, when two quarters
	// of the third year have begun. Of the second, 4 % of runs miss.
	o := a.Orders[7]
	if o.Quarter != (calendar.Date{Year: 2028, Month: 10, Day: 1}) || o.InUse != (calendar.Date{Year: 2029, Month: 7, Day: 1}) || math.Abs(o.Late.Estimate-0.04) > 1e-12 || o.Untreated != 100 || math.Abs(o.Cost-50) > 1e-9 {
		t.Errorf("%+v", o)
	}
	// One quarter later a tenth of the runs have begun to miss the third.
	if next := a.Orders[8]; math.Abs(next.Late.Estimate-0.1) > 1e-12 {
		t.Errorf("%+v", next)
	}
	// For all that is known the second year may be missed by more than 5 %. It begins
	// to be missed in its third quarter, by half: the latest order has vessels in use
	// by its last, by the end of Q1 2028.
	if a.Latest() != 5-1 {
		t.Errorf("the latest in time is %d", a.Latest())
	}
}

// How many at a time: the next order must not be due before these are in use, and of
// the numbers left the cheapest is taken. With one more, short a year later, the next
// would be due before it is in use; two at 150 a piece are cheaper than three.
func TestBatchByHand(t *testing.T) {
	start := calendar.Date{Year: 2027, Month: 1, Day: 1}
	row := func(vessels, short int) Row {
		r := Row{Vessels: vessels, Short: short, NeededBy: start.AddMonths(3 * short)}
		r.OrderBy = r.NeededBy.AddMonths(-18)
		return r
	}
	a := &Answer{Basis: answer.Basis{Start: start, Horizon: 20}, Lead: calendar.Span{Months: 18},
		Growths: []Growth{{Rows: []Row{row(8, 20)}}}, All: Growth{Rows: []Row{row(8, 20), row(9, 24), row(10, 40), row(11, 48), row(12, 80)}}}
	f := &facilityfile.File{}
	if b := a.batch(f); b.Vessels != 2 || b.Why != ByTime || b.Next != 40 || !math.IsNaN(b.Worth) {
		t.Errorf("without prices: %+v", b)
	}
	f.Planning.Priced = true
	f.Planning.Economy.Rates = money.Rates{Stated: 2027, Start: 2027, Discount: 0.05}
	step := func(vessels int, cost float64) facilityfile.Step {
		s := facilityfile.Step{Change: plant.Change{Vessels: vessels}}
		s.Asset = money.Asset{Cost: money.Price{Amount: cost}, Life: 20}
		return s
	}
	f.Planning.Catalogue = []facilityfile.Step{step(1, 200), step(2, 300), {Change: plant.Change{Vessels: 1, Pad: 5}, Asset: money.Asset{Cost: money.Price{Amount: 1}, Life: 20}}}
	if b := a.batch(f); b.Vessels != 2 || b.Why != ByWorth || !(b.Worth < b.OneByOne) {
		t.Errorf("with pairs at 150 a piece: %+v", b)
	}
	f.Planning.Catalogue = append(f.Planning.Catalogue, step(4, 310))
	if b := a.batch(f); b.Vessels != 4 {
		t.Errorf("with four for 310: %+v", b)
	}
	a.All.Rows = a.All.Rows[:2]
	if b := a.batch(f); b.Why != AllTold {
		t.Errorf("where one more is all that fits: %+v", b)
	}
}

// The profile of years: what leaves untreated rises with production, by the mean of
// neighbours that fall, and beyond what was tried so much is treated as at its end.
func TestProfileByHand(t *testing.T) {
	trial := func(load, untreated float64, quarter int) capability.Trial {
		months := make([]plant.Month, 12)
		for i := range months {
			months[i].Feed.Dry = 100
		}
		months[quarter*3].Holding.DivertedDry = untreated * 1200
		return capability.Trial{Load: load, Missed: untreated > 0.01, Months: months}
	}
	c := &threshold.Curve{Mean: math.Log(100), Within: 0.1}
	p := newProfile(c, [][]capability.Trial{{trial(90, 0, 0), trial(100, 0.04, 2), trial(105, 0.02, 2), trial(120, 0.2, 1)}}, facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3})
	if got := p.lostAt(p.at(80)); got != 0 {
		t.Errorf("%g of a light year is lost", got)
	}
	if got := p.lostAt(p.at(math.Sqrt(100 * 105))); math.Abs(got-0.03) > 1e-9 {
		t.Errorf("%g between two years that lose 4 and 2 %%, by hand 3 %%", got)
	}
	if got := p.lostAt(p.at(240)); math.Abs(got-(1-0.8/2)) > 1e-9 {
		t.Errorf("%g of twice the heaviest year, of which 80 %% were treated, by hand 0.6", got)
	}
	if low, high := p.begunBy(p.at(100)), p.begunBy(p.at(130)); !(low[1] < 0.1) || !(high[1] > 0.9) || low[3] != 1 || high[3] != 1 {
		t.Errorf("begun by the second quarter: %v of years near the limit, %v of heavy ones", low, high)
	}
	if w := p.when; math.Abs(w[1]-0.2/0.26) > 1e-9 || w[0] != 0 {
		t.Errorf("what is lost leaves in the parts %v", w)
	}
}
