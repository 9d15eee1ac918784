package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// grid is a table for files with its columns side by side and native values.
type grid struct {
	columns []column
	rows    [][]any
}

// column is one of a grid. Of a spread there are several, one for each thing that it is.
type column struct {
	name, unit, is string
	key            bool
}

// head is what stands over a column.
func (c *column) head() string {
	under := c.unit
	if c.is != "" && under != "" {
		under += ", "
	}
	if under += c.is; under == "" {
		return c.name
	}
	return c.name + "\n" + under
}

// named finds a table for files by its file, in a document, also within the rows of
// others, whose keys its rows then begin with; nil if there is none, or it has no rows.
func (b *book) named(d *document.Document, file string) *grid {
	g := &grid{}
	for _, block := range d.Blocks {
		if t, ok := block.(document.Table); ok && t.In.On(document.Files) {
			g.look(b, &t, file, nil, nil)
		}
	}
	if len(g.rows) == 0 {
		return nil
	}
	return g
}

// look adds the rows of a table and of those within it, under the keys of the row that it
// is in.
func (g *grid) look(b *book, t *document.Table, file string, keyed []column, keys []any) {
	wanted := t.File == file
	if wanted && g.columns == nil {
		g.columns = append(g.columns, keyed...)
		for i := range t.Columns {
			g.columns = append(g.columns, b.columns(&t.Columns[i])...)
		}
	}
	inner := append([]column{}, keyed...)
	for i := range t.Columns {
		if t.Columns[i].Key {
			inner = append(inner, b.columns(&t.Columns[i])...)
		}
	}
	for _, r := range t.Rows {
		row, own := append([]any{}, keys...), append([]any{}, keys...)
		for k := range t.Columns {
			cells := b.cells(&t.Columns[k], r.Cells[k])
			row = append(row, cells...)
			if t.Columns[k].Key {
				own = append(own, cells...)
			}
		}
		if wanted {
			g.rows = append(g.rows, row)
		}
		for _, cell := range r.Cells {
			if in, ok := cell.(document.Table); ok {
				g.look(b, &in, file, inner, own)
			}
		}
	}
}

// columns are those that a column of a document takes.
func (b *book) columns(c *document.Column) []column {
	if c.Name == "" || c.Form == document.Inner {
		return nil
	}
	name, unit := b.inWords(c)
	all := func(is ...string) []column {
		var out []column
		for _, i := range is {
			out = append(out, column{name, unit, i, c.Key})
		}
		return out
	}
	switch c.Form {
	case document.Spread:
		return all("mean", "P10", "P50", "P90")
	case document.Interval:
		return all("estimate", "low", "high")
	}
	return all("")
}

// inWords writes a column's name as words, with its unit.
func (b *book) inWords(c *document.Column) (name, unit string) {
	if c.Quantity.ToBase != 0 {
		unit = c.Quantity.Label(b.sys)
	}
	name, of, _ := strings.Cut(c.Name, ": ")
	for _, end := range []struct{ suffix, unit string }{{"_h", "h"}, {"_percent", "%"}} {
		if short, ok := strings.CutSuffix(name, end.suffix); ok && unit == "" {
			name, unit = short, end.unit
		}
	}
	name = strings.NewReplacer("_low95", ", low (95 %)", "_high95", ", high (95 %)", "_low90", ", low (90 %)", "_high90", ", high (90 %)", "_p10", ", P10", "_p90", ", P90", "_", " ").Replace(name)
	if of != "" {
		name += ": " + document.Printable(of)
	}
	return name, unit
}

// cells are what stands in the columns that a column takes: words, numbers, dates, or nil.
func (b *book) cells(c *document.Column, v any) []any {
	if c.Name == "" || c.Form == document.Inner {
		return nil
	}
	in := func(v float64) any { return number(c.Quantity.In(v, b.sys)) }
	switch v := v.(type) {
	case nil:
		return make([]any, len(b.columns(c)))
	case answer.Spread:
		return []any{in(v.Mean), in(v.P10), in(v.P50), in(v.P90)}
	case stats.Interval:
		return []any{in(v.Estimate), in(v.Low), in(v.High)}
	case float64:
		return []any{in(v)}
	case int:
		return []any{v}
	case bool:
		if v {
			return []any{"yes"}
		}
		return []any{"no"}
	case calendar.Date:
		return []any{v}
	case document.Number:
		return []any{number(v.Quantity.In(v.Value, b.sys))}
	case document.Part:
		return []any{document.PlainSpaces(v.In(b.sys))}
	case []string:
		return []any{strings.Join(v, "; ")}
	case []int:
		return []any{strings.Trim(strings.ReplaceAll(fmt.Sprint(v), " ", ", "), "[]")}
	case fmt.Stringer:
		return []any{v.String()}
	}
	return []any{fmt.Sprint(v)}
}

// number is nil where it is not known.
func number(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

// format is the number format that fits the cells given, of a column that is or is not a
// key.
func format(cells []any, key bool) string {
	most, integers, dates := 0.0, true, false
	for _, c := range cells {
		switch v := c.(type) {
		case float64:
			most = max(most, math.Abs(v))
			integers = integers && v == math.Trunc(v)
		case int:
			most = max(most, math.Abs(float64(v)))
		case calendar.Date:
			dates = true
		}
	}
	switch {
	case dates:
		return dayFormat
	case key:
		return yearFormat // which has no separator of thousands, as names do not
	}
	return formatOf(most, integers)
}

// months makes dates of the months that tell rows apart.
func (g *grid) months() {
	month := slices.IndexFunc(g.columns, func(c column) bool { return c.key && c.name == "month" })
	if month < 0 {
		return
	}
	for _, row := range g.rows {
		text, _ := row[month].(string)
		if day, err := time.Parse("2006-01", text); err == nil {
			row[month] = calendar.Date{Year: day.Year(), Month: day.Month(), Day: 1}
		}
	}
}

// trim takes out the columns in which there is nothing, such as money where the file has
// no prices.
func (g *grid) trim() {
	for k := len(g.columns) - 1; k >= 0; k-- {
		if slices.ContainsFunc(g.rows, func(row []any) bool { return row[k] != nil && row[k] != "" }) {
			continue
		}
		g.columns = slices.Delete(g.columns, k, k+1)
		for i := range g.rows {
			g.rows[i] = slices.Delete(g.rows[i], k, k+1)
		}
	}
}
