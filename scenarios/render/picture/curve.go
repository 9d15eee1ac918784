package picture

import (
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

// upright is a line across the chart at a moment, with its name at the top.
type upright struct {
	x    float64
	name string
}

// Plot implements plot.Plotter.
func (u upright) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	at := x(u.x)
	c.StrokeLine2(stroke(faded, 0.75, solid), at, c.Min.Y, at, c.Max.Y)
	c.FillText(aligned(lettering(smallSize, faded), draw.XLeft, draw.YTop), vg.Point{X: at + 3, Y: c.Max.Y - 3}, u.name)
}

func (u upright) most() float64 { return 0 }

func (u upright) label() (endLabel, bool) { return endLabel{}, false }
