package picture

import (
	"image/color"

	"loamcast/scenarios/simulate"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/plaintext"
)

const margin vg.Length = 18

// page fills the background, writes the title and the line under it, and
// returns what is left.
func page(c draw.Canvas, title, subtitle string) draw.Canvas {
	c.SetColor(color.White)
	c.Fill(c.Rectangle.Path())
	c = draw.Crop(c, margin, -margin, margin, -margin)
	head := bold(lettering(titleSize, ink))
	for _, line := range fold(head, title, c.Size().X) {
		c.FillText(aligned(head, draw.XLeft, draw.YTop), vg.Point{X: c.Min.X, Y: c.Max.Y}, line)
		c.Max.Y -= 1.25 * titleSize
	}
	small := lettering(textSize, faded)
	for _, line := range fold(small, subtitle, c.Size().X) {
		c.FillText(aligned(small, draw.XLeft, draw.YTop), vg.Point{X: c.Min.X, Y: c.Max.Y}, line)
		c.Max.Y -= 1.35 * textSize
	}
	return c
}

// name is the facility's name without characters that cannot be drawn, cut to
// a length that leaves room for the rest of the line.
func name(a *simulate.Answer) string {
	const longest = 60
	runes := []rune(plaintext.Terminal(a.Facility))
	if len(runes) > longest {
		return string(runes[:longest-1]) + "…"
	}
	return string(runes)
}
