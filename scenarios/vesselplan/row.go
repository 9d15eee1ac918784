package vesselplan

import (
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Parts of the year in which vessels are ordered and needed.
const (
	quarters         = capability.Quarters
	monthsPerQuarter = capability.MonthsPerQuarter
)

// date sets the days by which what follows a row must be there, and be ordered.
func (s *search) date(r *Row) {
	r.NeededBy = s.study.File.Model.Start.AddMonths(r.Short * monthsPerQuarter)
	f := s.study.File
	extra := r.Vessels - f.Model.Vessels.Installed
	r.OrderBy = f.Planning.LeadOf(f.NextClasses(extra + 1)[extra]).Before(r.NeededBy)
}

// judge sets what a row says of the years.
func (r *Row) judge(o capability.Odds, limit, wrong float64) {
	r.LastKept, r.FirstMissed = -1, len(o)
	keeping := true
	for year := range o {
		r.Shares = append(r.Shares, o.Share(year).Interval())
		switch o.Verdict(year, limit, wrong) {
		case stats.Above:
			r.FirstMissed = min(r.FirstMissed, year)
			keeping = false
		case stats.Undecided:
			keeping = false
		case stats.Below:
			if keeping {
				r.LastKept = year
			}
		}
	}
	late := o.Late()
	r.Short, r.ShortTo = capability.ShortIn(late, limit, capability.HighEnd), capability.ShortIn(late, limit, capability.LowEnd)
}

// loads returns how long a load took a vessel in some years, turnaround included,
// days, and the dry cake in it, kg.
func (s *search) loads(years []*capability.Sums) (stay, cakeDry float64) {
	var sum plant.Month
	for _, sums := range years {
		year := sums.Sum()
		sum.Release.Residence += year.Release.Residence
		sum.Release.Loads += year.Release.Loads
		sum.Mixing.CakeDry += year.Mixing.CakeDry
		sum.Loads.Filled += year.Loads.Filled
	}
	if sum.Release.Loads > 0 {
		stay = sum.Release.Residence/sum.Release.Loads + s.study.File.Model.MeanVessels().Turnaround.Days()
	}
	if sum.Loads.Filled > 0 {
		cakeDry = sum.Mixing.CakeDry / sum.Loads.Filled
	}
	return stay, cakeDry
}

// static sets the handbook's estimate beside a row: the years in which it passes
// the vessels of the row, those that the file adds included. Those added by the row are
// of some classes.
func (g *Growth) static(r *Row, p *plant.Plant, added []int) {
	r.StaticAverage, r.StaticPeak = p.Years, p.Years
	need := p.StaticNeed(0)
	r.StaticStay, r.StaticCakePerLoad = need.Stay, need.LoadCakeDry
	for y := p.Years - 1; y >= 0; y-- {
		byClass := p.Vessels.VesselsWith(by(p.Changes, p.Start.AddYears(y+1)))
		for _, class := range added {
			byClass[class]++
		}
		have := p.Worth(byClass)
		if g.StaticMean[y] > have {
			r.StaticAverage = y
		}
		if g.StaticPeak[y] > have {
			r.StaticPeak = y
		}
	}
}

// vesselsBy returns how many vessels changes with a date have added before a
// day.
func vesselsBy(changes []plant.Change, day calendar.Date) int {
	n := 0
	for _, c := range by(changes, day) {
		n += c.Vessels
	}
	return n
}

// by returns the changes with a date that are in force before a day.
func by(changes []plant.Change, day calendar.Date) []plant.Change {
	return slices.DeleteFunc(slices.Clone(changes), func(c plant.Change) bool {
		return c.Trigger.Waits() || !c.Lead.After(c.Date).Before(day)
	})
}
