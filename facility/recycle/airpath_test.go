package recycle

import (
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/process"
)

// structured is the constant plant with loads that settle and what air reaches of
// them, and a criterion for that. Its cake is drier: from wet loads the screen gives
// back wet chips with fines, which leave the next load less air.
func structured(chipsPerCake float64) plant.Model {
	m := constant()
	m.Recipe.ChipsPerCake, m.Feed.CakeSolids = chipsPerCake, twelve(0.25)
	m.Vessels.Volume = 40 // so that the payload is reached
	for _, b := range []*material.Bulk{&m.Bulk, &m.Active.Bulk, &m.Pile.Bulk} {
		b.Structure = material.DefaultStructure(material.DefaultDepth)
	}
	m.Active.AirPath, m.Pile.AirPath = process.DefaultAirPath(), process.DefaultAirPath()
	m.Active.Criteria = append(m.Active.Criteria, process.AirThroughout())
	return m
}

// Shows what a plant does with loads by how far air comes into them: with enough chips
// none fails; at 1:1.9, where loads get hot and meet every criterion of temperature,
// all are hauled away, and the run and the course of a load name the same reason.
func TestLoadsFailByWhatAirDoesNotReach(t *testing.T) {
	for _, c := range []struct {
		ratio float64
		fails bool
	}{{1.9, true}, {3.2, false}} {
		m := structured(c.ratio)
		m.WarmUp = 0
		air := len(m.Active.Criteria) - 1

		l := New(&m, time.January)
		load := l.Cake().Plus(l.FreshChips().Times(c.ratio))
		j, err := l.Travel(t.Context(), load.Times(l.Full(load)))
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range j.Verdicts {
			if v.Met != (i != air || !c.fails) {
				t.Errorf("1:%g: %s met: %v; air reaches %g", c.ratio, v.Criterion.Name, v.Met, j.Vessel.Reached)
			}
		}

		rec := ran(t, m)
		var failed, released float64
		for i := range rec.Months {
			failed += rec.Months[i].Release.Failed
			released += rec.Months[i].Release.Loads
		}
		t.Logf("1:%g: air reaches %.3f, %g of %g loads failed, by criterion %v", c.ratio, j.Vessel.Reached, failed, released, rec.FailedBy)
		switch {
		case released == 0:
			t.Errorf("1:%g: no load", c.ratio)
		case c.fails && (failed != released || rec.FailedBy[air] != failed):
			t.Errorf("1:%g: %g of %g loads failed, by criterion %v", c.ratio, failed, released, rec.FailedBy)
		case !c.fails && failed != 0:
			t.Errorf("1:%g: %g of %g loads failed, by criterion %v", c.ratio, failed, released, rec.FailedBy)
		}
	}
}
