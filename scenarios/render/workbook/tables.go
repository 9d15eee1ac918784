package workbook

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// tabled is a sheet of one table of one answer.
type tabled struct {
	sheet, title string
	answer, file string // the question, and the table's file
	note         string
	draw         func(*sheet, *grid, int) // a chart of a grid whose rows begin at a row
}

// tables are those of the answers, in the order of a reader.
var tables = []tabled{
	{"vessels", "How long each number of vessels lasts", "when", "when", "By growth and number of vessels: the last year in which the service target is kept, the first in which it is missed, and when the next vessels must be there and ordered. An empty cell is not within the horizon.", nil},
	{"vessels by year", "Vessels kept by year", "when", "when-years", "Missing: the share of runs that miss the service target in the year, with the range that is 90 % sure.", vesselsChart},
	{"vessel orders", "What waiting for the order means", "when", "when-orders", "Late: the chance of missing the service target before more vessels are in use.", nil},
	{"chips by month", "Chips by month", "chips", "chips-months", "", chipsChart},
	{"chips by year", "Chips by fiscal year", "chips", "chips-years", "", nil},
	{"compost by month", "Compost by month", "product", "product-months", "", nil},
	{"compost by year", "Compost by fiscal year", "product", "product-years", "Months of glut and shortage are numbered 1 to 12.", nil},
	{"plant by year", "The plant, year by year, as the file has it", "run", "years", "", nil},
	{"options", "The options, in order of rank", "options", "options", "", nil},
	{"options by growth", "The options under each growth", "options", "options-growth", "", nil},
}

var (
	inputs = tabled{"inputs", "Every value used", "inputs", "inputs", "A value without a line is a default, and its source stands beside it. Where a usual range is known, a value outside of it is warned of when the file is read.", nil}
	// accounts are those of the plant, which close.
	accounts = tabled{"accounts", "Accounts of mass", "run", "balance", "What goes in comes out or is still there: means of all years and runs. What is left over is rounding.", nil}
)

// document finds the answer to a question, nil if the report has none.
func (b *book) document(name string) *document.Document {
	for _, c := range b.report.Chapters {
		for _, p := range c.Parts {
			if p.Name == name {
				return p.Document
			}
		}
	}
	return nil
}

// mostAbreast is how many columns people read side by side. A table of more lies on its
// side, a row for each figure, if it has few rows; else those of its columns are folded
// away that say how far the middle of the runs lies apart.
const mostAbreast = 24

// table writes the sheet of a table that the report has.
func (b *book) table(t *tabled) {
	d := b.document(t.answer)
	if d == nil {
		return
	}
	g := b.named(d, t.file)
	if g == nil {
		return
	}
	if t.file == "inputs" {
		g.split()
	}
	g.months()
	g.trim()
	s := b.sheet(t.sheet, t.title)
	s.across(t.note, look{kind: note})
	switch wide := len(g.columns) > mostAbreast; {
	case wide && !strings.HasSuffix(t.sheet, "month"):
		s.onItsSide(g)
	default:
		first := s.abreast(g, wide)
		if t.draw != nil {
			t.draw(s, g, first)
		}
	}
	s.done()
}

// abreast writes a grid with its columns side by side, and returns the row of its first
// row.
func (s *sheet) abreast(g *grid, fold bool) int {
	if fold {
		s.across("Means are shown; how far the runs lie apart is folded away: the + over the columns brings it back.", look{kind: note})
	}
	s.row++
	head := s.row
	heads, keys := make([]string, len(g.columns)), 0
	tall := make([]int, len(g.rows))
	for k := range g.columns {
		c := &g.columns[k]
		if c.key && k == keys {
			keys++
		}
		heads[k] = s.down(k+1, g, head+1, fold, tall)
	}
	for i, lines := range tall {
		if lines > 1 {
			s.tall(head+1+i, lines)
		}
	}
	s.heads(1, heads...)
	s.row = head + 1 + len(g.rows)
	s.filter(head, len(g.columns), len(g.rows))
	s.freeze(keys+1, head+1)
	return head + 1
}

// down writes a column of a grid from a row on, and returns its heading. Rows become as
// many lines tall as its words need.
func (s *sheet) down(column int, g *grid, first int, fold bool, tall []int) string {
	c := &g.columns[column-1]
	cells, width, words := make([]any, len(g.rows)), 0, false
	for i, row := range g.rows {
		cells[i] = row[column-1]
		if text, ok := cells[i].(string); ok {
			width, words = max(width, utf8.RuneCountInString(text)), true
		}
	}
	s.fit(column, c, width, fold)
	l := look{format: format(cells, c.key)}
	if c.key && c.name == "month" && l.format == dayFormat {
		l.format = monthFormat
	}
	for i, cell := range cells {
		switch v := cell.(type) {
		case string:
			s.put(column, first+i, v, look{kind: cellWords})
			tall[i] = max(tall[i], s.lines(column, v))
		case float64:
			if words { // each by itself, with all its digits
				l.format = general
				if v == math.Trunc(v) && math.Abs(v) >= 10_000 {
					l.format = whole
				}
			}
			s.put(column, first+i, v, l)
		default:
			s.put(column, first+i, v, l)
		}
	}
	if words {
		return c.head()
	}
	return ">" + c.head()
}

const narrowest, widest = 11, 30

// fit sets the width of a column by its words, and folds it away if it is to be.
func (s *sheet) fit(k int, c *column, width int, fold bool) {
	for _, word := range strings.Fields(c.head()) {
		width = max(width, utf8.RuneCountInString(word))
	}
	s.broaden(k, float64(min(max(width+2, narrowest), widest)), fold && c.is != "" && c.is != "mean" && c.is != "estimate")
}

// filter puts filters on a row of headings.
func (s *sheet) filter(head, columns, rows int) {
	s.b.failed(s.b.file.AutoFilter(s.name, at(1, head)+":"+at(columns, head+rows), nil))
}

// onItsSide writes a grid with a row for each of its figures, and a column for each of its
// rows, which its keys name.
func (s *sheet) onItsSide(g *grid) {
	s.row++
	head := s.row
	heads, widths := []string{"figure", "unit"}, []float64{38, 13}
	if slices.ContainsFunc(g.columns, func(c column) bool { return c.is != "" }) {
		heads, widths = append(heads, "is"), append(widths, 9)
	}
	before := len(heads)
	for range g.rows {
		widths = append(widths, g.breadth())
	}
	s.widths(widths...)
	for _, row := range g.rows {
		var names []string
		for k, cell := range row {
			if g.columns[k].key {
				names = append(names, spoken(cell))
			}
		}
		if len(names) == 0 {
			names = []string{spoken(row[0])}
		}
		heads = append(heads, ">"+strings.Join(names, " "))
	}
	s.heads(1, heads...)
	s.row++
	rows := 0
	for k := range g.columns {
		c := &g.columns[k]
		if c.key {
			continue
		}
		s.set(1, c.name, look{kind: cellWords})
		s.set(2, c.unit, look{kind: cellWords})
		if c.is != "" {
			s.set(before, c.is, look{kind: cellWords})
		}
		var cells []any
		for _, row := range g.rows {
			cells = append(cells, row[k])
		}
		tall := 1
		l := look{format: format(cells, false)}
		for i, cell := range cells {
			if text, ok := cell.(string); ok {
				s.set(before+1+i, text, look{kind: figureWords})
				tall = max(tall, s.lines(before+1+i, text))
				continue
			}
			s.set(before+1+i, cell, l)
		}
		if tall > 1 {
			s.tall(s.row, tall)
		}
		s.row++
		rows++
	}
	s.filter(head, before+len(g.rows), rows)
	s.freeze(before+1, head+1)
}

// breadth is how broad the columns of a grid on its side are, by its longest words.
func (g *grid) breadth() float64 {
	longest := 0
	for _, row := range g.rows {
		for _, cell := range row {
			if text, ok := cell.(string); ok {
				longest = max(longest, utf8.RuneCountInString(text))
			}
		}
	}
	return float64(min(max(longest+2, narrowest+1), 18))
}

// spoken writes a cell in a heading.
func spoken(cell any) string {
	switch v := cell.(type) {
	case string:
		return v
	case calendar.Date:
		return v.String()
	case int:
		return rowName(v)
	}
	return ""
}
