package workbook

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/document"
	"loamcast/scenarios/money"
)

// Columns of the sheet of quantities: what each row is, and then the years.
const (
	choiceColumn, whatColumn, unitColumn, worthColumn = 1, 2, 3, 4
	yearColumn                                        = 5
)

// Rows of the sheet of quantities that say how the years count; those of prices follow.
type yearRows struct{ paid, factor int }

// annuityFormula is the worth of 1 a year, in money of the stated year.
func (r *reckoned) annuityFormula() string {
	row := r.yearRows().factor
	return fmt.Sprintf("SUM(%s!%s:%s)", quoted(usedSheet), fixed(yearColumn, row), fixed(yearColumn+r.m.Horizon-1, row))
}

func (r *reckoned) yearRows() yearRows { return yearRows{usedHead + 2, usedHead + 3} }

// usedHead is the row of headings of the sheet of quantities.
const usedHead = 6

// quantities writes what each choice uses by year, and what that is worth.
func (r *reckoned) quantities() {
	s, m := r.used, r.m
	s.widths(22, 32, 11, 15)
	for y := range m.Horizon {
		s.broaden(yearColumn+y, narrowest, false)
	}
	s.across("Means of the runs over all growths by weight. Present worth is price × quantity × what a payment of the year is worth, which the rows at the top say; what is received is negative.", look{kind: note})
	if r.below() {
		s.across("A choice with fewer runs than the first uses what that does and the mean difference in the runs that both have, as its cost is: what is small may so come out below nothing.", look{kind: note})
	}
	for s.row < usedHead {
		s.row++
	}
	years := yearColumn + m.Horizon - 1
	heads := []string{"choice", "what", "unit", ">present worth"}
	for y := range m.Horizon {
		heads = append(heads, ">"+r.report.Basis.Label(y))
	}
	s.heads(1, heads...)
	s.row++
	s.section("How the years count")
	at := r.yearRows()
	r.yearRow("paid", "years from the start", "0.0", func(y int) formula {
		return formula(fmt.Sprintf(`%d+IF(%s="mid year",0.5,1)`, y, r.paid))
	})
	worth := func(rise string) func(int) formula { // of 1 in stated prices
		return func(y int) formula {
			t := fixedRow(yearColumn+y, at.paid)
			if rise == "" {
				return formula(fmt.Sprintf("(1+%s)^-%s", r.real, t))
			}
			return formula(fmt.Sprintf("((1+%s/100)/(1+%s/100))^(%s+%s)*(1+%s)^-%s", rise, r.inflation, r.since, t, r.real, t))
		}
	}
	r.yearRow("worth of 1, with inflation", "", "0.0000", worth(""))
	factors := map[int]int{}
	for _, i := range r.items {
		factors[i] = s.row
		rise := moneySheet + "!" + fixed(4, r.prices[i])
		r.yearRow("worth of 1 for "+m.Items[i].Name, "", "0.0000", worth(rise))
	}
	built, running := s.row, s.row+1
	r.yearRow("worth of 1 for what is built", "", "0.0000", worth(r.capital))
	r.yearRow("worth of 1 for its running", "", "0.0000", worth(r.inflation))
	for i := range m.Choices {
		c := &m.Choices[i]
		s.row++
		s.section(c.Name)
		for _, item := range r.items {
			it := &m.Items[item]
			sign := ""
			if it.Part == money.Sales {
				sign = "-"
			}
			price := moneySheet + "!" + fixed(2, r.prices[item])
			r.quantityRow(i, it.Part, it.Name, r.unitOf(it), fmt.Sprintf("%s%s*", sign, price), factors[item], converted(c.Used[item], it.Amount, r.sys))
		}
		for k, part := range document.BuiltParts {
			if sum(magnitudes(c.Loose[k])) == 0 {
				continue
			}
			factor := built
			if part == money.Running {
				factor = running
			}
			r.quantityRow(i, part, looseNames[k], r.sys.Currency(), "", factor, c.Loose[k])
		}
		if len(c.Waits) > 0 {
			s.set(whatColumn, "Steps that wait for a sign come on other dates in each run: "+document.Listed(printable(c.Waits))+". Their mean payments stand above by year, in the file's prices, as numbers that do not follow the yellow cells of steps.", look{kind: note})
			s.tall(s.row, 2)
			r.failed(r.file.MergeCell(s.name, cellAt(whatColumn, s.row), cellAt(years, s.row)))
			s.row++
		}
	}
	s.freeze(yearColumn, usedHead+1)
}

// below reports whether some quantity is below nothing.
func (r *reckoned) below() bool {
	for _, c := range r.m.Choices {
		for _, row := range c.Used {
			if slices.Min(row) < 0 {
				return true
			}
		}
	}
	return false
}

// looseNames are what is paid for steps without dates of their own.
var looseNames = document.Built[string]{"building, on each run's dates", "worth at the end, of the same", "upkeep, of the same", "running, of the same"}

// cellAt is [at] where that name is taken.
func cellAt(column, row int) string { return at(column, row) }

// fixedRow is a cell of a fixed row.
func fixedRow(column, row int) string {
	name, err := excelize.ColumnNumberToName(column)
	if err != nil {
		panic(err)
	}
	return fmt.Sprintf("%s$%d", name, row)
}

// yearRow writes a formula for each year.
func (r *reckoned) yearRow(what, unit, format string, of func(y int) formula) {
	s := r.used
	s.set(whatColumn, what, look{kind: beside})
	s.set(unitColumn, unit, look{kind: beside})
	for y := range r.m.Horizon {
		s.set(yearColumn+y, of(y), look{format: format})
	}
	s.row++
}

// quantityRow writes what a choice uses by year, and its present worth at a price.
func (r *reckoned) quantityRow(choice int, part money.Part, what, unit, price string, factor int, quantities []float64) {
	s := r.used
	last := yearColumn + len(quantities) - 1
	s.set(choiceColumn, document.Shorten(r.m.Choices[choice].Name, 24), look{kind: beside})
	s.set(whatColumn, what, look{kind: beside})
	s.set(unitColumn, unit, look{kind: beside})
	s.set(worthColumn, formula(fmt.Sprintf("%sSUMPRODUCT(%s:%s,%s:%s)", price, at(yearColumn, s.row), at(last, s.row), fixedRow(yearColumn, factor), fixedRow(last, factor))), look{whole, result})
	cells := make([]any, len(quantities))
	for y, q := range quantities {
		cells[y] = q
	}
	l := look{format: format(cells, false)}
	for y, q := range quantities {
		s.set(yearColumn+y, q, l)
	}
	r.worth[part][choice] = append(r.worth[part][choice], quoted(usedSheet)+"!"+at(worthColumn, s.row))
	s.row++
}
