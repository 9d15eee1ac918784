package pdf

import (
	"math"
	"regexp"
	"strings"

	"loamcast/scenarios/render/prose"
)

// Of tables: the largest and smallest type, what parts columns and the line below headings
// from rows, and the narrowest that a column of words is made, points.
const (
	tableSize     = 8.5
	wordsSize     = 7.5 // with long texts
	smallestTable = 6
	between       = 8
	belowHead     = 1.5
	narrowest     = 40
)

// grid is a table with the widths of its columns in some size of type.
type grid struct {
	*prose.Table
	size   float64
	widths []float64
}

// table sets a table in the largest type in which it fits across; where it does not in
// the smallest, words are wrapped.
func (p *paper) table(t *prose.Table) {
	g := p.fit(t)
	height := p.titleHeight(t) + p.headHeight(g)
	p.room(height + 3*leading*g.size)
	if t.Title != "" {
		p.font("B", textSize-1, ink)
		p.lines(t.Title, textSize-1)
	}
	p.head(g)
	for i, row := range t.Rows {
		lines, height := p.wrap(g, row)
		if p.pdf.GetY()+height > p.bottom {
			p.pdf.AddPage()
			p.head(g)
		}
		y := p.pdf.GetY()
		if i%2 == 1 {
			p.pdf.SetFillColor(250, 248, 245)
			p.pdf.Rect(margin, y, g.across(), height, "F")
		}
		p.font("", g.size, ink)
		x := float64(margin)
		for k, cell := range row {
			for n, line := range lines[k] {
				p.pdf.SetXY(x, y+float64(n)*leading*g.size)
				p.pdf.CellFormat(g.widths[k], leading*g.size, line, "", 0, align(cell.Words), false, 0, "")
			}
			x += g.widths[k] + between
		}
		p.pdf.SetXY(margin, y+height)
	}
	p.space(2 * gap)
}

// align is that of a cell: words left, numbers right.
func align(words bool) string {
	if words {
		return "L"
	}
	return "R"
}

// across is the width of all columns and of what parts them.
func (g *grid) across() float64 {
	sum := float64(len(g.widths)-1) * between
	for _, w := range g.widths {
		sum += w
	}
	return sum
}

// mostHeadLines is into how many lines headings are broken before the type is made smaller.
const mostHeadLines = 4

// fit finds the size of type, and how wide each column is: headings in as few lines as
// there is room for. Of a table with long texts the columns of words are wrapped, none
// narrower than its longest word.
func (p *paper) fit(t *prose.Table) *grid {
	g := &grid{Table: t, size: tableSize}
	if t.Words {
		g.size = wordsSize
	}
	for ; ; g.size -= 0.5 {
		for lines := 1; lines <= mostHeadLines && !t.Words; lines++ {
			if p.measure(g, lines); g.across() <= p.width {
				return g
			}
		}
		p.measure(g, mostHeadLines)
		// What is left of the page is shared out to the last bit, and rounding may pass it.
		const rounding = 1e-6
		if p.narrow(g); g.across() <= p.width+rounding || g.size <= smallestTable {
			return g
		}
	}
}

// measure gives each column the width of its widest cell and of its heading in so many
// lines.
func (p *paper) measure(g *grid, lines int) {
	p.font("", g.size, ink)
	columns := g.Heads[len(g.Heads)-1]
	g.widths = make([]float64, len(columns))
	for k, h := range columns {
		g.widths[k] = p.headWidth(h.Text, lines)
		for _, row := range g.Rows {
			g.widths[k] = max(g.widths[k], p.pdf.GetStringWidth(row[k].Text))
		}
		g.widths[k]++ // letters are measured to a part of a point
	}
	if len(g.Heads) > 1 {
		p.widen(g, lines)
	}
}

// headWidth is the least width in which a heading takes so many lines, or as few as its
// longest word allows.
func (p *paper) headWidth(text string, lines int) float64 {
	width := p.longestWord(text)
	for len(p.broken(text, width)) > lines {
		width += between / 2
	}
	return width
}

func (p *paper) longestWord(text string) float64 {
	most := 0.0
	for _, word := range words(text) {
		for _, piece := range pieces(word) {
			most = max(most, p.pdf.GetStringWidth(piece))
		}
	}
	return most
}

// widen makes room for what stands over several columns.
func (p *paper) widen(g *grid, lines int) {
	k := 0
	for _, group := range g.Heads[0] {
		width := float64(group.Span-1) * between
		for i := range group.Span {
			width += g.widths[k+i]
		}
		if more := p.headWidth(group.Text, lines) + 1 - width; more > 0 {
			for i := range group.Span {
				g.widths[k+i] += more / float64(group.Span)
			}
		}
		k += group.Span
	}
}

// narrow gives columns of words their longest word at least, and what is left of the page
// by how long their texts are, the longest above all, but none more than it needs.
func (p *paper) narrow(g *grid) {
	n := len(g.widths)
	most, held := g.widths, make([]float64, n)
	g.widths = make([]float64, n)
	for k, h := range g.Heads[len(g.Heads)-1] {
		least := p.longestWord(h.Text)
		for _, row := range g.Rows {
			if !row[k].Words {
				least, held[k] = most[k], 0
				break
			}
			least = max(least, p.longestWord(row[k].Text))
			held[k] += math.Pow(p.pdf.GetStringWidth(row[k].Text), 2)
		}
		g.widths[k] = min(max(least+1, narrowest), most[k], p.width/3)
	}
	for k := range held {
		held[k] = math.Sqrt(held[k])
	}
	for left := p.width - g.across(); left > 1; left = p.width - g.across() {
		sum := 0.0
		for k := range held {
			if g.widths[k] < most[k] {
				sum += held[k]
			}
		}
		if sum == 0 {
			return
		}
		for k := range held {
			if g.widths[k] < most[k] {
				g.widths[k] = min(most[k], g.widths[k]+left*held[k]/sum)
			}
		}
	}
}

// wrap breaks the cells of a row into lines.
func (p *paper) wrap(g *grid, row []prose.Cell) (lines [][]string, height float64) {
	p.font("", g.size, ink)
	most := 1
	for k, cell := range row {
		l := p.broken(cell.Text, g.widths[k])
		lines = append(lines, l)
		most = max(most, len(l))
	}
	return lines, float64(most) * leading * g.size
}

// broken breaks a text at spaces, and what is longer than a line anywhere.
func (p *paper) broken(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range words(text) {
		for p.pdf.GetStringWidth(word) > width {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			n := p.longest(word, width)
			lines, word = append(lines, word[:n]), word[n:]
		}
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if p.pdf.GetStringWidth(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// longest returns how many bytes of a word fit a width, those of whole pieces if any do, and
// of one letter at least.
func (p *paper) longest(word string, width float64) int {
	n := 0
	for _, piece := range pieces(word) {
		if p.pdf.GetStringWidth(word[:n+len(piece)]) > width {
			break
		}
		n += len(piece)
	}
	if n > 0 {
		return n
	}
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && p.pdf.GetStringWidth(word[:end]) > width {
			break
		}
		n = end
	}
	return n
}

// words are the parts of a text between spaces at which it may be broken.
func words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' })
}

// pieces are the parts of a word after which it is broken first: those of a path of keys.
func pieces(word string) []string {
	var out []string
	from := 0
	for _, at := range dot.FindAllStringIndex(word, -1) {
		if end := at[0] + len("]."); end < len(word) {
			out, from = append(out, word[from:end]), end
		}
	}
	return append(out, word[from:])
}

// dot is one between names of keys.
var dot = regexp.MustCompile(`[a-z_\]]\.[a-z]`)
