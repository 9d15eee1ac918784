package facilityfile

import (
	"fmt"
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
)

// structure reads how loads hold air.
func (r *reader) structure() {
	g := r.root.MapIf("structure")
	var s structure
	read(g, airAccountRows, &s)
	if s.everywhere {
		refuse(g, structureRows, "it does not count with account: "+allAir, "remove it, or write account: "+betweenParticles)
		return
	}
	read(g, structureRows, &s)
	if s.path.Half == 0 && g.Has("least_reached") && s.least > 0 && g.Good("half_reached_at", "least_reached") {
		g.Error("least_reached", "air always reaches all of a load, as half_reached_at says", "give half_reached_at, or write 0 %")
	}
	if !goodAll(g.Good) {
		return
	}
	for _, at := range []struct {
		bulk  *material.Bulk
		depth float64
	}{{&r.m.Bulk, s.vessel}, {&r.m.Active.Bulk, s.vessel}, {&r.m.Pile.Bulk, s.pad}} {
		heap := material.DefaultStructure(at.depth)
		heap.Skeleton, heap.Fines = s.skeleton, s.fines
		at.bulk.Structure, at.bulk.CoarseVoids = heap, s.voids
	}
	r.m.Active.AirPath, r.m.Pile.AirPath = s.path, s.path
	if s.path.Half > 0 && s.least > 0 {
		air := process.AirThroughout()
		air.Share = s.least
		r.m.Active.Criteria = append(r.m.Active.Criteria, air)
		r.m.Pile.Criteria = r.m.Active.Criteria
	}
}

// goodAll reports whether nothing was complained of in the group.
func goodAll(good func(keys ...string) bool) bool {
	for i := range structureRows {
		if !good(structureRows[i].Path) {
			return false
		}
	}
	return true
}

// freeOfAllAir is asked of a design where all air counts: where Haug's factor on the
// rate comes near 1 (from memory).
const freeOfAllAir = 0.30

// airy warns where the recipe leaves too little air in a load, as far as arithmetic sees
// it: with chips that come back from the screen as wet as it may get them. Where they
// come back wetter there is less.
func (r *reader) airy() {
	least := 0.0
	for _, c := range r.m.Active.Criteria {
		if c.Kind == process.Aired {
			least = c.Share
		}
	}
	if least == 0 || r.designed { // a design is not by the ratio that is written
		return
	}
	ratio := r.m.Recipe.ChipsPerCake
	worst, reached := time.January, 1.0
	for month := time.January; month <= time.December; month++ {
		if a := r.reached(ratio, month); a < reached {
			worst, reached = month, a
		}
	}
	if reached >= least {
		return
	}
	pc := func(v float64) string { return fmt.Sprintf("%.0f %%", 100*v) }
	hint := "make cake drier or vessels less deep"
	if enough, ok := r.enoughChips(least, worst); ok {
		hint = fmt.Sprintf("write at least %.1f, and more if chips come back wetter, or %s", enough, hint)
	}
	r.group("mix").Warn("chips_to_cake", fmt.Sprintf("%s of the volume of a settled %s load is free air, with chips that come back at %s moisture; it reaches %s of the load, less than the %s by which it complies",
		pc(r.freeAir(ratio, worst)), worst, pc(r.screened()), pc(math.Floor(100*reached)/100), units.Format(least, units.Fraction, units.SI)), hint)
}

// screened is how wet a lot may be screened.
func (r *reader) screened() float64 {
	if r.m.Drying.Gate != plant.ScreenAnyway {
		return r.m.Drying.Moisture
	}
	return r.m.Screening.Settings.MoistureLimit
}

// mixed is cake of a month with chips, fresh ones in place of those that are worn, lost by
// the screen or rejected.
func (r *reader) mixed(ratio float64, month time.Month) material.Parcel {
	m, s := r.m, &r.m.Screening.Settings
	cake := m.Cake.WithMoisture(1 - m.Feed.CakeSolids[month-1]).OfWet(1)
	fresh := m.Chips.Fresh.WithMoisture(m.Chips.Moisture[month-1]).OfWet(1)
	back := (1 - s.Attrition) * s.Recovery * (1 - s.Rejects) // of the coarse matter
	fines := s.CarryOver * back * fresh.Coarse.Dry()
	recovered := material.Parcel{Coarse: fresh.Coarse.Times(back), Fine: material.Solids{Refractory: fines}}
	recovered.Water = recovered.Dry() * r.screened() / (1 - r.screened())
	fresh = fresh.Times(1 - back)
	volume := m.Bulk.Volume(fresh) + m.Bulk.Volume(recovered)
	return cake.Times(1 / m.Bulk.Volume(cake)).Plus(fresh.Plus(recovered).Times(ratio / volume))
}

func (r *reader) freeAir(ratio float64, month time.Month) float64 {
	return r.m.Bulk.FreeAirSpace(r.mixed(ratio, month))
}

func (r *reader) reached(ratio float64, month time.Month) float64 {
	return r.m.Active.Reached(r.mixed(ratio, month))
}

// enoughChips returns the ratio from which air reaches enough of a load, rounded
// up, if chips can bring it about.
func (r *reader) enoughChips(least float64, month time.Month) (ratio float64, ok bool) {
	const step = 0.1
	for i := 2; i <= 100; i++ {
		if ratio = step * float64(i); r.reached(ratio, month) >= least {
			return ratio, true
		}
	}
	return 0, false
}
