package vesselplan

import (
	"math"
	"slices"

	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// shownOrders says on the screen what waiting means, from a year before the latest
// order on.
func (a *Answer) shownOrders() doc.Table {
	var list []Order
	if a.Advice(&a.All) != NoOrder && a.Advice(&a.All) != NoHelp {
		latest := max(0, a.Latest())
		for _, away := range []int{-4, 0, 4, 8} {
			if at := latest + away; at >= 0 && at < len(a.Orders) {
				list = append(list, a.Orders[at])
			}
		}
	}
	const late, then = "chance of missing the target before", "leaves untreated before"
	cols := []doc.Col[Order]{
		doc.Left([]string{"Ordered by", "the end of"}, func(o *Order) any { return doc.Quarter(o.Quarter) }),
		doc.Txt("", []string{"in use", "from"}, doc.Count, func(o *Order) any { return o.InUse }),
		doc.Txt(late, []string{"all growths", "%"}, doc.Count, func(o *Order) any {
			return doc.Say("%s (%s–%s)", doc.BareShare(o.Late.Estimate), doc.BareShare(o.Late.Low), doc.BareShare(o.Late.High))
		}),
	}
	if len(a.Growths) > 1 && len(a.Growths) <= 4 {
		for g := range a.Growths {
			cols = append(cols, doc.Txt(late, []string{doc.Name(a.Growths[g].Name, 12), "%"}, doc.Count, func(o *Order) any { return doc.BareShare(o.ByGrowth[g]) }))
		}
	}
	cols = append(cols, doc.Spared(3, doc.Num(then, []string{"dry", "{unit}"}, doc.Mass, doc.Significant, func(o *Order) float64 { return o.Untreated })))
	title := doc.Words("What waiting for the order means")
	if a.priced() {
		title = title.Then("; money of %d", a.PricesOf)
		cols = append(cols, doc.Spared(3, doc.Num(then, []string{"hauled away", "{unit}"}, doc.Money, 0, func(o *Order) float64 { return o.Cost })))
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: title}, list, cols...)
}

// priced reports whether the file says what hauling away costs.
func (a *Answer) priced() bool { return len(a.Orders) > 0 && !math.IsNaN(a.Orders[0].Cost) }

// orderFiles has a row for each quarter in which more vessels might be ordered.
func (a *Answer) orderFiles() doc.Table {
	latest := a.Latest()
	type order struct {
		*Order
		inTime bool
	}
	list := make([]order, len(a.Orders))
	for i := range list {
		list[i] = order{&a.Orders[i], i <= latest}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "orders", File: "when-orders"}, list,
		doc.Key("ordered_by_end_of", func(o *order) any { return doc.Quarter(o.Quarter) }).Means("quarter by whose end more vessels are ordered"),
		doc.Any("in_use_from", func(o *order) any { return o.InUse }).Means("day from which the vessels of the order are in use"),
		doc.Any("in_time", func(o *order) any { return o.inTime }).Means("whether the order is in time"),
		doc.Val("late", doc.Share, func(o *order) float64 { return o.Late.Estimate }).Means("chance that a year misses the target before the vessels of the order are in use"),
		doc.Val("late_low90", doc.Share, func(o *order) float64 { return o.Late.Low }).Means("low end of the interval of 90 % of the chance that a year misses the target before then"),
		doc.Val("late_high90", doc.Share, func(o *order) float64 { return o.Late.High }).Means("high end of the interval of 90 % of the chance that a year misses the target before then"),
		doc.In("growths", func(o *order) any {
			type late struct {
				growth string
				share  float64
			}
			var by []late
			for g, share := range o.ByGrowth {
				by = append(by, late{a.Growths[g].Name, share})
			}
			return doc.TableOf(doc.Table{In: doc.Files, File: "when-orders-growths"}, by,
				doc.Any("growth", func(l *late) any { return l.growth }).Means("growth scenario of the file"),
				doc.Val("late", doc.Share, func(l *late) float64 { return l.share }).Means("chance that a year misses the target before the vessels of the order are in use"))
		}),
		doc.Val("untreated_before_dry", doc.Mass, func(o *order) float64 { return o.Untreated }).Means("solids that leave untreated before the vessels of the order are in use, mean", doc.Dry),
		doc.Val("hauling_it_away", doc.Money, func(o *order) float64 { return o.Cost }).Means("what it costs to haul away what leaves untreated before then, money of the stated year"))
}

// capabilityFiles has a row for each number of vessels: what it carries.
func (a *Answer) capabilityFiles() doc.Table {
	columns := []doc.Col[Capability]{
		doc.Key("vessels", func(c *Capability) any { return c.Vessels }).Means("vessels that the plant has"),
		doc.Est("carries_at_target_dry", doc.MassPerDay, func(c *Capability) stats.Interval { return c.AtTarget }).Means("production at which as many years miss the target as it allows", doc.Dry),
		doc.Est("half_of_years_miss_at_dry", doc.MassPerDay, func(c *Capability) stats.Interval { return c.Half }).Means("production at which half of the years miss the target", doc.Dry),
	}
	if slices.ContainsFunc(a.Capability, func(c Capability) bool { return c.Background.Estimate > 0 }) {
		columns = append(columns, doc.Est("missed_whatever_comes_in", doc.Share, func(c *Capability) stats.Interval { return c.Background }).Means("share of years that miss the target whatever production is"))
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "capability", File: "when-capability"}, a.Capability, columns...)
}

// decision states what the order rests on.
func (a *Answer) decision(d *doc.Document) {
	advice := a.Advice(&a.All)
	d.Fact("advice", doc.Count, adviceNames[advice])
	if due, more := a.Ordered(&a.All, &a.All.Rows[0]); more {
		if n := a.Batch.Vessels; n > 0 {
			d.Fact("order_vessels", doc.Count, n)
			if of := a.ordered(n); of != "" {
				d.Fact("order_by_class", doc.Count, of)
			}
		} else {
			d.Fact("order_vessels", doc.Count, nil)
		}
		d.Fact("order_by_end_of", doc.Count, due.String())
	}
	if s := a.Sign; s != nil {
		d.Fact("order_when_mean_production_passes_dry", doc.MassPerDay, s.Production)
		d.Fact("late_by_that_sign", doc.Share, s.Late)
		d.Fact("sign_expected_from", doc.Count, s.From)
		d.Fact("sign_expected_to", doc.Count, s.To)
		d.Fact("sign_not_within_horizon", doc.Share, s.Never)
		d.Fact("vessels_in_use_at_sign", doc.Share, s.InUse)
		d.Fact("most_held_at_sign_dry", doc.Mass, s.Held)
		d.Fact("holding_full_at_sign", doc.Share, s.Full)
	}
}
