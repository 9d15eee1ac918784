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
)

// threeYears are missed by 1, 4 and 20 % of runs, begun in the third quarter by half
// of them and in the last by the rest; of two values as likely one has half as much
// and the other twice.
func threeYears() capability.Odds {
	var o capability.Odds
	for _, share := range []float64{0.01, 0.04, 0.2} {
		var year [quarters]capability.Sample
		for q, part := range []float64{0, 0, 0.5, 1} {
			at := share * part
			year[q] = capability.Sample{at, at / 2, at * 2}
		}
		o = append(o, year)
	}
	return o
}

// What a row says of the years: the first is kept, the third missed, and the second is
// open. It may be short in the last quarter of the second, or in the third of the third.
func TestRowOfOdds(t *testing.T) {
	o := threeYears()
	var r Row
	r.judge(o, 0.05, 0.1)
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
	a.Orders = a.orders(outlook{all: threeYears(), byGrowth: []capability.Odds{threeYears()}, lost: lost}, f)
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
