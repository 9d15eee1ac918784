package picture

import (
	"image/color"

	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// flowPicture draws the stores as boxes from left to right and the flows as
// bands whose width is their value.
type flowPicture struct {
	title, subtitle string
	flow            *document.Flow
	sys             units.System
}

func (f flowPicture) draw(c draw.Canvas) {
	c = page(c, f.title, f.subtitle)
	l := layOut(newFlowGraph(f.flow.Streams), c.Rectangle)
	for _, s := range l.streams {
		c.SetColor(streamColor(s))
		c.Fill(l.shape(s))
	}
	c.SetColor(ink)
	for _, s := range l.stores {
		c.Fill(s.box().Path())
	}
	amount := func(v float64) string { return units.FormatNumber(f.flow.Quantity.In(v, f.sys)) }
	for _, label := range l.labels(amount) {
		label.draw(c)
	}
}

func streamColor(s *stream) color.NRGBA { return filled(s.flow.Ink, s.flow.Tint) }
