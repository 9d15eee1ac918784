package picture

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// nameRoom is the width of a series' name, which is broken into lines to fit.
const nameRoom = labelRoom - sampleWidth - 16

// curve joins points at any places. It breaks where a value is not finite.
type curve struct {
	x, y  []float64
	name  string
	style draw.LineStyle
}

// Plot implements plot.Plotter.
func (l curve) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	var path []vg.Point
	for i, v := range l.y {
		if !finite(v) {
			c.StrokeLines(l.style, path)
			path = nil
			continue
		}
		path = append(path, vg.Point{X: x(l.x[i]), Y: y(v)})
	}
	c.StrokeLines(l.style, path)
}

func (l curve) most() float64 { return greatest(l.y) }

func (l curve) label() (endLabel, bool) {
	text := strings.Join(fold(lettering(textSize, ink), l.name, nameRoom), "\n")
	return endLabel{text: text, value: last(l.y), sample: lineSample(l.style)}, l.name != ""
}

// upright is a line across the chart at a moment, with its name at the top, or at the
// bottom where only there nothing is in the way.
type upright struct {
	x    float64
	name string
	low  bool
}

// Plot implements plot.Plotter.
func (u upright) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	at := x(u.x)
	c.StrokeLine2(stroke(faded, 0.75, solid), at, c.Min.Y, at, c.Max.Y)
	end, y := draw.YTop, c.Max.Y-3
	if u.low {
		end, y = draw.YBottom, c.Min.Y+3
	}
	c.FillText(aligned(lettering(smallSize, faded), draw.XLeft, end), vg.Point{X: at + 3, Y: y}, u.name)
}

// nameBand is the part of a chart's height that the name of an upright takes.
const nameBand = 0.08

// named returns the series with the names of uprights where nothing is in the way.
func named(list []series, top float64) []series {
	most, least := 0.0, top
	for _, s := range list {
		most = max(most, s.most())
		switch s := s.(type) {
		case upright:
		case curve:
			least = min(least, smallest(s.y))
		case line:
			least = min(least, smallest(s.values))
		case steps:
			least = min(least, smallest(s.values))
		default:
			least = 0 // they may stand on the axis
		}
	}
	low := most > (1-nameBand)*top && least > nameBand*top
	out := slices.Clone(list)
	for i, s := range out {
		if u, ok := s.(upright); ok {
			u.low = low
			out[i] = u
		}
	}
	return out
}

// smallest returns the least finite value, or +Inf if there is none.
func smallest(values []float64) float64 {
	least := math.Inf(1)
	for _, v := range values {
		if finite(v) {
			least = min(least, v)
		}
	}
	return least
}

func (u upright) most() float64 { return 0 }

func (u upright) label() (endLabel, bool) { return endLabel{}, false }
