package render

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// The screen: a terminal of usual size, without its last two columns.
const (
	screenLines   = 40
	screenColumns = 98
)

// Text writes a document for a terminal: the headline first, then its blocks.
// Where it is longer than a screen, tables that may leave out rows do so, and the
// empty lines go at last.
func Text(w io.Writer, d *document.Document, sys units.System) error {
	p := page{sys: sys, left: map[int]int{}}
	p.fill(d)
	for len(p.lines) > screenLines && p.leaveOut(d) {
		p.fill(d)
	}
	if len(p.lines) > screenLines {
		p.lines = slices.DeleteFunc(p.lines, func(line string) bool { return line == "" })
	}
	var b strings.Builder
	for _, line := range p.lines {
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// page is lines of text under construction in one system of units.
type page struct {
	sys   units.System
	lines []string
	left  map[int]int // rows left out, by the place of the table among the blocks
}

// fill writes the whole document anew.
func (p *page) fill(d *document.Document) {
	p.lines = nil
	if !d.Headline.Empty() {
		p.lines = wrap(d.Headline.In(p.sys), "", "  ")
	}
	for i, block := range d.Blocks {
		switch b := block.(type) {
		case document.Paragraph:
			p.paragraph(b)
		case document.Heading:
			if len(p.lines) > 0 {
				p.lines = append(p.lines, "")
			}
			p.lines = append(p.lines, string(b))
		case document.Gap:
			p.lines = append(p.lines, "")
		case document.Table:
			if b.In.On(document.Screen) {
				p.table(shortened(b, p.left[i]), p.left[i])
			}
		}
	}
}

// paragraph adds running text, hanging from its label.
func (p *page) paragraph(b document.Paragraph) {
	first, rest := "", "  "
	switch {
	case b.Item:
		first, rest = fmt.Sprintf("%4s  ", b.Label), "      "
	case b.Label != "":
		first, rest = label(b.Label), label("")
	}
	p.lines = append(p.lines, wrap(b.Text.In(p.sys), first, rest)...)
}

// label is the heading of a line, padded so that the texts line up.
func label(s string) string { return fmt.Sprintf("%-13s", s) }

// table adds a table, under its title if it has one.
func (p *page) table(t document.Table, left int) {
	if !t.Title.Empty() {
		title := t.Title.Plain(p.sys)
		if left > 0 && t.More != "" {
			title += fmt.Sprintf(t.More, left)
		}
		p.lines = append(p.lines, "", title)
	}
	lines := layOut(textColumns(t, p.sys), screenColumns)
	if strings.TrimSpace(lines[0]) == "" {
		lines = lines[1:]
	}
	p.lines = append(p.lines, lines...)
}

// leaveOut leaves out one row more of the table that has the row of the highest
// rank, and reports whether there was one.
func (p *page) leaveOut(d *document.Document) bool {
	at, rank := -1, 0
	for i, block := range d.Blocks {
		t, ok := block.(document.Table)
		if !ok || !t.In.On(document.Screen) {
			continue
		}
		rows := shortened(t, p.left[i]).Rows
		if len(rows) <= t.Least {
			continue
		}
		for _, r := range rows {
			if r.Rank > rank {
				at, rank = i, r.Rank
			}
		}
	}
	if at < 0 {
		return false
	}
	p.left[at]++
	return true
}

// shortened leaves out n rows of a table, those of the highest rank first and
// the later of two of the same rank.
func shortened(t document.Table, n int) document.Table {
	rows := append([]document.Row{}, t.Rows...)
	for range n {
		worst := 0
		for i := range rows {
			if rows[i].Rank >= rows[worst].Rank {
				worst = i
			}
		}
		rows = append(rows[:worst], rows[worst+1:]...)
	}
	t.Rows = rows
	return t
}

// wrap breaks text at spaces into lines of at most screenColumns columns. The
// first line begins with first, the others with rest. A no-break space is
// written as a plain one.
func wrap(text, first, rest string) []string {
	var lines []string
	line, empty := first, true
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > screenColumns {
			lines = append(lines, line)
			line, empty = rest, true
		}
		if !empty {
			line += " "
		}
		line += document.Shorten(word, screenColumns-utf8.RuneCountInString(rest))
		empty = false
	}
	lines = append(lines, line)
	for i, l := range lines {
		lines[i] = document.PlainSpaces(l)
	}
	return lines
}
