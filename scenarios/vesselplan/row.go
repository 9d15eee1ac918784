package vesselplan

import (
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
	r.OrderBy = s.study.File.Planning.VesselLead.Before(r.NeededBy)
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
func (s *search) loads(years [][]plant.Month) (stay, cakeDry float64) {
	var sum plant.Month
	for _, months := range years {
		for i := range months {
			sum.Release.Residence += months[i].Release.Residence
			sum.Release.Loads += months[i].Release.Loads
			sum.Mixing.CakeDry += months[i].Mixing.CakeDry
			sum.Loads.Filled += months[i].Loads.Filled
		}
	}
	if sum.Release.Loads > 0 {
		stay = sum.Release.Residence/sum.Release.Loads + s.study.File.Model.Vessels.Turnaround.Days()
	}
	if sum.Loads.Filled > 0 {
		cakeDry = sum.Mixing.CakeDry / sum.Loads.Filled
	}
	return stay, cakeDry
}

// static sets the handbook's estimate beside a row: the years in which it passes
// the vessels of the row, those that the file adds included.
func (g *Growth) static(r *Row, p *plant.Plant, added int) {
	r.StaticAverage, r.StaticPeak = p.Years, p.Years
	r.StaticStay = (p.Vessels.Residence + p.Vessels.Turnaround).Days()
	r.StaticCakePerLoad = p.StaticNeed(0).LoadCakeDry
	for y := p.Years - 1; y >= 0; y-- {
		have := float64(p.Vessels.Installed + added + vesselsBy(p.Changes, p.Start.AddYears(y+1)))
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
	for _, c := range changes {
		if !c.Trigger.Waits() && c.Lead.After(c.Date).Before(day) {
			n += c.Vessels
		}
	}
	return n
}
