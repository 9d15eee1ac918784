package facilityfile

import (
	"fmt"

	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// runEnd returns the second at which the run ends.
func (r *reader) runEnd() int64 { return r.clock().SecondOf(r.end()) }

// end returns the first day that is not simulated.
func (r *reader) end() calendar.Date { return r.m.Start.AddYears(r.m.Years) }

// staffed refuses hours of a stage in which the people and loaders that it needs
// are not there: they keep the yard's hours.
func (r *reader) staffed(stage, yard shifts) {
	crews := r.yardGroup.Has("loaders") || r.yardGroup.Has("operators")
	if !crews || stage.at == yard.at || !stage.good || !yard.good || !r.root.Good("horizon") {
		return
	}
	alone, found := outside(stage.work, yard.work, r.runEnd())
	if !found {
		return
	}
	stage.at.Error("week", fmt.Sprintf("loaders and operators keep the hours of the yard, and are not there on %s %s",
		weekdays[r.clock().Weekday(alone)], r.clock().Stamp(alone)), "keep within hours.week, or lengthen that")
}

// outside returns the first second before end that lies in the hours a but not
// in b.
func outside(a, b *calendar.Work, end int64) (second int64, found bool) {
	for t := a.NextOpen(0); t < end; t = a.NextOpen(t) {
		if !b.IsOpen(t) {
			return t, true
		}
		closes := a.NextClose(t)
		if next := b.NextClose(t); next < closes {
			return next, true
		}
		t = closes
	}
	return 0, false
}

// meet refuses hours of dewatering and mixing that have nothing in common: cake
// is made while a batch is mixed.
func (r *reader) meet(mixing, dewatering, yard shifts) {
	if !r.dewateringGroup.Present() || mixing.at == dewatering.at || !mixing.good || !dewatering.good || !r.root.Good("horizon") {
		return
	}
	for t, end := int64(0), r.runEnd(); t < end; {
		t = dewatering.work.NextOpen(mixing.work.NextOpen(t))
		if mixing.work.IsOpen(t) {
			return
		}
	}
	at := dewatering.at
	if at == yard.at {
		at = mixing.at
	}
	at.Error("week", "mixing and dewatering are never at work together, so that no batch is made", "let their shifts overlap")
}

// keepsUp warns of dewatering that makes less in its hours than is produced.
func (r *reader) keepsUp(dewatering shifts) {
	d := r.dewateringGroup
	if !d.Present() || !d.Good("rate_dry") || !dewatering.good || !r.root.Good("start", "horizon", "warm_up") || !(r.m.Feed.Base > 0) || !amountGood(r.group("solids")) {
		return
	}
	end := r.runEnd() - 1
	open := float64(dewatering.work.Between(0, end)) / float64(end)
	most, needed := r.m.Dewatering.Rate*24*open, r.m.Feed.Base
	for _, f := range r.m.Feedstocks {
		needed += mean(f.PerDay[:])
	}
	if most < needed {
		d.Warn("rate_dry", "in its hours it makes less than is produced in the first year",
			fmt.Sprintf("at most %s on average, against %s", units.Format(most, units.MassPerTime, r.units), units.Format(needed, units.MassPerTime, r.units)))
	}
}
