package render

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// column is one column of a table of text: a heading over it and its like
// neighbours, headings of its own, and its cells.
type column struct {
	group    string
	headings []string
	cells    []string
	words    bool // aligned left
	spare    int  // as that of a document's column
}

// width is that of the widest heading or cell.
func (c *column) width() int {
	most := 0
	for _, text := range slices.Concat(c.headings, c.cells) {
		most = max(most, utf8.RuneCountInString(text))
	}
	return most
}

// pad aligns a column of words left.
func (c *column) pad() {
	for i := range c.headings {
		c.headings[i] = strings.TrimRight(c.headings[i], " ")
	}
	width := c.width()
	for _, list := range [][]string{c.headings, c.cells} {
		for i, s := range list {
			list[i] = s + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
		}
	}
}

// layOut renders columns, aligned right, with a line under the headings. Two
// spaces part the columns, or one if the lines would be longer than most. All
// columns have the same number of headings and of cells.
func layOut(columns []column, most int) []string {
	lines := layOutGap(columns, 2)
	if utf8.RuneCountInString(lines[0]) > most {
		lines = layOutGap(columns, 1)
	}
	return lines
}

func layOutGap(columns []column, gap int) []string {
	widths := make([]int, len(columns))
	for i := range columns {
		widths[i] = columns[i].width()
	}
	groups := groupLine(columns, widths, gap) // before the rest: it may widen a column
	lines := []string{groups}
	for row := range columns[0].headings {
		lines = append(lines, joinRow(columns, widths, gap, func(c column) string { return c.headings[row] }))
	}
	lines = append(lines, strings.Repeat("─", utf8.RuneCountInString(groups)))
	for row := range columns[0].cells {
		lines = append(lines, joinRow(columns, widths, gap, func(c column) string { return c.cells[row] }))
	}
	return lines
}

// groupLine writes each group's heading once, at the right end of its columns,
// and widens the last of them if the heading does not fit.
func groupLine(columns []column, widths []int, gap int) string {
	var b strings.Builder
	for i := 0; i < len(columns); {
		end, width := i+1, widths[i]
		for end < len(columns) && columns[end].group != "" && columns[end].group == columns[i].group {
			width += gap + widths[end]
			end++
		}
		if more := utf8.RuneCountInString(columns[i].group) - width; more > 0 {
			widths[end-1] += more
			width += more
		}
		if i > 0 {
			b.WriteString(strings.Repeat(" ", gap))
		}
		b.WriteString(alignRight(columns[i].group, width))
		i = end
	}
	return b.String()
}

func joinRow(columns []column, widths []int, gap int, text func(column) string) string {
	cells := make([]string, len(columns))
	for i, c := range columns {
		cells[i] = alignRight(text(c), widths[i])
	}
	return strings.Join(cells, strings.Repeat(" ", gap))
}

func alignRight(s string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s))) + s
}
