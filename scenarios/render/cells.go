package render

import (
	"slices"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render/cells"
)

// textColumns writes the cells of a table for the screen. Columns of words that
// may be cut are, where the table is wider than the screen.
func (p *page) textColumns(t document.Table) []column {
	var columns []column
	shrinking := -1
	for k, c := range cells.Of(t, p.sys) {
		columns = append(columns, column{group: c.Group, headings: c.Headings, cells: c.Cells, words: c.Words, spare: c.Spare})
		if c.Shrink > 0 {
			shrinking = k
		}
		if c.Words {
			columns[k].pad()
		}
	}
	if shrinking >= 0 {
		p.shrink(columns, shrinking, t)
	}
	return columns
}

// shrink cuts the words of a column until the table fits the screen, or the
// column is as narrow as it may be.
func (s Screen) shrink(columns []column, at int, t document.Table) {
	least := 0
	for _, c := range t.Columns {
		least = max(least, c.Shrink)
	}
	c := &columns[at]
	whole := slices.Clone(c.cells)
	for longest := c.width(); longest > least && width(layOut(columns, s.Columns)) > s.Columns; {
		longest--
		for i, cell := range whole {
			c.cells[i] = document.Shorten(strings.TrimRight(cell, " "), longest)
		}
		c.pad()
	}
}

func width(lines []string) int {
	most := 0
	for _, l := range lines {
		most = max(most, utf8.RuneCountInString(l))
	}
	return most
}
