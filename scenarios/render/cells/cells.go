package cells

import (
	"fmt"
	"strings"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// Column is a column for a person to read.
type Column struct {
	// Group stands over like neighbours; the headings of all columns of a table are
	// equally many, one a line.
	Group    string
	Headings []string
	Cells    []string
	Words    bool // aligned left
	Shrink   int  // to how few characters the cells may be cut; 0 is not at all
	Spare    int  // as that of the document's column
}

// Of writes the columns of a table that are shown to a person, in a system of units.
func Of(t document.Table, sys units.System) []Column {
	var columns []Column
	for k := range t.Columns {
		c := &t.Columns[k]
		if c.Heads == nil {
			continue // for files alone
		}
		out := Column{Group: headed(c.Group, c, sys), Words: c.LeftAligned(), Shrink: c.Shrink, Spare: c.Spare}
		for _, h := range c.Heads {
			out.Headings = append(out.Headings, headed(h, c, sys))
		}
		for _, r := range t.Rows {
			out.Cells = append(out.Cells, cell(r.Cells[k], c, sys))
		}
		columns = append(columns, out)
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

// cell writes one cell.
func cell(v any, c *document.Column, sys units.System) string {
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
