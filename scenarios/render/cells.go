package render

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// textColumns writes the cells of a table for the screen. Columns of words that
// may be cut are, where the table is wider than the screen.
func (p *page) textColumns(t document.Table) []column {
	var columns []column
	shrinking := -1
	for k := range t.Columns {
		c := &t.Columns[k]
		if c.Heads == nil {
			continue // for files alone
		}
		out := column{group: headed(c.Group, c, p.sys), spare: c.Spare}
		for _, h := range c.Heads {
			out.headings = append(out.headings, headed(h, c, p.sys))
		}
		for _, r := range t.Rows {
			out.cells = append(out.cells, textCell(r.Cells[k], c, p.sys))
		}
		if c.Shrink > 0 {
			shrinking = len(columns)
		}
		columns = append(columns, out)
		if columns[len(columns)-1].words = c.LeftAligned(); c.LeftAligned() {
			columns[len(columns)-1].pad()
		}
	}
	if shrinking >= 0 {
		p.shrink(columns, shrinking, t)
	}
	return columns
}

// headed puts the unit of a column, the currency and the column's mark in the places that a heading
// keeps for them.
func headed(heading string, c *document.Column, sys units.System) string {
	plain := func(p document.Part) string { return document.PlainSpaces(p.In(sys)) }
	return strings.NewReplacer(
		"{unit}", c.Quantity.Label(sys),
		"{units}", plain(document.Units{Quantity: c.Quantity}),
		"{currency}", sys.Currency(),
		"{mark}", plain(document.With(c.Mark, c.Quantity, 0)),
	).Replace(heading)
}

// textCell writes one cell.
func textCell(v any, c *document.Column, sys units.System) string {
	switch v := v.(type) {
	case nil:
		return "-"
	case float64:
		return document.PlainSpaces(document.Fixed(v, c.Quantity, max(c.Decimals, document.Significant)).In(sys))
	case string:
		return document.Printable(v)
	case document.Part:
		return document.PlainSpaces(v.In(sys))
	}
	return fmt.Sprint(v)
}

// shrink cuts the words of a column until the table fits the screen, or the
// column is as narrow as it may be.
func (s Screen) shrink(columns []column, at int, t document.Table) {
	least := 0
	for _, c := range t.Columns {
		least = max(least, c.Shrink)
	}
	c := &columns[at]
	whole := append([]string{}, c.cells...)
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
