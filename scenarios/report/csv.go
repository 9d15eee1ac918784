package report

import (
	"bytes"
	"strconv"

	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// spreadParts are the columns of a spread, in order.
var spreadParts = [...]string{"_mean", "_p10", "_p50", "_p90"}

// CSV renders years.csv, months.csv, waits.csv, tools.csv, capacity.csv,
// triggered.csv, flows.csv and balance.csv. The first row names the columns,
// each ending in its unit; numbers have six significant digits and no separators
// of thousands; a number that is not finite is left empty. Before a word that a
// spreadsheet would take for a formula stands an apostrophe.
func CSV(a *simulate.Answer, sys units.System) ([]File, error) {
	tables := []struct {
		name string
		rows [][]string
	}{
		{"years.csv", tableOf(a.Years, []string{"year", "from"}, yearKey, yearFields, sys)},
		{"months.csv", tableOf(a.Months, []string{"year", "month"}, monthKey, monthFields, sys)},
		{"waits.csv", waitsTable(a, sys)},
		{"tools.csv", toolsTable(a, sys)},
		{"capacity.csv", capacityTable(a, sys)},
		{"triggered.csv", triggeredTable(a)},
		{"flows.csv", tableOf(a.Flows, []string{"name", "from", "to"}, flowKey, flowFields, sys)},
		{"balance.csv", tableOf(a.Balance.Components, []string{"component"}, componentKey, balanceFields, sys)},
	}
	var files []File
	for _, t := range tables {
		var b bytes.Buffer
		if err := plaintext.WriteCSV(&b, t.rows); err != nil {
			return nil, err
		}
		files = append(files, File{Name: t.name, Data: b.Bytes()})
	}
	return files, nil
}

func yearKey(y *simulate.Year) []string { return []string{y.Label, y.From.String()} }
func monthKey(m *simulate.Month) []string {
	return []string{strconv.Itoa(m.Year), strconv.Itoa(int(m.Month))}
}
func flowKey(f *simulate.Flow) []string { return []string{f.Name, f.From, f.To} }
func componentKey(c *simulate.ComponentBalance) []string {
	return []string{c.Name}
}

// tableOf makes a header and a row for each record.
func tableOf[T any](records []T, keys []string, key func(*T) []string, fields []field[T], sys units.System) [][]string {
	rows := [][]string{columnTitles(keys, fields, sys)}
	for i := range records {
		rows = append(rows, appendCells(key(&records[i]), &records[i], fields, sys))
	}
	return rows
}

// columnTitles appends the titles of the fields' columns to those before them.
func columnTitles[T any](before []string, fields []field[T], sys units.System) []string {
	for _, f := range fields {
		if f.spread == nil {
			before = append(before, f.title(sys))
			continue
		}
		for _, part := range spreadParts {
			before = append(before, f.title(sys)+part)
		}
	}
	return before
}

// appendCells appends the fields' columns of one record to a row.
func appendCells[T any](row []string, r *T, fields []field[T], sys units.System) []string {
	for _, f := range fields {
		row = append(row, f.cells(r, sys)...)
	}
	return row
}

// cells returns the field's columns for one record.
func (f field[T]) cells(r *T, sys units.System) []string {
	cell := func(v float64) string { return plainNumber(f.kind.in(v, sys)) }
	if f.spread == nil {
		return []string{cell(f.value(r))}
	}
	s := f.spread(r)
	return []string{cell(s.Mean), cell(s.P10), cell(s.P50), cell(s.P90)}
}
