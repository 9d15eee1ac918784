package render

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// mostColumnsOfFile is how many columns a CSV file has side by side. A table of more is
// long: each of its rows becomes as many as it has figures, which begin with the row's
// keys and say what the figure is, its unit and its value. A filter or a pivot table of a
// spreadsheet finds what it needs there.
const mostColumnsOfFile = 24

// longForms says what the values of a long file are, beside single ones.
func longForms(t *document.Table) (spreads, intervals bool) {
	for i := range t.Columns {
		c := &t.Columns[i]
		spreads = spreads || c.Name != "" && c.Form == document.Spread
		intervals = intervals || c.Name != "" && c.Form == document.Interval
	}
	return spreads, intervals
}

// longHeader names the columns of a long file. A value is a single one, a mean or an
// estimate.
func longHeader(t *document.Table, keyNames []string) []string {
	header := append([]string{}, keyNames...)
	for i := range t.Columns {
		if t.Columns[i].Key {
			header = append(header, t.Columns[i].Name)
		}
	}
	header = append(header, "figure", "unit", "value")
	spreads, intervals := longForms(t)
	if spreads {
		header = append(header, "p10", "p50", "p90")
	}
	if intervals {
		header = append(header, "low", "high")
	}
	return header
}

// long writes the figures of one row in rows of their own, which begin with its keys.
func (s *sheets) long(t *document.Table, r document.Row, keys []string) [][]string {
	spreads, intervals := longForms(t)
	var out [][]string
	for k := range t.Columns {
		c := &t.Columns[k]
		if c.Name == "" || c.Key || c.Form == document.Inner {
			continue
		}
		unit := ""
		if c.Quantity.ToBase != 0 {
			unit = c.Quantity.Label(s.sys)
		}
		cells := s.cells(c, r.Cells[k])
		row := append(append([]string{}, keys...), c.Name, unit, cells[0])
		_, spread := r.Cells[k].(answer.Spread)
		_, interval := r.Cells[k].(stats.Interval)
		if spreads {
			row = append(row, pick(spread, cells, 1, 2, 3)...)
		}
		if intervals {
			row = append(row, pick(interval, cells, 1, 2)...)
		}
		out = append(out, row)
	}
	return out
}

// pick returns some of the cells if they are there, and else as many empty ones.
func pick(there bool, cells []string, at ...int) []string {
	out := make([]string, len(at))
	for i, k := range at {
		if there {
			out[i] = cells[k]
		}
	}
	return out
}
