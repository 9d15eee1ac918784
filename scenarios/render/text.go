package render

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// lines are those of a document.
func (s Screen) lines(d *document.Document, sys units.System) []string {
	p := page{Screen: s, sys: sys.With(d.Basis.Currency), rank: highestRank(d), spare: highestSpare(d)}
	p.fill(d)
	long := func() bool { return !d.Sheet && len(p.lines) > s.Lines }
	for long() && p.rank > 0 {
		p.rank--
		p.fill(d)
	}
	if long() {
		p.close()
	}
	for long() && p.spare > 0 {
		p.spare--
		p.fill(d)
		p.close()
	}
	for i, line := range p.lines {
		p.lines[i] = strings.TrimRight(line, " ")
	}
	return p.lines
}

// page is lines of text under construction in one system of units.
type page struct {
	Screen
	sys   units.System
	lines []string
	rank  int // the highest that is shown
	spare int // the same of what may be spared
}

// close takes out the empty lines.
func (p *page) close() {
	p.lines = slices.DeleteFunc(p.lines, func(line string) bool { return line == "" })
}

// fill writes the whole document anew.
func (p *page) fill(d *document.Document) {
	p.lines = nil
	if !d.Headline.Empty() {
		p.lines = p.Wrap(d.Headline.In(p.sys), "", "  ")
	}
	for _, block := range d.Blocks {
		switch b := block.(type) {
		case document.Paragraph:
			if b.Rank <= p.rank && b.Spare <= p.spare {
				p.paragraph(b)
			}
		case document.Heading:
			if len(p.lines) > 0 {
				p.lines = append(p.lines, "")
			}
			p.lines = append(p.lines, string(b))
		case document.Gap:
			p.lines = append(p.lines, "")
		case document.Table:
			if b.In.On(document.Screen) {
				p.table(b)
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
	p.lines = append(p.lines, p.Wrap(b.Text.In(p.sys), first, rest)...)
}

// label is the heading of a line, padded so that the texts line up.
func label(s string) string { return fmt.Sprintf("%-13s", s) }

// table adds a table, under its title if it has one.
func (p *page) table(t document.Table) {
	rows := len(t.Rows)
	t.Rows = p.shown(t)
	if !t.Title.Empty() {
		title := t.Title.Plain(p.sys)
		if left := rows - len(t.Rows); left > 0 && t.More != "" {
			title += fmt.Sprintf(t.More, left)
		}
		p.lines = append(append(p.lines, ""), p.Wrap(title, "", "  ")...)
	}
	all := p.textColumns(t)
	keys := p.keys(all)
	for i, columns := range p.fold(all) {
		if i > 0 && p.spared(columns[min(keys, len(columns)):]) {
			continue
		}
		if i > 0 {
			p.lines = append(p.lines, "")
		}
		lines := layOut(columns, p.Columns)
		if strings.TrimSpace(lines[0]) == "" {
			lines = lines[1:]
		}
		p.lines = append(p.lines, lines...)
	}
}

// spared reports whether all of some columns are left out.
func (p *page) spared(columns []column) bool {
	return !slices.ContainsFunc(columns, func(c column) bool { return c.spare <= p.spare })
}

// shown are the rows of a table that are not left out.
func (p *page) shown(t document.Table) []document.Row {
	ranks := ranksOf(t)
	slices.Sort(ranks)
	highest := p.rank
	if n := min(t.Least, len(ranks)); n > 0 {
		highest = max(highest, ranks[n-1])
	}
	var rows []document.Row
	for _, r := range t.Rows {
		if r.Rank <= highest {
			rows = append(rows, r)
		}
	}
	return rows
}

func ranksOf(t document.Table) []int {
	ranks := make([]int, len(t.Rows))
	for i, r := range t.Rows {
		ranks[i] = r.Rank
	}
	return ranks
}

// highestRank is that of what a document may leave out first.
func highestRank(d *document.Document) int {
	return highest(d, func(p *document.Paragraph) int { return p.Rank }, ranksOf)
}

// highestSpare is the same of what may be spared.
func highestSpare(d *document.Document) int {
	return highest(d, func(p *document.Paragraph) int { return p.Spare }, func(t document.Table) []int {
		spares := make([]int, len(t.Columns))
		for i := range t.Columns {
			spares[i] = t.Columns[i].Spare
		}
		return spares
	})
}

// highest is the most that paragraphs and tables have, 0 if they have nothing.
func highest(d *document.Document, ofParagraph func(*document.Paragraph) int, ofTable func(document.Table) []int) int {
	most := 0
	for _, block := range d.Blocks {
		switch b := block.(type) {
		case document.Paragraph:
			most = max(most, ofParagraph(&b))
		case document.Table:
			for _, n := range ofTable(b) {
				most = max(most, n)
			}
		}
	}
	return most
}

// Wrap breaks text at spaces into lines that fit the screen. The
// first line begins with first, the others with rest. A no-break space is
// written as a plain one.
func (s Screen) Wrap(text, first, rest string) []string {
	var lines []string
	line, empty := first, true
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > s.Columns {
			lines = append(lines, line)
			line, empty = rest, true
		}
		if !empty {
			line += " "
		}
		line += document.Shorten(word, s.Columns-utf8.RuneCountInString(rest))
		empty = false
	}
	lines = append(lines, line)
	for i, l := range lines {
		lines[i] = document.PlainSpaces(l)
	}
	return lines
}
