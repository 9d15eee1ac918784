package report

import (
	"fmt"
	"io"
	"time"

	"loamcast/scenarios/productplan"
	"loamcast/scenarios/units"
)

// ProductTerminal writes what compost to expect on one screen.
func ProductTerminal(w io.Writer, a *productplan.Answer, sys units.System) error {
	c := productText{newPage(sys), a}
	c.para("%s", c.headline())
	c.basis(monthly{a.Facility, a.Invented, a.Begins, a.Replications, a.Seed, a.Level, a.Growths})
	c.flows()
	c.blank()
	c.seasons()
	c.money()
	return c.writeTo(w)
}

type productText struct {
	*page
	a *productplan.Answer
}

// headline is the answer: how much in the first fiscal year, and whether the
// store and the demand go together.
func (c productText) headline() string {
	y := &c.a.Years[0]
	text := fmt.Sprintf("Expect %s of compost in %s (%s), %s; about %s of it is taken", c.show(y.Volume.Mean, volume), c.fiscalYear(y.Label),
		c.runsBetween(y.Volume, volume, c.a.Level), c.show(y.Wet.Mean, mass), c.show(y.Taken.Mean, volume))
	if c.a.Price.Known {
		text += ", for " + c.show(y.Revenue.Mean, costUSD)
	}
	return text + "; " + c.glut(y) + "; " + c.shortage(y) + "."
}

func (c productText) glut(y *productplan.Year) string {
	if y.Full.Estimate == 0 {
		return "the store is never full"
	}
	return "the store is full" + seasonText(y.Glut) + inRuns(y.Full.Estimate)
}

func (c productText) shortage(y *productplan.Year) string {
	if y.Short.Estimate == 0 {
		return "all demand is met"
	}
	return "demand goes unmet" + seasonText(y.Shortage) + inRuns(y.Short.Estimate)
}

// inRuns says in how many of the runs something happens at all.
func inRuns(share float64) string {
	if share == 1 {
		return " in every run"
	}
	return " in " + shareText(share) + " of runs"
}

// seasonText names the months in which something is likely.
func seasonText(s productplan.Season) string {
	switch {
	case len(s.Months) == 0:
		return " at some time"
	case len(s.Months) == int(time.December):
		return " in any month"
	}
	return " in " + monthsText(s.Months)
}

// productRow is a row of the table of months and years.
type productRow struct {
	name string
	*productplan.Flows
}

func (c productText) rows() []productRow {
	var rows []productRow
	if len(c.a.Years) <= mostYearsWithMonths {
		for i := range c.a.Months[:len(c.a.Months)/len(c.a.Years)] {
			rows = append(rows, productRow{monthName(c.a.Months[i].Month), &c.a.Months[i].Flows})
		}
	}
	for i := range c.a.Years[:min(len(c.a.Years), mostFiscalYears)] {
		rows = append(rows, productRow{c.a.Years[i].Label, &c.a.Years[i].Flows})
	}
	return rows
}

func (c productText) flows() {
	rows := c.rows()
	cell := func(of func(*productRow) string) []string { return cellsOf(rows, of) }
	in := func(q quantity, of func(*productRow) float64) []string {
		return cell(func(r *productRow) string { return c.fixed(of(r), q, 0) })
	}
	screened, heap := "screened, "+volume.label(c.sys), plural(mass.label(c.sys))
	store := "store, " + volume.label(c.sys)
	columns := []column{
		words([]string{"", ""}, cell(func(r *productRow) string { return r.name })),
		{group: screened, headings: []string{"mean", ""}, cells: in(volume, func(r *productRow) float64 { return r.Volume.Mean })},
		{group: screened, headings: []string{"P10", ""}, cells: in(volume, func(r *productRow) float64 { return r.Volume.P10 })},
		{group: screened, headings: []string{"P50", ""}, cells: in(volume, func(r *productRow) float64 { return r.Volume.P50 })},
		{group: screened, headings: []string{"P90", ""}, cells: in(volume, func(r *productRow) float64 { return r.Volume.P90 })},
		{group: heap, headings: []string{"wet", ""}, cells: in(mass, func(r *productRow) float64 { return r.Wet.Mean })},
		{group: heap, headings: []string{"dry", ""}, cells: in(mass, func(r *productRow) float64 { return r.Dry.Mean })},
		{headings: []string{"taken", volume.label(c.sys)}, cells: in(volume, func(r *productRow) float64 { return r.Taken.Mean })},
		{headings: []string{"unmet", volume.label(c.sys)}, cells: in(volume, func(r *productRow) float64 { return r.Unmet.Mean })},
		{group: store, headings: []string{"end", "P50"}, cells: in(volume, func(r *productRow) float64 { return r.StoreEnd.P50 })},
		{group: store, headings: []string{"peak", "P90"}, cells: in(volume, func(r *productRow) float64 { return r.StorePeak.P90 })},
		{group: "chance, %", headings: []string{"full", ""}, cells: cell(func(r *productRow) string { return bareShare(r.Full.Estimate) })},
		{group: "chance, %", headings: []string{"unmet", ""}, cells: cell(func(r *productRow) string { return bareShare(r.Short.Estimate) })},
	}
	if c.a.Price.Known {
		columns = append(columns,
			column{group: "revenue, USD", headings: []string{"P10", ""}, cells: in(costUSD, func(r *productRow) float64 { return r.Revenue.P10 })},
			column{group: "revenue, USD", headings: []string{"P50", ""}, cells: in(costUSD, func(r *productRow) float64 { return r.Revenue.P50 })},
			column{group: "revenue, USD", headings: []string{"P90", ""}, cells: in(costUSD, func(r *productRow) float64 { return r.Revenue.P90 })})
	}
	c.table("By month and fiscal year; masses, taken and unmet are means; unmet is demand without product", columns)
}

// seasons says of each year when there is too much and when too little.
func (c productText) seasons() {
	for i := range c.a.Years[:min(len(c.a.Years), mostBudgets)] {
		y := &c.a.Years[i]
		text := c.glut(y)
		if y.Full.Estimate > 0 {
			text += fmt.Sprintf(" (lots wait for room %s h on average, P90 %s h)", units.FormatNumber(y.HoursFull.Mean), units.FormatNumber(y.HoursFull.P90))
		}
		c.labelled(y.Label, "%s; %s", text, c.shortage(y))
	}
}

func (c productText) money() {
	if !c.a.Price.Known {
		c.labelled("Money", "the file has no section on money, so there is no revenue here")
		return
	}
	low, high := c.a.Price.Monthly[0], c.a.Price.Monthly[0]
	for _, v := range c.a.Price.Monthly {
		low, high = min(low, v), max(high, v)
	}
	price := c.show(low, pricePer)
	if low != high {
		price = c.number(low, pricePer) + " to " + c.show(high, pricePer)
	}
	c.labelled("Money", "product brings %s in %d, rising by %s a year; revenue is in money of the day",
		price, c.a.Price.Stated, c.show(c.a.Price.Escalation, share))
}
