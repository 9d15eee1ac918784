package render

import (
	"bytes"
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// CSV renders the tables of a document that have a file. The first row names the
// columns, each ending in its unit; numbers have six significant digits and no
// separators of thousands; what is not known is left empty. Before a word that a
// spreadsheet would take for a formula stands an apostrophe. A table within the
// rows of another is a file of its own, whose rows begin with the keys of the
// row that holds them. A table of more columns than people read side by side is long:
// see [sheets.long].
func CSV(d *document.Document, sys units.System) ([]outfile.File, error) {
	s := sheets{sys: sys.With(d.Basis.Currency), rows: map[string][][]string{}}
	for _, block := range d.Blocks {
		if t, ok := block.(document.Table); ok && t.In.On(document.Files) {
			s.add(t, nil, nil)
		}
	}
	var files []outfile.File
	for _, name := range s.names {
		var b bytes.Buffer
		if err := plaintext.WriteCSV(&b, s.rows[name]); err != nil {
			return nil, err
		}
		files = append(files, outfile.File{Name: name + ".csv", Data: b.Bytes()})
	}
	return files, nil
}

// sheets are the rows of each file, in the order in which files are met.
type sheets struct {
	sys   units.System
	names []string
	rows  map[string][][]string
}

// add writes the rows of a table under the keys of the row that it is in.
func (s *sheets) add(t document.Table, keyNames, keys []string) {
	header := append([]string{}, keyNames...)
	for i := range t.Columns {
		header = append(header, s.titles(&t.Columns[i])...)
	}
	long := len(header) > mostColumnsOfFile
	if t.File != "" && s.rows[t.File] == nil {
		s.names = append(s.names, t.File)
		if long {
			header = longHeader(&t, keyNames)
		}
		s.rows[t.File] = [][]string{header}
	}
	names := append([]string{}, keyNames...)
	for i := range t.Columns {
		if t.Columns[i].Key {
			names = append(names, s.titles(&t.Columns[i])...)
		}
	}
	for _, r := range t.Rows {
		row, own := append([]string{}, keys...), append([]string{}, keys...)
		for k := range t.Columns {
			cells := s.cells(&t.Columns[k], r.Cells[k])
			row = append(row, cells...)
			if t.Columns[k].Key {
				own = append(own, cells...)
			}
		}
		switch {
		case t.File == "":
		case long:
			s.rows[t.File] = append(s.rows[t.File], s.long(&t, r, own)...)
		default:
			s.rows[t.File] = append(s.rows[t.File], row)
		}
		for _, cell := range r.Cells {
			if inner, ok := cell.(document.Table); ok {
				s.add(inner, names, own)
			}
		}
	}
}

// titles names the columns that a column takes in a file.
func (s *sheets) titles(c *document.Column) []string {
	title, suffix := c.Name, ""
	if c.Quantity.ToBase != 0 {
		suffix = c.Quantity.Suffix(s.sys)
	}
	switch {
	case c.Name == "", c.Form == document.Inner:
		return nil
	case c.Form == document.Spread:
		title += suffix
		return []string{title + "_mean", title + "_p10", title + "_p50", title + "_p90"}
	case c.Form == document.Interval:
		return []string{title + suffix, title + "_low" + suffix, title + "_high" + suffix}
	}
	return []string{title + suffix}
}

// straight are quotation marks that every program reads alike.
var straight = strings.NewReplacer("“", "'", "”", "'")

// cells writes what stands under the titles.
func (s *sheets) cells(c *document.Column, v any) []string {
	in := func(v float64) string { return plainNumber(c.Quantity.In(v, s.sys)) }
	if c.Name == "" || c.Form == document.Inner {
		return nil
	}
	switch v := v.(type) {
	case nil:
		return make([]string, len(s.titles(c)))
	case answer.Spread:
		return []string{in(v.Mean), in(v.P10), in(v.P50), in(v.P90)}
	case stats.Interval:
		return []string{in(v.Estimate), in(v.Low), in(v.High)}
	case float64:
		return []string{in(v)}
	case []string:
		return []string{strings.Join(v, "; ")}
	case []int:
		return []string{strings.Trim(strings.ReplaceAll(fmt.Sprint(v), " ", "; "), "[]")}
	case document.Number: // of a unit of its own
		return []string{plainNumber(v.Quantity.In(v.Value, s.sys))}
	case document.Part:
		return []string{straight.Replace(document.PlainSpaces(v.In(s.sys)))}
	}
	return []string{fmt.Sprint(v)}
}
