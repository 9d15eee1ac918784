package plant

import (
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// change draws one change, on a date or by trigger, of anything that a change
// can alter.
func (d draw) change(hours []*calendar.Work) Change {
	c := Change{
		Name: "change", Lead: calendar.Span{Months: d.int("months of lead", 0, 2), Days: d.int("days of lead", 0, 30)},
		Vessels: d.int("more vessels", 0, 4), Places: d.int("more places", 0, 3),
		Trucks: d.int("more trucks", 0, 1), Loaders: d.int("more loaders", 0, 1), Operators: d.int("more operators", 0, 1),
		Mixers: d.int("more mixers", 0, 1), Screens: d.int("more screens", 0, 1),
		Pad: d.between("more pad", 0, 200), Holding: d.between("more holding", 0, 2000), ProductStore: d.between("more product store", 0, 300),
		ScreenCapacity: d.one("other screen", 0, 33),
		CakeSolids:     d.one("drier cake", 0, 0.02),
	}
	if d.yes("other hours") {
		c.Hours = d.hours("hours from then on", hours)
	}
	switch {
	case !d.yes("by trigger"):
		c.Date = d.date("date of change")
	case d.int("sign", 0, 2) == 2:
		c.Trigger = Trigger{Production: d.between("produced", 100, 3000)}
	default:
		c.Trigger = Trigger{Held: d.between("held", 0.05, 1), For: d.time("held for", 0, 10*sim.Day)}
	}
	return c
}
