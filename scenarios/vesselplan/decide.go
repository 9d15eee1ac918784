package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
)

// Main returns the growth scenario that the answer is for: the first of the
// highest weight.
func (a *Answer) Main() *Growth {
	best := &a.Growths[0]
	for i := range a.Growths {
		if a.Growths[i].Weight > best.Weight {
			best = &a.Growths[i]
		}
	}
	return best
}

// Advice is what to do in a growth scenario.
type Advice int

// Kinds of advice.
const (
	NoOrder     Advice = iota // the vessels installed keep the target in every year
	NoHelp                    // more vessels do not help
	OrderAtOnce               // no whole quarter is left in which to order
	OrderInTime               // there is time: see [Answer.Ordered]
)

// Advice says what to do in a growth scenario.
func (a *Answer) Advice(g *Growth) Advice {
	due, more := a.Ordered(g, &g.Rows[0])
	switch {
	case !g.Rows[0].RunsShort(a.Horizon):
		return NoOrder
	case !more:
		return NoHelp
	case due.AtOnce:
		return OrderAtOnce
	}
	return OrderInTime
}

// Planned returns the staircase by which more vessels are planned: that over all
// growths, or, where only its first row is known, that of the growth believed in
// most.
func (a *Answer) Planned() *Growth {
	if main := a.Main(); len(a.All.Rows) < len(main.Rows) {
		return main
	}
	return &a.All
}

// Latest returns the place in Orders of the last quarter in which an order keeps
// the chance of being late within what the target leaves, for all that is known; −1
// for none.
func (a *Answer) Latest() int {
	for i, o := range a.Orders {
		if o.Late.High > a.Target.MissShare+capability.Rounding {
			return i - 1
		}
	}
	return len(a.Orders) - 1
}

// waits is how many quarters later than the latest an order is looked at.
const waits = 8

// Waiting returns what waiting two years longer than the latest order means; there
// is none where the horizon ends before.
func (a *Answer) Waiting() (o Order, ok bool) {
	if at := a.Latest() + waits; at < len(a.Orders) {
		return a.Orders[at], true
	}
	return Order{}, false
}

// Due is when something must be done: by the end of the last quarter that is
// over by a day.
type Due struct {
	Day     calendar.Date
	Quarter calendar.Date // a day in that quarter
	// AtOnce says that the quarter has begun by the start, so that no whole quarter
	// is left.
	AtOnce bool
}

func (a *Answer) due(day calendar.Date) Due {
	quarter := day.AddMonths(-monthsPerQuarter)
	return Due{Day: day, Quarter: quarter, AtOnce: quarter.Before(a.Start)}
}

// lasts reports whether a row keeps the target in every year, by the estimate.
func (a *Answer) lasts(r *Row) bool { return !r.RunsShort(a.Horizon) }

// Needed says when the vessels that follow a row must be there; more is false if
// none need be, or none help.
func (a *Answer) Needed(g *Growth, r *Row) (due Due, more bool) {
	if len(g.Rows) == 1 {
		g = a.Planned()
	}
	if !r.RunsShort(a.Horizon) || !g.VesselsHelp() {
		return Due{}, false
	}
	return a.due(r.NeededBy), true
}

// Ordered says when the vessels that follow a row must be ordered, as Needed
// does. An order at once is late.
func (a *Answer) Ordered(g *Growth, r *Row) (due Due, more bool) {
	if _, more = a.Needed(g, r); !more {
		return Due{}, false
	}
	return a.due(r.OrderBy), true
}

// Doubt is how far off an order may be.
type Doubt int

// Kinds of doubt, for all that is known at the level of a Between.
const (
	NoDoubt    Doubt = iota // the order is due when it is said to be
	AnyTime                 // at once, or not within the horizon
	NotBefore               // not before the earlier time, perhaps never
	NotAfter                // perhaps at once, at the latest by the later time
	WithinSpan              // between the two
)

// Doubt says how far off the order that follows a row may be, and between which
// times it is due; known is false where that was not looked into.
func (a *Answer) Doubt(r *Row) (d Doubt, from, to Due, known bool) {
	if r.Shares == nil {
		return 0, from, to, false
	}
	order := func(quarter int) Due { return a.due(r.OrderBy.AddMonths((quarter - r.Short) * monthsPerQuarter)) }
	from, to = a.due(r.OrderBy), order(r.ShortTo)
	switch never := r.ShortTo >= a.Horizon*quarters; {
	case to.AtOnce || r.Short == r.ShortTo:
		d = NoDoubt
	case never && from.AtOnce:
		d = AnyTime
	case never:
		d = NotBefore
	case from.AtOnce:
		d = NotAfter
	default:
		d = WithinSpan
	}
	return d, from, to, true
}

// VesselsHelp reports whether the target is kept through more years with the most
// vessels of the rows than with the fewest, or always.
func (g *Growth) VesselsHelp() bool {
	first, last := g.Rows[0], g.Rows[len(g.Rows)-1]
	return last.Short/quarters > first.Short/quarters || len(g.Rows) == 1
}

// Lasting returns the row with the fewest vessels that keeps the target through
// a year and in all before it, nil if none does.
func (g *Growth) Lasting(year int) *Row {
	for i := range g.Rows {
		if g.Rows[i].Short >= (year+1)*quarters {
			return &g.Rows[i]
		}
	}
	return nil
}

// Reach is how far more vessels carry.
type Reach int

// Reaches of the most vessels needed or tried.
const (
	ToTheEnd      Reach = iota // they keep the target in every year
	PerhapsTheEnd              // the last years are too near to the target to tell
	NotTheEnd                  // they miss it in some year
)

// Enough returns the fewest vessels that keep the target to the end of the
// horizon, or the most that were tried, and how far they carry.
func (a *Answer) Enough(g *Growth) (*Row, Reach) {
	r := g.Lasting(a.Horizon - 1)
	switch {
	case r == nil:
		return &g.Rows[len(g.Rows)-1], NotTheEnd
	case r.LastKept < a.Horizon-1:
		return r, PerhapsTheEnd
	}
	return r, ToTheEnd
}

// NextLimit returns what can carry least of the stages that more vessels do
// nothing for; known is false if there is none.
func (g *Growth) NextLimit() (least plant.Capacity, known bool) {
	for _, c := range g.Next {
		if c.Stage != plant.AtVessels && c.Stage != plant.AtPlaces && (!known || c.CakeDry < least.CakeDry) {
			least, known = c, true
		}
	}
	return least, known
}

// Standing is on which side of the target a year lies.
type Standing int

// Standings of a year.
const (
	Kept Standing = iota
	TooNear
	Missed
	// Later is after the first year missed: it was not looked into, and may be kept
	// again where the file changes something.
	Later
)

// Standing returns that of a year. What comes before a year that is kept is kept.
func (r *Row) Standing(year int) Standing {
	switch {
	case year <= r.LastKept:
		return Kept
	case year == r.FirstMissed:
		return Missed
	case year > r.FirstMissed:
		return Later
	}
	return TooNear
}

// Lighter reports whether a load holds notably less cake than the handbook's.
func (r *Row) Lighter() bool {
	const notable = 0.02
	return r.CakePerLoad <= (1-notable)*r.StaticCakePerLoad
}
