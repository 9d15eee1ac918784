package pdf

import (
	"loamcast/scenarios/render/prose"
)

// titleHeight is that of a table's title.
func (p *paper) titleHeight(t *prose.Table) float64 {
	if t.Title == "" {
		return 0
	}
	p.font("B", textSize-1, ink)
	return float64(len(p.pdf.SplitText(t.Title, p.width))) * leading * (textSize - 1)
}

// spanned is a heading with the width that it has and its lines.
type spanned struct {
	prose.Heading
	width float64
	lines []string
}

// rows are the headings of a table, each with its lines.
func (p *paper) headRows(g *grid) (rows [][]spanned, heights []float64) {
	p.font("", g.size, faded)
	for _, heads := range g.Heads {
		var row []spanned
		most, k := 1, 0
		for _, h := range heads {
			width := float64(h.Span-1) * between
			for i := range h.Span {
				width += g.widths[k+i]
			}
			k += h.Span
			lines := p.broken(h.Text, width)
			most = max(most, len(lines))
			row = append(row, spanned{h, width, lines})
		}
		rows, heights = append(rows, row), append(heights, float64(most)*leading*g.size)
	}
	return rows, heights
}

func (p *paper) headHeight(g *grid) float64 {
	_, heights := p.headRows(g)
	sum := float64(belowHead)
	for _, h := range heights {
		sum += h
	}
	return sum
}

// head writes the headings, at the foot of their lines, with a line below.
func (p *paper) head(g *grid) {
	rows, heights := p.headRows(g)
	for i, row := range rows {
		y, x := p.pdf.GetY(), float64(margin)
		p.font("", g.size, faded)
		for _, h := range row {
			top := y + heights[i] - float64(len(h.lines))*leading*g.size
			for n, line := range h.lines {
				p.pdf.SetXY(x, top+float64(n)*leading*g.size)
				p.pdf.CellFormat(h.width, leading*g.size, line, "", 0, align(h.Words), false, 0, "")
			}
			if h.Group && h.Text != "" {
				p.pdf.SetDrawColor(pale[0], pale[1], pale[2])
				p.pdf.SetLineWidth(0.4)
				p.pdf.Line(x, y+heights[i], x+h.width, y+heights[i])
			}
			x += h.width + between
		}
		p.pdf.SetXY(margin, y+heights[i])
	}
	p.pdf.SetDrawColor(faded[0], faded[1], faded[2])
	p.pdf.SetLineWidth(0.5)
	p.pdf.Line(margin, p.pdf.GetY(), margin+g.across(), p.pdf.GetY())
	p.pdf.SetY(p.pdf.GetY() + belowHead)
}
