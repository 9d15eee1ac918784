package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// StaircaseTerminal writes when the next vessels must be ordered: the answer, the
// staircase of every growth scenario, how sure it is, and what the handbook's
// estimate says.
func StaircaseTerminal(w io.Writer, a *vesselplan.Answer, sys units.System) error {
	s := staircase{newPage(sys), a}
	s.para("%s", s.headline())
	s.others()
	s.para("%s", s.sure())
	if a.Invented {
		s.para("%s: %s", shorten(printable(a.Facility), 40), inventedNotice)
	}
	s.table("What each number of vessels lasts for", s.columns())
	s.notes()
	s.blank()
	s.para("! A plan, not a certificate or an order: quotations, the permitting authority and a licensed engineer decide what is bought and built.")
	return s.writeTo(w)
}

type staircase struct {
	*page
	a *vesselplan.Answer
}

// headline is the answer for the growth that is believed in most.
func (s staircase) headline() string {
	a, g := s.a, s.a.Main()
	first := &g.Rows[0]
	vessels := vesselCount(first.Vessels)
	if a.Committed {
		vessels += " and those that the file adds"
	}
	one := first.Vessels == 1 && !a.Committed
	switch {
	case first.LastKept == a.Years-1:
		return fmt.Sprintf("%s %s the service target in every year through %s: no more need be ordered.",
			capital(vessels), verb(one, "keeps", "keep"), a.Label(a.Years-1))
	case !g.VesselsHelp():
		last := &g.Rows[len(g.Rows)-1]
		return fmt.Sprintf("More vessels do not help: %s the service target is missed with %s as with %s. Beside vessels, solids wait most for %s.",
			s.from(first), vessels, vesselCount(last.Vessels), answer.Short(last.Limit))
	case s.late(first):
		misses := verb(one, "misses", "miss")
		if !first.Sure() {
			misses = "may miss"
		}
		return fmt.Sprintf("Order more vessels at once: %s %s the service target %s, and an order takes %s.%s%s",
			vessels, misses, s.from(first), s.months(a.LeadDays), s.between(first), s.enough(g))
	}
	return fmt.Sprintf("Order more vessels by the end of %s, to be in use by %s: %s %s the service target through %s and no longer%s.%s%s",
		quarterName(lastQuarter(first.OrderBy)), dayName(first.NeededBy), vessels, verb(one, "keeps", "keep"),
		a.Label(first.LastKept), s.unsure(first), s.between(first), s.enough(g))
}

func (s staircase) from(r *vesselplan.Row) string {
	if r.LastKept < 0 {
		return "from the start"
	}
	return "from " + s.a.Label(r.LastKept+1)
}

func (s staircase) unsure(r *vesselplan.Row) string {
	if r.Sure() {
		return ""
	}
	return fmt.Sprintf(" for sure (%s too near to the target to tell)", s.span(r.LastKept+1, r.FirstMissed-1))
}

// between says how far off the order may be.
func (s staircase) between(r *vesselplan.Row) string {
	b := r.Between
	if b == nil {
		return ""
	}
	due := func(year int) (when string, late bool) {
		shifted := *r
		shifted.OrderBy = r.OrderBy.AddYears(year - r.LastKept - 1)
		shifted.Late = shifted.OrderBy.Before(s.a.Start)
		return quarterOf(lastQuarter(shifted.OrderBy)), s.late(&shifted)
	}
	from, late := due(b.From)
	to, tooLate := due(b.To)
	sure := s.with(b.Level, share, 0)
	switch {
	case tooLate || b.From == b.To:
		return fmt.Sprintf(" That is %s sure.", sure)
	case b.To >= s.a.Years && late:
		return " When it is due can hardly be told: at once, or not within the horizon."
	case b.To >= s.a.Years:
		return fmt.Sprintf(" It is %s sure that no order is due before %s.", sure, from)
	case late:
		return fmt.Sprintf(" It is %s sure that the order is due by %s.", sure, to)
	}
	return fmt.Sprintf(" It is %s sure that the order is due between %s and %s.", sure, from, to)
}

// span names the years from one to another.
func (s staircase) span(from, to int) string {
	if from == to {
		return s.a.Label(from) + " is"
	}
	return s.a.Label(from) + " to " + s.a.Label(to) + " are"
}

// enough says how many more keep the target to the end.
func (s staircase) enough(g *vesselplan.Growth) string {
	r := g.Kept(s.a.Years)
	if r == nil {
		last := g.Rows[len(g.Rows)-1]
		if !last.Missed(s.a.Years) {
			return fmt.Sprintf(" With %d more it holds through %s, and what comes after is too near to the target to tell.",
				last.Vessels-g.Rows[0].Vessels, s.a.Label(last.LastKept))
		}
		return fmt.Sprintf(" Even %d do not last through %s.", last.Vessels, s.a.Label(s.a.Years-1))
	}
	more := r.Vessels - g.Rows[0].Vessels
	return fmt.Sprintf(" With %d more it holds through %s.", more, s.a.Label(s.a.Years-1))
}

// others says the same for the other growth scenarios, in a line.
func (s staircase) others() {
	if len(s.a.Growths) < 2 {
		return
	}
	var parts []string
	for i := range s.a.Growths {
		g := &s.a.Growths[i]
		if g == s.a.Main() {
			continue
		}
		parts = append(parts, fmt.Sprintf("%q (%s): %s", printable(g.Name), s.with(g.Weight, share, 0), s.brief(g)))
	}
	s.para("That is for the growth %q (%s). %s.", printable(s.a.Main().Name), s.with(s.a.Main().Weight, share, 0), capital(strings.Join(parts, "; ")))
}

func (s staircase) brief(g *vesselplan.Growth) string {
	r := &g.Rows[0]
	switch {
	case r.LastKept == s.a.Years-1:
		return "no order within the horizon"
	case !g.VesselsHelp():
		return "more vessels do not help"
	case s.late(r):
		return "order at once"
	}
	return "order by the end of " + quarterName(lastQuarter(r.OrderBy))
}

// sure says how sure the first step is.
func (s staircase) sure() string {
	a, r := s.a, &s.a.Main().Rows[0]
	var parts []string
	for _, year := range []int{r.LastKept, r.LastKept + 1} {
		if y, ok := r.Of(year); ok {
			miss, of := "", ""
			if len(parts) == 0 {
				miss, of = " miss it", "95 % interval "
			}
			parts = append(parts, fmt.Sprintf("in %s %s of %d runs%s (%s%s)", a.Label(year),
				s.with(y.Share.Estimate, share, 0), y.Trials, miss, of, s.interval(y.Share)))
		}
	}
	text := fmt.Sprintf("Service target: %v.", a.Target)
	if len(parts) > 0 {
		text += " How sure: " + strings.Join(parts, ", ") + "."
	}
	return text
}

func (s staircase) interval(i stats.Interval) string {
	return fmt.Sprintf("%s to %s", s.fixed(i.Low, share, 0), s.with(i.High, share, 0))
}

func (s staircase) columns() []column {
	var growth, vessels, kept, missed, runs, needed, order, average, peak []string
	for i := range s.a.Growths {
		g := &s.a.Growths[i]
		for _, k := range s.shown(g) {
			r := &g.Rows[k]
			name := ""
			if k == 0 {
				name = shorten(printable(g.Name), 18)
			}
			growth = append(growth, name)
			vessels = append(vessels, fmt.Sprint(r.Vessels))
			kept = append(kept, s.year(r.LastKept))
			missed = append(missed, s.year(r.FirstMissed))
			runs = append(runs, s.share(r, r.FirstMissed))
			needed = append(needed, s.there(g, r))
			order = append(order, s.ordered(g, r))
			average = append(average, s.year(r.StaticAverage))
			peak = append(peak, s.year(r.StaticPeak))
		}
	}
	return []column{
		words([]string{"Growth", ""}, growth),
		{headings: []string{"vessels", ""}, cells: vessels},
		{group: "service target", headings: []string{"kept", "through"}, cells: kept},
		{group: "service target", headings: []string{"missed", "from"}, cells: missed},
		{group: "service target", headings: []string{"by runs", "%"}, cells: runs},
		{group: "next vessels by end of", headings: []string{"there", ""}, cells: needed},
		{group: "next vessels by end of", headings: []string{"ordered", ""}, cells: order},
		{group: "handbook short from", headings: []string{"mean", ""}, cells: average},
		{group: "handbook short from", headings: []string{"peak", "month"}, cells: peak},
	}
}

// shown returns the rows of a growth scenario that the screen has room for: the
// first ones and the last. All are in the tables.
func (s staircase) shown(g *vesselplan.Growth) []int {
	most := 4
	if g == s.a.Main() {
		most = 8
	}
	var rows []int
	for k := range g.Rows {
		if k < most-1 || k == len(g.Rows)-1 {
			rows = append(rows, k)
		}
	}
	return rows
}

func (s staircase) year(year int) string {
	if year < 0 || year >= s.a.Years {
		return "-"
	}
	return s.a.Label(year)
}

// share writes the runs that miss a year, with their interval.
func (s staircase) share(r *vesselplan.Row, year int) string {
	y, ok := r.Of(year)
	if !ok {
		return "-"
	}
	return fmt.Sprintf("%s (%s–%s)", s.fixed(y.Share.Estimate, share, 0), s.fixed(y.Share.Low, share, 0), s.fixed(y.Share.High, share, 0))
}

// late reports whether there is no whole quarter left in which to order.
func (s staircase) late(r *vesselplan.Row) bool { return r.Late || s.begun(r.OrderBy) }

// begun reports whether the quarter that must be over by a day begins before the
// start.
func (s staircase) begun(day calendar.Date) bool { return lastQuarter(day).Before(s.a.Start) }

// there writes the quarter by whose end the next vessels are needed, if they help.
func (s staircase) there(g *vesselplan.Growth, r *vesselplan.Row) string {
	switch {
	case r.LastKept == s.a.Years-1 || !g.VesselsHelp():
		return "-"
	case s.begun(r.NeededBy):
		return "at once"
	}
	return quarterOf(lastQuarter(r.NeededBy))
}

// ordered writes the quarter by whose end they are to be ordered.
func (s staircase) ordered(g *vesselplan.Growth, r *vesselplan.Row) string {
	switch {
	case r.LastKept == s.a.Years-1 || !g.VesselsHelp():
		return "-"
	case s.late(r):
		return "at once"
	}
	return quarterOf(lastQuarter(r.OrderBy))
}

// notes say why the handbook's estimate differs, what is short next, and how the
// answer was found.
func (s staircase) notes() {
	a, g := s.a, s.a.Main()
	r := &g.Rows[0]
	text := "-: not within the horizon. Between \"kept through\" and \"missed from\" the years are too near to the target to tell."
	if s.leavesOut() {
		text += " Not all rows are shown here; --out writes them."
	}
	s.para("%s", text)
	if r.CakePerLoad > 0 {
		s.para("The handbook's estimate (loads a day × days in a vessel, without queues or noise) reckons with %s of dry cake a load and %s in a vessel; simulated, it is %s%s, and %s with working hours. Day-to-day noise and the holding do the rest.",
			s.show(r.StaticCakePerLoad, mass), s.daysOf(r.StaticStay), s.show(r.CakePerLoad, mass), lighter(r), s.daysOf(r.Stay))
	}
	s.next(g)
	s.para("A year's verdict is wrong with a chance of at most %s where the true share of runs is %s or less, or %s or more. %s years were simulated to find it, where every year of every row at %d runs would be %s.",
		s.with(a.Test.WrongAbove/(1-a.Test.WrongBelow), share, 0), s.with(a.Test.Low, share, 0), s.with(a.Test.High, share, 0),
		units.FormatNumber(float64(a.Simulated)), a.Most, units.FormatNumber(float64(a.Whole)))
}

// leavesOut reports whether the screen has no room for some rows.
func (s staircase) leavesOut() bool {
	return slices.ContainsFunc(s.a.Growths, func(g vesselplan.Growth) bool { return len(s.shown(&g)) < len(g.Rows) })
}

// lighter says why a load holds less cake than the handbook's, where it does.
func lighter(r *vesselplan.Row) string {
	const notable = 0.02
	if r.CakePerLoad > (1-notable)*r.StaticCakePerLoad {
		return ""
	}
	return ", for recovered chips are heavier than fresh ones"
}

// next names the least of what the other stages can carry.
func (s staircase) next(g *vesselplan.Growth) {
	var least *plant.Capacity
	for i := range g.Next {
		c := &g.Next[i]
		if c.Stage != plant.AtVessels && c.Stage != plant.AtPlaces && (least == nil || c.CakeDry < least.CakeDry) {
			least = c
		}
	}
	if least == nil {
		return
	}
	last := g.Rows[len(g.Rows)-1]
	s.para("Next limit after vessels: %s, which can carry %s of dry solids; in %s the plant with %s brings %s.",
		least.Stage, s.show(least.CakeDry, massPerTime), s.a.Label(max(0, last.LastKept)), vesselCount(last.Vessels), s.show(g.Fed, massPerTime))
}

var massPerTime = quantity{units.MassPerTime, 1}

func (s staircase) daysOf(v float64) string {
	return s.days1(v * 24)
}

// months writes days as months, or as days when there are few.
func (s staircase) months(d float64) string {
	if d < 45 {
		return s.days1(d * 24)
	}
	return fmt.Sprintf("%.0f%smonths", math.Round(d/365.25*12), noBreak)
}
