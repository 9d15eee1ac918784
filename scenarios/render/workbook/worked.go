package workbook

import (
	"fmt"

	"loamcast/scenarios/document"
)

// Rows of the sheet on which the costs of steps are worked out, below its headings. Each
// step has a column.
const (
	toOrder = iota + 1 // the first of those that count the years to the order
	_
	_
	_
	_
	toUse // the first of those to the day of use
	_
	_
	_
	_
	counted    // when it counts as coming into use
	lead       // years from order to use
	growth     // of its cost above inflation, to the start
	perYear    // what that and the discount make of a payment a year later
	perYearRun // the same of running costs, which rise with inflation
	bought     // anew, how often
	rest       // of the worth at the end of the horizon, as a share of the cost
	grids      // the first row of the years
)

// working works out one step in its column of the sheet for that.
type working struct {
	*reckoned
	column int
	row    int // of the step on its own sheet
}

// own is a cell of the step's column, and there the same as other sheets name it.
func (w *working) own(row int) string   { return fixedRow(w.column, w.worked.row+row) }
func (w *working) there(row int) string { return quoted(workedSheet) + "!" + w.own(row) }

// of is a cell of the step's row on its own sheet.
func (w *working) of(column int) string { return stepsSheet + "!" + fixedColumn(column, w.row) }

// put writes a formula into a row.
func (w *working) put(row int, f, format string) {
	w.worked.put(w.column, w.worked.row+row, formula(f), look{format: format})
}

const decimals = "0.000"

// workedHeads writes what the rows are.
func (r *reckoned) workedHeads() {
	w, n := r.worked, r.m.Horizon
	w.across("Each step has a column. Worths are of 1 in the prices of the file, paid when the row says; the sheet of steps multiplies them by what the step costs.", look{kind: note})
	w.row++
	heads := []string{"step", "calendar years to the order", "first day, so many years on", "whole years to the order", "first day, so many years on", "years to the order",
		"calendar years to its use", "first day, so many years on", "whole years to its use", "first day, so many years on", "years to its use", "counts as in use from", "years from order to use",
		"cost above inflation at the start", "worth of 1 a year later", "running: worth of 1 a year later", "times bought anew", "share of the cost left at the end"}
	for k := range n + 1 {
		heads = append(heads, fmt.Sprintf("bought for the %s time: worth of 1", ordinal(k+1)))
	}
	for k := range n {
		heads = append(heads, fmt.Sprintf("the %s sold: worth of 1", ordinal(k+1)))
	}
	for _, what := range []string{"upkeep", "running"} {
		for y := range n {
			heads = append(heads, what+" in "+r.report.Basis.Label(y)+": worth of 1")
		}
	}
	for k, h := range heads {
		l := look{kind: beside}
		if k == 0 {
			l.kind = heading
		}
		w.put(1, w.row+k, h, l)
	}
	w.broaden(1, 40, false)
	w.freeze(2, w.row+1)
}

// ordinal is "1st", "2nd" and so on.
func ordinal(n int) string {
	suffix := "th"
	if tens := n / 10 % 10; tens != 1 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, suffix)
}

// work works out one step and returns the formulas of the present worths of its parts. A
// step of the file that is older than its life has been replaced by its like; one of a
// choice comes into use on the first day at the earliest.
func (w *working) work(name string, decided bool) document.Built[string] {
	w.worked.put(w.column, w.worked.row, name, look{kind: headingOver})
	w.worked.broaden(w.column, 16, false)
	ordered := w.years(toOrder, w.of(stepOrdered))
	used := w.years(toUse, w.of(stepInUse))
	life, end, n := w.of(stepLife), w.horizon, w.m.Horizon
	from := fmt.Sprintf("MAX(0,%s)", used)
	if decided {
		from = fmt.Sprintf(`IF(%[1]s="",%[2]s,IF(%[2]s+%[1]s<0,%[2]s+%[1]s*ROUNDUP(-%[2]s/%[3]s-1,0),%[2]s))`, life, used, orOne(life))
	}
	w.put(counted, from, decimals)
	w.put(lead, used+"-"+ordered, decimals)
	w.put(growth, fmt.Sprintf("((1+%s/100)/(1+%s/100))^%s", w.of(stepRise), w.inflation, w.since), decimals)
	w.put(perYear, fmt.Sprintf("(1+%s/100)/(1+%s/100)/(1+%s)", w.of(stepRise), w.inflation, w.real), decimals)
	w.put(perYearRun, fmt.Sprintf("1/(1+%s)", w.real), decimals)
	c, g, q := w.own(counted), w.own(growth), w.own(perYear)
	within := fmt.Sprintf("%s<%s-1E-9", c, end)
	w.put(bought, fmt.Sprintf(`IF(%s="",0,MAX(0,ROUNDUP((%s-1E-9-%s)/%s,0)-1))`, life, end, c, orOne(life)), yearFormat)
	last := fmt.Sprintf(`(%s+IF(%s="",0,%s*%s))`, c, life, w.own(bought), life)
	w.put(rest, fmt.Sprintf(`IF(%s,IF(%s>=0,IF(%s="",1,1-(1-%s/100)*MIN(1,(%s-%s)/%s)),0),0)`, within, last, life, w.of(stepSalvage), end, last, orOne(life)), decimals)
	buy, sell, upkeep, running := grids, grids+n+1, grids+2*n+1, grids+3*n+1
	w.put(buy, fmt.Sprintf("IF(%[1]s>=0,IF(%[2]s,%[3]s*%[4]s^MAX(0,%[1]s-%[5]s),0),0)", c, within, g, q, w.own(lead)), decimals)
	for k := 1; k <= n; k++ {
		again := fmt.Sprintf("%s+%d*%s", c, k, life)
		w.put(buy+k, fmt.Sprintf(`IF(%s="",0,IF(%s<%s-1E-9,%s*%s^MAX(0,%s-%s),0))`, life, again, end, g, q, again, w.own(lead)), decimals)
		w.put(sell+k-1, fmt.Sprintf(`IF(%s="",0,IF(%s<%s-1E-9,%s*%s^(%s),0))`, life, again, end, g, q, again), decimals)
	}
	for y := range n {
		inUse := fmt.Sprintf("MAX(0,MIN(1,%d-%s))", y+1, c)
		paid := quoted(usedSheet) + "!" + fixed(yearColumn+y, w.yearRows().paid)
		w.put(upkeep+y, fmt.Sprintf("%s*%s*%s^%s", inUse, g, q, paid), decimals)
		w.put(running+y, fmt.Sprintf("%s*%s^%s", inUse, w.own(perYearRun), paid), decimals)
	}
	total := func(from, to int) string { return fmt.Sprintf("SUM(%s:%s)", w.there(from), w.own(to)) }
	cost := at(stepCost, w.row)
	return document.Built[string]{
		fmt.Sprintf("%s*%s", cost, total(buy, buy+n)),
		fmt.Sprintf("-%s*(%s/100*%s+%s*%s*%s^%s)", cost, at(stepSalvage, w.row), total(sell, sell+n-1), w.there(rest), w.there(growth), w.there(perYear), end),
		fmt.Sprintf("%s*%s/100*%s", cost, at(stepUpkeep, w.row), total(upkeep, upkeep+n-1)),
		fmt.Sprintf("%s*%s", at(stepRunning, w.row), total(running, running+n-1)),
	}
}

// years counts the years from the first day to a date in five rows, from anniversary to
// anniversary, and returns the cell of the last. Each takes one step, since not all
// programs that reckon a book can do these in one.
func (w *working) years(row int, date string) string {
	own := func(k int) string { return w.own(row + k) }
	w.put(row, fmt.Sprintf("YEAR(%s)-YEAR(%s)", date, w.start), yearFormat)
	w.put(row+1, fmt.Sprintf("EDATE(%s,12*%s)", w.start, own(0)), dayFormat)
	w.put(row+2, fmt.Sprintf("%s-IF(%s<%s,1,0)", own(0), date, own(1)), yearFormat)
	w.put(row+3, fmt.Sprintf("EDATE(%s,12*%s)", w.start, own(2)), dayFormat)
	w.put(row+4, fmt.Sprintf("%[1]s+(%[2]s-%[3]s)/(EDATE(%[4]s,12*%[1]s+12)-%[3]s)", own(2), date, own(3), w.start), decimals)
	return own(4)
}

// orOne is a life by which can be divided, also where there is none: programs may reckon
// both sides of an IF.
func orOne(life string) string { return fmt.Sprintf("MAX(%s,1E-9)", life) }

// fixedColumn is a cell of a fixed column.
func fixedColumn(column, row int) string { return "$" + at(column, row) }
