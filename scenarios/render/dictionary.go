package render

import (
	"bytes"

	"loamcast/scenarios/document"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/units"
)

// DictionaryName is the file that says what the columns of the others are.
const DictionaryName = "columns.csv"

// dictionaryHeader are its columns. A figure is one of a long file, whose rows have its
// value in the columns named.
var dictionaryHeader = []string{"file", "column", "figure", "unit", "basis", "meaning"}

// Dictionary says of every column of the CSV files of some answers what it is: its unit,
// the basis of a mass, and its meaning, as the columns of the answers have them.
func Dictionary(answers []*document.Document, sys units.System) (outfile.File, error) {
	d := dictionary{seen: map[string]bool{}}
	for _, a := range answers {
		d.sheets = sheets{sys: sys.With(a.Basis.Currency)}
		for _, block := range a.Blocks {
			if t, ok := block.(document.Table); ok && t.In.On(document.Files) {
				d.add(t, nil)
			}
		}
	}
	for _, line := range ofDictionary {
		d.rows = append(d.rows, []string{DictionaryName, line[0], "", "", "", line[1]})
	}
	var b bytes.Buffer
	if err := plaintext.WriteCSV(&b, append([][]string{dictionaryHeader}, d.rows...)); err != nil {
		return outfile.File{}, err
	}
	return outfile.File{Name: DictionaryName, Data: b.Bytes()}, nil
}

// ofDictionary are the columns of the dictionary itself.
var ofDictionary = [][2]string{
	{"file", "file beside this one that has the column"},
	{"column", "name of the column, as the first row of the file has it"},
	{"figure", "figure of a long file, whose rows hold its value in the column; empty for other columns"},
	{"unit", "unit of the numbers in the column; empty for words, dates and plain numbers"},
	{"basis", "what a mass is of: dry solids, wet as it is weighed, or the substance itself that is named"},
	{"meaning", "what the column or figure is"},
}

// dictionary collects the lines of each file once.
type dictionary struct {
	sheets
	rows [][]string
	seen map[string]bool // files that are told of
}

// add tells of a table and of those within its rows, which begin with its keys.
func (d *dictionary) add(t document.Table, keys []document.Column) {
	if t.File != "" && !d.seen[t.File] {
		d.seen[t.File] = true
		d.file(t, keys)
	}
	own := append([]document.Column{}, keys...)
	for i := range t.Columns {
		if t.Columns[i].Key {
			own = append(own, t.Columns[i])
		}
	}
	for _, r := range t.Rows {
		for _, cell := range r.Cells {
			if inner, ok := cell.(document.Table); ok {
				d.add(inner, own)
			}
		}
	}
}

// file tells of the columns of a file, which are those that [sheets.add] writes.
func (d *dictionary) file(t document.Table, keys []document.Column) {
	name := t.File + ".csv"
	line := func(column, figure, unit, basis, meaning string) {
		d.rows = append(d.rows, []string{name, column, figure, unit, basis, meaning})
	}
	titled := func(c *document.Column) {
		for i, title := range d.titles(c) {
			line(title, "", d.unit(c), c.Basis.String(), meaningOf(c, i))
		}
	}
	for i := range keys {
		titled(&keys[i])
	}
	if !d.isLong(t, keys) {
		for i := range t.Columns {
			titled(&t.Columns[i])
		}
		return
	}
	for i := range t.Columns {
		if t.Columns[i].Key {
			titled(&t.Columns[i])
		}
	}
	line("figure", "", "", "", "which figure of the row's keys the values are of")
	line("unit", "", "", "", "unit of the values of the row")
	line("value", "", "", "", "the figure; its mean where it has quantiles, the estimate where it has an interval")
	spreads, intervals := longForms(&t)
	if spreads {
		for i, column := range []string{"p10", "p50", "p90"} {
			line(column, "", "", "", quantiles[i+1]+": the figure")
		}
	}
	if intervals {
		line("low", "", "", "", "low end of the interval of the figure")
		line("high", "", "", "", "high end of the interval of the figure")
	}
	for i := range t.Columns {
		if c := &t.Columns[i]; c.Name != "" && !c.Key && c.Form != document.Inner {
			line("value", c.Name, d.unit(c), c.Basis.String(), c.Meaning)
		}
	}
}

// isLong reports whether a file has a row for each figure, as [sheets.add] decides.
func (d *dictionary) isLong(t document.Table, keys []document.Column) bool {
	n := 0
	for i := range keys {
		n += len(d.titles(&keys[i]))
	}
	for i := range t.Columns {
		n += len(d.titles(&t.Columns[i]))
	}
	return n > mostColumnsOfFile
}

// unit is that of a column, empty where it has none.
func (d *dictionary) unit(c *document.Column) string {
	if c.Quantity.ToBase == 0 {
		return ""
	}
	return c.Quantity.Label(d.sys)
}

// quantiles say what the columns of a spread have of it.
var quantiles = [...]string{"mean of the runs", "one run in ten is below", "half of the runs are below", "nine runs in ten are below"}

// meaningOf is the meaning of one of the columns that a column takes in a file.
func meaningOf(c *document.Column, i int) string {
	switch {
	case c.Form == document.Spread:
		return quantiles[i] + ": " + c.Meaning
	case c.Form == document.Interval && i > 0:
		return [...]string{"low end", "high end"}[i-1] + " of the interval of: " + c.Meaning
	}
	return c.Meaning
}
