package simulate_test

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
)

// The most cake held, of a month and of a year, is that of the records: of a year the
// most of its months in each replication, and then the mean over these. Where no
// change alters the room, its share is what was held over it.
func TestMostHeld(t *testing.T) {
	f := small(t)
	const n = 2
	p, err := plant.New(f.Model)
	if err != nil {
		t.Fatal(err)
	}
	records := runsOf(t, p, f.Seed, n)
	var all []simulate.Replication
	for i, rec := range runsOf(t, p.Unlimited(), f.Seed, n) {
		all = append(all, simulate.Replication{Usual: records[i], Free: simulate.FreeOf(rec, f.Planning.Target)})
	}
	a := simulate.AnswerOf(answer.Basis{}, p, all)
	room := f.Model.Holding.Capacity
	check := func(what string, peak, share answer.Spread, held func(*plant.Record) float64) {
		want := 0.0
		for _, rec := range records {
			want += held(rec) / n
		}
		if !(want > 0 && math.Abs(peak.Mean-want) <= 1e-9*want) {
			t.Errorf("%s: %g kg held at most, the records have %g", what, peak.Mean, want)
		}
		if math.Abs(share.Mean-want/room) > 1e-9 || share.P90 > 1+1e-9 {
			t.Errorf("%s: %g of the room, %g at most held over %g", what, share.Mean, want, room)
		}
	}
	for i := range a.Months {
		m := &a.Months[i]
		check(m.Month.String(), m.HoldingPeak, m.HoldingShare, func(rec *plant.Record) float64 { return rec.Months[i].Holding.Peak })
	}
	y := &a.Years[0]
	check(y.Label, y.HoldingPeak, y.HoldingShare, func(rec *plant.Record) float64 {
		most := 0.0
		for i := range rec.Months {
			most = max(most, rec.Months[i].Holding.Peak)
		}
		return most
	})
}
