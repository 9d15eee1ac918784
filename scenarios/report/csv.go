package report

import (
	"loamcast/scenarios/units"
)

// spreadParts are the columns of a spread, in order.
var spreadParts = [...]string{"_mean", "_p10", "_p50", "_p90"}

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
