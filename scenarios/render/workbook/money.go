package workbook

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/document"
	"loamcast/scenarios/money"
)

// Names of the sheets on money.
const moneySheet, stepsSheet, workedSheet, usedSheet = "money", "steps", "steps worked out", "quantities"

// reckoned is money in the making: where on its sheets what stands.
type reckoned struct {
	*book
	m *document.Reckoning

	main, steps, worked, used *sheet

	items  []int       // of the reckoning, that are used or have a price
	prices map[int]int // the row of each on the sheet of money
	// Cells of rates, as other sheets name them.
	discount, kind, inflation, paid, real, horizon, start, since, capital, annuity string

	firstStep int                       // the row of the first step on its sheet
	resultsAt int                       // the row in which the results begin
	worth     map[money.Part][][]string // cells with present worths by part and choice
}

// money writes the sheets on money.
func (b *book) money(m *document.Reckoning) {
	r := &reckoned{book: b, m: m, prices: map[int]int{}, worth: map[money.Part][][]string{}}
	for _, part := range money.Parts() {
		r.worth[part] = make([][]string, len(m.Choices))
	}
	for i, it := range m.Items {
		for _, c := range m.Choices {
			if it.Price.Amount != 0 && it.Part != money.Chips && it.Part != money.Contract || sum(c.Used[i]) != 0 {
				r.items = append(r.items, i)
				break
			}
		}
	}
	r.main = b.sheet(moneySheet, "Money: change a yellow cell, and all costs follow")
	r.steps = b.sheet(stepsSheet, "Steps: what is built, when, and what it costs")
	r.used = b.sheet(usedSheet, "Quantities by year, as they are priced")
	r.worked = b.sheet(workedSheet, "How the costs of the steps come about")
	r.places()
	r.rates()
	r.pricesTable()
	r.quantities()
	r.stepsTable()
	r.results()
	for _, s := range []*sheet{r.main, r.steps, r.used, r.worked} {
		s.done()
	}
}

func sum(xs []float64) float64 {
	total := 0.0
	for _, x := range xs {
		total += x
	}
	return total
}

// places lays out the sheet of money, so that others can name its cells: results stand
// first, and what they depend on below.
func (r *reckoned) places() {
	s := r.main
	s.widths(38, 15, 15, 14, 15, 14, 14, 13, 13, 13, 13, 13, 13, 13, 13)
	for _, text := range r.notes() {
		s.across(text, look{kind: wrapped})
	}
	const heads, gap, parts = 2, 2, 3
	n := len(r.m.Choices)
	r.resultsAt = s.row + 1
	at := r.resultsAt + heads + n + gap + parts + n + gap
	for i, cell := range []*string{&r.discount, &r.kind, &r.inflation, &r.paid, &r.capital, &r.real, &r.since, &r.start, &r.horizon, &r.annuity} {
		*cell = r.cellOf(at + i)
	}
}

// cellOf is a cell of the second column of the sheet of money.
func (r *reckoned) cellOf(row int) string { return moneySheet + "!" + fixed(2, row) }

// rowOf is the row of a cell of [reckoned.cellOf].
func rowOf(cell string) int {
	_, name, _ := strings.Cut(cell, "!")
	_, row, err := excelize.CellNameToCoordinates(strings.ReplaceAll(name, "$", ""))
	if err != nil {
		panic(err)
	}
	return row
}

// notes say what the sheet is, and what it is not.
func (r *reckoned) notes() []string {
	unit := document.MoneyOf(r.m.Rates.Stated).Plain(r.sys)
	out := []string{
		fmt.Sprintf("Costs are present worths on %v in %s; what is received is negative. They are reckoned from the quantities, prices and steps of this book, and with the values given here they are the means of the simulated runs.", r.m.Start, unit),
		"Changing the date of a step moves its payments alone, and not what was simulated: loads, chips and hauling stay as they were. So do they with another cost or price. To see what the plant does with another date, change the file and run the program again.",
	}
	if len(r.m.Drawn) > 0 {
		out = append(out, fmt.Sprintf("Not known for sure, and drawn anew for each run: %s. Quantities are therefore means of quantity × what the run paid ÷ what the file says, so that the file's price gives the runs' mean cost.", document.Listed(r.m.Drawn)))
	}
	if r.m.DrawnRate {
		out = append(out, "The discount rate is among them: the cost of each year is here that of the mean present worth, which the runs' own mean may differ from by a little.")
	}
	return out
}

// rates writes how money loses worth.
func (r *reckoned) rates() {
	s, m := r.main, r.m
	s.row = rowOf(r.discount) - 2
	s.section("Rates")
	s.heads(1, "rate", ">value", "unit")
	s.row++
	row := func(name string, v any, unit string, l look) {
		s.set(1, name, look{kind: cellWords})
		s.set(2, v, l)
		s.set(3, unit, look{kind: beside})
		s.row++
	}
	change := look{format: percentFormat, kind: input}
	kind, paid := "nominal", "end of year"
	if m.Rates.Real {
		kind = "real"
	}
	if m.Rates.Timing == money.MidYear {
		paid = "mid year"
	}
	row("discount", 100*m.Rates.Discount, "%/year", change)
	row("discount is", kind, "nominal or real, that is above inflation", look{kind: input})
	row("inflation", 100*m.Rates.Escalation, "%/year", change)
	row("running costs count at", paid, "mid year or end of year", look{kind: input})
	row("what is built rises by", r.rise(m.Capital), "%/year", change)
	row("discount above inflation", formula(fmt.Sprintf(`IF(%[1]s="real",%[2]s/100,(%[2]s-%[3]s)/100/(1+%[3]s/100))`, here(r.kind), here(r.discount), here(r.inflation))), "a year", look{format: "0.0000"})
	row("from the prices' date to the start", m.Rates.Start-float64(m.Rates.Stated), "years", look{format: "0.00"})
	row("the first day", m.Start, "", look{format: dayFormat})
	row("horizon", m.Horizon, "years", look{format: yearFormat})
	row("worth of 1 a year over the horizon", formula(r.annuityFormula()), "", look{format: "0.000"})
	r.dropdown(r.kind, "nominal", "real")
	r.dropdown(r.paid, "mid year", "end of year")
}

// here is a cell as formulas of its own sheet name it.
func here(cell string) string {
	_, name, _ := strings.Cut(cell, "!")
	return name
}

// rise is how a price rises, %/year: with inflation, whatever that is, where the file has
// the same for both.
func (r *reckoned) rise(rate float64) any {
	if rate == r.m.Rates.Escalation {
		return formula(r.inflation)
	}
	return 100 * rate
}

// dropdown lets a cell be one of some words.
func (r *reckoned) dropdown(cell string, words ...string) {
	v := excelize.NewDataValidation(false)
	v.Sqref = strings.ReplaceAll(here(cell), "$", "")
	r.failed(v.SetDropList(words))
	v.SetError(excelize.DataValidationErrorStyleStop, "One of these", strings.Join(words, " or "))
	r.failed(r.file.AddDataValidation(moneySheet, v))
}

// pricesTable writes what things cost.
func (r *reckoned) pricesTable() {
	s := r.main
	s.row++
	s.section("Prices")
	s.heads(1, "price of", ">price", "unit", ">rises by\n%/year", ">in the file", ">the file's rise\n%/year", "note")
	s.row++
	for _, i := range r.items {
		it := &r.m.Items[i]
		r.prices[i] = s.row
		price := it.Per.In(it.Price.Amount, r.sys)
		l := look{format: priceFormat(price)}
		s.set(1, it.Name, look{kind: cellWords})
		s.set(2, price, look{format: l.format, kind: input})
		s.set(3, r.perUnit(it), look{kind: beside})
		s.set(4, r.rise(it.Price.Escalation), look{format: percentFormat, kind: input})
		s.set(5, price, l)
		s.set(6, 100*it.Price.Escalation, look{format: percentFormat})
		s.set(7, it.Note, look{kind: beside})
		r.failed(s.b.file.MergeCell(s.name, at(7, s.row), at(14, s.row)))
		s.row++
	}
}

// perUnit is the unit of a price.
func (r *reckoned) perUnit(it *document.ReckonedItem) string {
	unit := it.Per.Label(r.sys)
	if it.Per == document.Money && it.Unit != "" {
		unit += "/" + it.Unit
	}
	return unit
}

// priceFormat shows a price to as many digits as one is told with.
func priceFormat(v float64) string {
	if v >= 1000 {
		return whole
	}
	return "0.00##"
}
