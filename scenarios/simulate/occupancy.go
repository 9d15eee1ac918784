package simulate

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Occupancy is what each vessel is in over three months, in one replication.
type Occupancy struct {
	Replication int
	From, Until calendar.Date // Until is the first day after them
	Asked       bool          // for these months; else they are the quarter in which the holding is first at its fullest
	Fullest     float64       // share of the room in the holding, the most in them
	Vessels     []string      // names of those that there are in them
	Stays       []Stay
}

// Stay is a time that a vessel spends in one phase, in days from Occupancy.From on.
type Stay struct {
	Vessel   int    // by place in Occupancy.Vessels
	Load     uint64 // by number, 0 if there is none
	Phase    plant.Phase
	Waits    plant.Cause // for what, in the phases that wait
	From, To float64
}

// quarter is how many months an occupancy tells of.
const quarter = 3

// monthOf reads the first of the months that are asked for, such as 2031-07, and finds
// its place among those of the horizon. An error is an *answer.OptionError.
func monthOf(text string, start calendar.Date, years int) (int, error) {
	year, month, ok := strings.Cut(text, "-")
	y, err := strconv.Atoi(year)
	m, wrong := strconv.Atoi(month)
	if !ok || err != nil || wrong != nil || m < 1 || m > calendar.MonthsPerYear {
		return 0, answer.WrongOption("quarter", "%q: write its first month as 2031-07", text)
	}
	at := calendar.MonthsPerYear*(y-start.Year) + m - int(start.Month)
	if last := calendar.MonthsPerYear*years - quarter; at < 0 || at > last {
		first, end := start, start.AddMonths(last)
		return 0, answer.WrongOption("quarter", "%s: the months simulated let three begin from %d-%02d to %d-%02d", text, first.Year, first.Month, end.Year, end.Month)
	}
	return at, nil
}

// fullestQuarter is the first month of the quarter of the calendar in which the holding
// is first at its fullest.
func fullestQuarter(months []plant.Month) int {
	best, most := 0, -1.0
	for i := 0; i+quarter <= len(months); i++ {
		if (months[i].Month-time.January)%quarter != 0 {
			continue
		}
		if full := fullest(months[i : i+quarter]); full > most+1e-9 {
			best, most = i, full
		}
	}
	return best
}

// fullest is the greatest share of the room in the holding that is filled.
func fullest(months []plant.Month) float64 {
	return most(months, func(m *plant.Month) float64 { return m.Holding.Fullest })
}

// occupancy tells the stays of three months; first is the place of the first of them.
func occupancy(p *plant.Plant, rec *plant.Record, stays []plant.Stay, first int, asked bool) Occupancy {
	months := rec.Months[first : first+quarter]
	o := Occupancy{Replication: rec.Replication, Asked: asked, Fullest: fullest(months)}
	o.From = calendar.Date{Year: months[0].Year, Month: months[0].Month, Day: 1}
	o.Until = o.From.AddMonths(quarter)
	clock := calendar.Clock{Start: p.Begin()}
	from, until := sim.Time(clock.SecondOf(o.From)), sim.Time(clock.SecondOf(o.Until))
	of := map[int]plant.Stay{} // of each vessel, one
	for _, s := range stays {
		if s.To <= from || s.From >= until {
			continue
		}
		of[s.Vessel] = s
		o.Stays = append(o.Stays, Stay{
			Vessel: s.Vessel, Load: s.Load, Phase: s.Phase, Waits: s.Waits,
			From: max(s.From, from).Sub(from).Days(), To: min(s.To, until).Sub(from).Days(),
		})
	}
	for n := range len(of) { // vessels are never taken away
		name := fmt.Sprintf("Vessel %d", n+1)
		if class := p.Vessels.ClassName(of[n].Class); class != "" {
			name = fmt.Sprintf("%d, %s", n+1, class)
		}
		o.Vessels = append(o.Vessels, name)
	}
	slices.SortStableFunc(o.Stays, func(a, b Stay) int {
		return cmp.Or(cmp.Compare(a.Vessel, b.Vessel), cmp.Compare(a.From, b.From))
	})
	return o
}

// months are those that it tells of.
func (o *Occupancy) months() []calendar.Date {
	return []calendar.Date{o.From, o.From.AddMonths(1), o.From.AddMonths(2)}
}

// name is how the months are called: "July to September 2031".
func (o *Occupancy) name() string {
	last := o.From.AddMonths(quarter - 1)
	if last.Year != o.From.Year {
		return fmt.Sprintf("%s %d to %s %d", o.From.Month, o.From.Year, last.Month, last.Year)
	}
	return fmt.Sprintf("%s to %s %d", o.From.Month, last.Month, last.Year)
}

// waiting reports whether a load waits in its vessel for something.
func (s *Stay) waiting() bool { return s.Phase == plant.FullWaits || s.Phase == plant.DueWaits }

// shares are what parts of the time of all vessels loads compost, and wait, and the
// causes of the waiting, the longest first.
func (o *Occupancy) shares() (composts, waits float64, causes []Cause) {
	all, by := 0.0, map[plant.Cause]float64{}
	for i := range o.Stays {
		s := &o.Stays[i]
		days := s.To - s.From
		all += days
		switch {
		case s.Phase == plant.OnAir:
			composts += days
		case s.waiting():
			waits += days
			by[s.Waits] += days
		}
	}
	for c := range plant.CauseNames {
		if days := by[plant.Cause(c)]; days > 0 {
			causes = append(causes, Cause{plant.CauseNames[c], perUnit(days, waits)})
		}
	}
	slices.SortStableFunc(causes, func(a, b Cause) int { return cmp.Compare(b.Share, a.Share) })
	return perUnit(composts, all), perUnit(waits, all), causes
}

// phaseNames are the phases in files.
var phaseNames = map[plant.Phase]string{
	plant.StandsEmpty: "empty", plant.Filling: "filling", plant.FullWaits: "full and waiting", plant.OnAir: "composting",
	plant.DriesOn: "drying", plant.DueWaits: "due and waiting", plant.TurnedRound: "being turned round",
	plant.Serviced: "maintenance", plant.OutOfUse: "out of use",
}

// waitsFor is what a load waits for in words, by the name of the cause.
func waitsFor(cause string) string {
	switch cause {
	case plant.CauseNames[plant.OffShift]:
		return "until work begins"
	case plant.CauseNames[plant.Broken]:
		return "for repairs"
	case plant.CauseNames[plant.TooWet]:
		return "for lots that dry on the pad"
	case plant.CauseNames[plant.StoreFull], plant.CauseNames[plant.ScreenBusy], plant.CauseNames[plant.NoTruck], plant.CauseNames[plant.NoLoader]:
		return "for the " + cause
	case plant.CauseNames[plant.NoOperator], plant.CauseNames[plant.NoPlace]:
		return "for an " + cause
	}
	return "for " + cause
}
