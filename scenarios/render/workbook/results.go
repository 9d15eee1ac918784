package workbook

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/document"
	"loamcast/scenarios/money"
)

// partNames are the parts of a cost as a plant says them.
var partNames = map[money.Part]string{
	money.Capital: "building", money.Salvage: "worth at the end", money.Maintenance: "upkeep", money.Running: "overhead and running",
	money.Labour: "labour", money.Power: "power", money.Fuel: "fuel", money.Carbon: "carbon", money.Chips: "chips and amendments",
	money.Tipping: "hauling and tipping", money.Contract: "hauled by contract", money.Missing: "missing the target", money.Sampling: "samples", money.Sales: "product sold",
}

// results writes what each choice costs, and of what that is made.
func (r *reckoned) results() {
	s, m := r.main, r.m
	s.row = r.resultsAt
	unit := document.MoneyOf(m.Rates.Stated).Plain(r.sys)
	s.section("What each choice costs, in " + unit)
	s.heads(1, "choice", ">present worth", ">each year", ">over the first", ">as simulated", ">changed by", "service target, as simulated", "", "")
	parts := r.parts()
	first, byPart := s.row+1, s.row+1+len(m.Choices)+3
	for i := range m.Choices {
		c, row := &m.Choices[i], first+i
		s.put(1, row, c.Name, look{kind: cellWords})
		s.put(2, row, formula(fmt.Sprintf("SUM(%s:%s)", at(2, byPart+i), at(1+len(parts), byPart+i))), look{whole, result})
		s.put(3, row, formula(at(2, row)+"/"+here(r.annuity)), look{format: whole})
		s.put(4, row, formula(at(2, row)+"-"+fixed(2, first)), look{format: whole})
		s.put(5, row, c.Present, look{format: whole})
		s.put(6, row, formula(fmt.Sprintf("ROUND(%s-%s,2)", at(2, row), at(5, row))), look{format: whole}) // to cents, for what is left of rounding is no change
		s.put(7, row, r.said(c.Keeps), look{kind: beside})
		r.failed(r.file.MergeCell(s.name, at(7, row), at(9, row)))
	}
	s.row = byPart - 2
	s.section("Cost by part, present worth in " + unit)
	names := []string{"choice"}
	for _, part := range parts {
		names = append(names, ">"+partNames[part])
	}
	s.heads(1, names...)
	for k, part := range parts {
		for i := range m.Choices {
			v := any(0)
			if cells := r.worth[part][i]; len(cells) > 0 {
				v = formula(strings.Join(cells, "+"))
			}
			s.put(k+2, byPart+i, v, look{format: whole})
		}
	}
	for i := range m.Choices {
		s.put(1, byPart+i, m.Choices[i].Name, look{kind: cellWords})
	}
	s.freeze(2, 1)
	r.costChart(parts, byPart)
}

// parts are those that some choice has or might have.
func (r *reckoned) parts() []money.Part {
	var out []money.Part
	for _, part := range money.Parts() {
		for i := range r.m.Choices {
			if len(r.worth[part][i]) > 0 {
				out = append(out, part)
				break
			}
		}
	}
	return out
}

// costChart stacks the parts of each choice's cost.
func (r *reckoned) costChart(parts []money.Part, first int) {
	s := r.main
	last := first + len(r.m.Choices) - 1
	d := drawn{
		kind: excelize.BarStacked, title: "Costs by part of the options", x: "choice", y: "present worth, " + document.MoneyOf(r.m.Rates.Stated).Plain(r.sys),
		categories: s.cells(1, first, last), width: 1000, height: uint(220 + 34*len(r.m.Choices)), format: whole,
	}
	for k := range parts {
		d.series = append(d.series, series{s.cells(k+2, first-1, first-1), s.cells(k+2, first, last)})
	}
	r.failed(r.file.InsertPageBreak(s.name, at(1, r.lastRow()+2)))
	s.chart(1, r.lastRow()+2, d)
}

// lastRow is the last row of the sheet of money: that of the last price.
func (r *reckoned) lastRow() int {
	last := 0
	for _, row := range r.prices {
		last = max(last, row)
	}
	return last
}
