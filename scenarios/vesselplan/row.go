package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// date sets the days by which what follows a row must be there, and be ordered.
func (s *search) date(r *Row) {
	r.NeededBy = s.study.File.Model.Start.AddMonths(r.Short * monthsPerQuarter)
	r.OrderBy = s.study.File.Planning.VesselLead.Before(r.NeededBy)
}

// begins is the part of what a year allows, of solids that leave untreated or of
// waiting, from which on they count as the beginning of a missed year.
const begins = 0.1

// begun returns the quarter in which solids begin to leave untreated, or to wait,
// in a year that misses the target by it.
func begun(months []plant.Month, t facilityfile.Target) int {
	leave := plant.UntreatedShare(months) > t.DivertedLimit
	wait := plant.CakeDelay(months) > t.DelayLimit
	fed, untreated, delayed := 0.0, 0.0, 0.0
	for i := range months {
		fed += months[i].Feed.Dry
	}
	for i := range months {
		untreated += months[i].Untreated()
		delayed += months[i].Holding.Delayed
		if leave && untreated > begins*t.DivertedLimit*fed || wait && delayed > begins*t.DelayLimit*fed {
			return i / monthsPerQuarter
		}
	}
	return quarters - 1
}

// limit returns what is short in some years: what solids wait for so much longer in
// the months in which some of them leave untreated or wait too long.
func limit(years [][]plant.Month, t facilityfile.Target) plant.Cause {
	var short, enough wait
	for _, months := range years {
		for i := range months {
			if m := &months[i]; m.Untreated() > 0 || plant.CakeDelay(months[i:i+1]) > t.DelayLimit {
				short.add(m)
			} else {
				enough.add(m)
			}
		}
	}
	most, by := plant.Cause(0), 0.0
	for i := range short.days {
		cause := plant.Cause(i)
		longer := short.mean(cause) - enough.mean(cause)
		if cause.Shortage() && longer > by {
			most, by = cause, longer
		}
	}
	return most
}

// wait adds up how long solids waited, by cause, kg dry × days, and the solids
// that came in, kg dry.
type wait struct {
	days plant.Waits
	fed  float64
}

func (w *wait) add(m *plant.Month) {
	for cause, days := range m.Waits {
		w.days[cause] += days
	}
	w.fed += m.Feed.Dry
}

// mean returns the days for which a kg waited.
func (w *wait) mean(c plant.Cause) float64 {
	if w.fed == 0 {
		return 0
	}
	return w.days[c] / w.fed
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
