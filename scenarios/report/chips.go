package report

import (
	"fmt"
	"io"
	"strings"

	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// ChipsTerminal writes the purchase plan for chips on one screen.
func ChipsTerminal(w io.Writer, a *chipplan.Answer, sys units.System) error {
	c := chipsText{newPage(sys), a}
	c.para("%s", c.headline())
	c.basis(monthly{a.Facility, a.Invented, a.Begins, a.Replications, a.Seed, a.Level, a.Growths})
	c.flows()
	c.blank()
	c.budgets()
	c.ordering()
	return c.writeTo(w)
}

type chipsText struct {
	*page
	a *chipplan.Answer
}

// headline is the answer: what to buy in the first fiscal year, and what to put
// in the budget.
func (c chipsText) headline() string {
	y := &c.a.Years[0]
	text := fmt.Sprintf("Buy %s of fresh chips in %s (%s), %s", c.show(y.Bought.Mean, volume), c.fiscalYear(y.Label),
		c.runsBetween(y.Bought, volume, c.a.Level), counted(int(y.Truckloads.Mean+0.5), "truckload"))
	if !c.a.Price.Known {
		return text + fmt.Sprintf("; %.0f at most in nine runs of ten.", y.Truckloads.P90)
	}
	return text + fmt.Sprintf(", about %s; put %s in the budget: the chance of passing it is %s.",
		c.show(y.Spend.Mean, costUSD), c.show(y.Budget, costUSD), chance(y.Passing))
}

func (p *page) fiscalYear(label string) string { return "fiscal" + noBreak + "year" + noBreak + label }

// chipsRow is a row of the table of months and years.
type chipsRow struct {
	name string
	*chipplan.Flows
}

func (c chipsText) rows() []chipsRow {
	var rows []chipsRow
	if len(c.a.Years) <= mostYearsWithMonths {
		for i := range c.a.Months[:len(c.a.Months)/len(c.a.Years)] {
			rows = append(rows, chipsRow{monthName(c.a.Months[i].Month), &c.a.Months[i].Flows})
		}
	}
	for i := range c.a.Years[:min(len(c.a.Years), mostFiscalYears)] {
		rows = append(rows, chipsRow{c.a.Years[i].Label, &c.a.Years[i].Flows})
	}
	return rows
}

func (c chipsText) flows() {
	rows := c.rows()
	unit, money := volume.label(c.sys), costUSD.label(c.sys)
	cell := func(of func(*chipsRow) string) []string { return cellsOf(rows, of) }
	vol := func(of func(*chipsRow) float64) []string {
		return cell(func(r *chipsRow) string { return c.fixed(of(r), volume, 0) })
	}
	usd := func(of func(*chipsRow) float64) []string {
		return cell(func(r *chipsRow) string { return c.fixed(of(r), costUSD, 0) })
	}
	columns := []column{
		words([]string{"", ""}, cell(func(r *chipsRow) string { return r.name })),
		{group: "fresh, bought, " + unit, headings: []string{"mean", ""}, cells: vol(func(r *chipsRow) float64 { return r.Bought.Mean })},
		{group: "fresh, bought, " + unit, headings: []string{"P10", ""}, cells: vol(func(r *chipsRow) float64 { return r.Bought.P10 })},
		{group: "fresh, bought, " + unit, headings: []string{"P50", ""}, cells: vol(func(r *chipsRow) float64 { return r.Bought.P50 })},
		{group: "fresh, bought, " + unit, headings: []string{"P90", ""}, cells: vol(func(r *chipsRow) float64 { return r.Bought.P90 })},
		{headings: []string{"truck-", "loads"}, cells: cell(func(r *chipsRow) string { return fmt.Sprintf("%.1f", r.Truckloads.Mean) })},
		{headings: []string{"recov-", "ered"}, cells: vol(func(r *chipsRow) float64 { return r.Recovered.Mean })},
		{headings: []string{"", "lost"}, cells: vol(func(r *chipsRow) float64 { return r.Lost.Mean })},
		{group: "store, " + unit, headings: []string{"end", "P50"}, cells: vol(func(r *chipsRow) float64 { return r.StoreEnd.P50 })},
		{group: "store, " + unit, headings: []string{"peak", "P90"}, cells: vol(func(r *chipsRow) float64 { return r.StorePeak.P90 })},
		{group: "short of chips", headings: []string{"mean", "h"}, cells: cell(func(r *chipsRow) string { return c.fixed(r.HoursShort.Mean, count, 1) })},
		{group: "short of chips", headings: []string{"chance", "%"}, cells: cell(func(r *chipsRow) string { return bareShare(r.StockOut.Estimate) })},
	}
	if c.a.Price.Known {
		columns = append(columns,
			column{group: "spend, " + money, headings: []string{"P10", ""}, cells: usd(func(r *chipsRow) float64 { return r.Spend.P10 })},
			column{group: "spend, " + money, headings: []string{"P50", ""}, cells: usd(func(r *chipsRow) float64 { return r.Spend.P50 })},
			column{group: "spend, " + money, headings: []string{"P90", ""}, cells: usd(func(r *chipsRow) float64 { return r.Spend.P90 })})
	}
	c.table("By month and fiscal year; recovered and lost are means; lost is mixed less recovered meanwhile", columns)
}

// budgets gives the figure of each year and what was asked about.
func (c chipsText) budgets() {
	if !c.a.Price.Known {
		c.labelled("Budget", "the file has no price of chips (chips.price), so there is no money here")
		return
	}
	price := c.show(c.a.Price.Amount, pricePer)
	if c.a.Price.Escalates {
		price += fmt.Sprintf(" in %d, rising by %s a year", c.a.Price.Stated, c.show(c.a.Price.Escalation, share))
	} else {
		price += " throughout, as the file has no section on money"
	}
	var years []string
	for i := range c.a.Years[:min(len(c.a.Years), mostBudgets)] {
		y := &c.a.Years[i]
		text := fmt.Sprintf("%s %s, passed with a chance of %s", y.Label, c.show(y.Budget, costUSD), chanceInterval(y.Passing))
		if y.AskedBudget > 0 {
			text += fmt.Sprintf(", and %s with %s", c.show(y.AskedBudget, costUSD), chanceInterval(y.PassingAsked))
		}
		years = append(years, text)
	}
	c.labelled("Budget", "%s. Money of the day; %s", strings.Join(years, "; "), price)
}

// ordering says when to order how many, and shows that rule beside the file's.
func (c chipsText) ordering() {
	o := &c.a.Ordering
	c.labelled("Ordering", "%s", c.advice())
	type row struct {
		name string
		*chipplan.Trial
	}
	rows := []row{{"the file's", &o.AsIs}, {"best", &o.Best}}
	cell := func(of func(*row) string) []string { return cellsOf(rows, of) }
	vol := func(of func(*row) float64) []string {
		return cell(func(r *row) string { return c.fixed(of(r), volume, 0) })
	}
	interval := func(of func(*row) stats.Interval) []string {
		return cell(func(r *row) string { return plainSpaces(chanceInterval(of(r))) })
	}
	unit := volume.label(c.sys)
	columns := []column{
		words([]string{"Rule", ""}, cell(func(r *row) string { return r.name })),
		{headings: []string{"order at", unit}, cells: vol(func(r *row) float64 { return r.Reorder })},
		{headings: []string{"up to", unit}, cells: vol(func(r *row) float64 { return r.OrderUpTo })},
		{headings: []string{"mean stock", unit}, cells: vol(func(r *row) float64 { return r.MeanStock })},
		{headings: []string{"orders", "a year"}, cells: cell(func(r *row) string { return fmt.Sprintf("%.1f", r.OrdersPerYear) })},
	}
	if o.Cost.InMoney {
		columns = append(columns, column{headings: []string{"cost", "USD/year"}, cells: cell(func(r *row) string { return c.fixed(r.Cost, costUSD, 0) })})
	}
	const group = "chance of a stock-out in a year"
	columns = append(columns,
		column{group: group, headings: []string{"inventory model", "(95 % interval)"}, cells: interval(func(r *row) stats.Interval { return r.Inventory })},
		column{group: group, headings: []string{"the plant itself", "(95 % interval)"}, cells: interval(func(r *row) stats.Interval { return r.Plant })})
	c.text = append(c.text, layOut(columns, screenColumns)...)
}

// advice puts the best rule into words.
func (c chipsText) advice() string {
	o := &c.a.Ordering
	best := "least mean stock"
	if o.Cost.InMoney {
		best = "least money tied up"
	}
	if o.Cost.Ordering > 0 {
		best = "least cost of stock and of orders"
	}
	text := fmt.Sprintf("order %s when %s or less are on hand and on order: of %d rules the one with the %s and a stock-out in at most %s of years",
		counted(o.Best.Truckloads(o.Truckload), "truckload"), c.with(o.Best.Reorder, volume, 0), o.Tried, best, shareText(o.Limit))
	if !o.Fits {
		text += fmt.Sprintf(". That takes a store of %s; the %s that there are cannot do it", c.with(o.Best.OrderUpTo, volume, 0), c.with(o.Store, volume, 0))
	}
	if !o.Kept {
		text += fmt.Sprintf(". The plant does not keep it: mixing waits for chips in %s of years, and none of %d rules tried in it does better",
			chance(o.Best.Plant), o.Simulated)
	}
	return text
}
