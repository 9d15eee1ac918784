package chipplan

import (
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Order is the first, second, … order of fresh chips in a fiscal year.
type Order struct {
	Number              int
	Early, Median, Late calendar.Date // of the replications that have it: P10, P50, P90
	Truckloads          answer.Spread // of these
	Share               float64       // of all replications that have it, 0…1
}

// leastShare is in how many of the replications an order must come about to be told.
const leastShare = 0.1

// orders gathers the orders of the fiscal year that begins on a day.
type orders struct {
	begin, end   calendar.Date
	replications int
	// By number of the order, of the replications that have it: the day of the year, and
	// its truckloads.
	days, trucks []*stats.Sample
}

func ordersFrom(begin calendar.Date) orders { return orders{begin: begin, end: begin.AddYears(1)} }

// add takes those of the next replication.
func (l *orders) add(run []plant.ChipOrder) {
	var days, trucks []float64
	for i, o := range run {
		n := len(days)
		switch {
		case o.Date.Before(l.begin) || !o.Date.Before(l.end):
		case i > 0 && n > 0 && o.Source > run[i-1].Source && o.Date == run[i-1].Date: // one order, of several suppliers
			trucks[n-1] += o.Truckloads
		default:
			days, trucks = append(days, float64(l.begin.DaysUntil(o.Date))), append(trucks, o.Truckloads)
		}
	}
	for n := range days {
		if n == len(l.days) {
			l.days, l.trucks = append(l.days, stats.NewSample(answer.ExactRuns, 0)), append(l.trucks, stats.NewSample(answer.ExactRuns, 0))
		}
		l.days[n].Add(days[n])
		l.trucks[n].Add(trucks[n])
	}
	l.replications++
}

// told are those that are to be told.
func (l *orders) told() []Order {
	var out []Order
	for i := range l.days {
		share := float64(l.days[i].Len()) / float64(l.replications)
		if share < leastShare {
			break
		}
		on := answer.SpreadIn(l.days[i])
		day := func(d float64) calendar.Date { return l.begin.AddDays(int(d + 0.5)) }
		out = append(out, Order{i + 1, day(on.P10), day(on.P50), day(on.P90), answer.SpreadIn(l.trucks[i]), share})
	}
	return out
}

// namedOrders is how many orders the screen names; the files have all.
const namedOrders = 4

// orders says when the first fiscal year's chips are ordered by the file's rule.
func (a *Answer) orders(d *doc.Document) {
	y := &a.Years[0]
	var parts []string
	for _, o := range y.Orders[:min(namedOrders, len(y.Orders))] {
		text := fmt.Sprintf("%s %s (%s to %s)", ordinal(o.Number), dayOfYear(o.Median), dayOfYear(o.Early), dayOfYear(o.Late))
		if o.Share < 1 {
			text += fmt.Sprintf(" in %s of the runs", doc.ShareText(o.Share))
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return
	}
	more := ""
	if n := len(y.Orders) - namedOrders; n > 0 {
		more = fmt.Sprintf("; %d more in chips-orders.csv (--out)", n)
	}
	d.Labelled("Order days", "%s by the rule of the file, medians (P10 to P90): %s%s", y.Label, doc.Listed(parts), more)
}

func dayOfYear(d calendar.Date) string {
	return fmt.Sprintf("%d%s%s", d.Day, doc.NoBreak, d.Month.String()[:3])
}

// ordinal writes 1st, 2nd, 3rd, 4th.
func ordinal(n int) string {
	ending := "th"
	if n/10%10 != 1 {
		switch n % 10 {
		case 1:
			ending = "st"
		case 2:
			ending = "nd"
		case 3:
			ending = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, ending)
}

// ordersTable is the list of all orders, for files.
func (a *Answer) ordersTable() doc.Table {
	type row struct {
		year string
		Order
	}
	var rows []row
	for i := range a.Years {
		for _, o := range a.Years[i].Orders {
			rows = append(rows, row{a.Years[i].Label, o})
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "orders", File: "chips-orders"}, rows,
		doc.Key("fiscal_year", func(r *row) any { return r.year }).Means("year of the budget"),
		doc.Key("order", func(r *row) any { return r.Number }).Means("order of the year by its number"),
		doc.Any("date_p10", func(r *row) any { return r.Early }).Means("day of the order: one run in ten has it earlier"),
		doc.Any("date_p50", func(r *row) any { return r.Median }).Means("day of the order: half of the runs have it earlier"),
		doc.Any("date_p90", func(r *row) any { return r.Late }).Means("day of the order: nine runs in ten have it earlier"),
		doc.Spr("truckloads", doc.Count, func(r *row) answer.Spread { return r.Truckloads }).Means("truckloads ordered at once"),
		doc.Val("runs_that_have_it", doc.Share, func(r *row) float64 { return r.Share }).Means("part of the runs with so many orders in the year"))
}
