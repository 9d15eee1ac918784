package picture

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

const flowTitle = "Where the mass goes in an average year"

// flowPicture draws the stores as bars from left to right and the flows as
// bands whose width is their wet mass.
type flowPicture struct {
	a   *simulate.Answer
	sys units.System
}

func newFlowPicture(a *simulate.Answer, sys units.System) flowPicture {
	return flowPicture{a, sys}
}

func (f flowPicture) draw(c draw.Canvas) {
	unit := unitOf(units.Mass, f.sys)
	c = page(c, flowTitle, about(f.a, unit+" a year, water included; means over years"))
	l := layOut(newFlowGraph(f.a.Flows), c.Rectangle)
	for _, s := range l.streams {
		c.SetColor(streamColor(s))
		c.Fill(l.shape(s))
	}
	c.SetColor(ink)
	for _, s := range l.stores {
		c.Fill(s.box().Path())
	}
	for _, label := range l.labels(f.sys) {
		label.draw(c)
	}
}

// streamColors gives flows their colours by the beginnings of their names.
var streamColors = []struct {
	prefix string
	color  color.NRGBA
}{
	{"cake", tint(orange, 0.55)},
	{"chips", tint(green, 0.45)},
	{"product", tint(purple, 0.55)},
	{"water vapour", tint(skyBlue, 0.7)},
	{"leachate", blue},
	{"carbon dioxide", gas},
	{"ammonia", black},
	{"oxygen", tint(blue, 0.45)},
	{"rejects", vermilion},
	{"failed", vermilion},
}

// mixColor is the colour of everything else: the mix on its way through.
var mixColor = tint(vermilion, 0.35)

func streamColor(s *stream) color.NRGBA {
	for _, c := range streamColors {
		if strings.HasPrefix(s.flow.Name, c.prefix) {
			return c.color
		}
	}
	return mixColor
}
