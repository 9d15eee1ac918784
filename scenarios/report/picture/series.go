package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// points are values at 0, 1, 2, …, each shifted by offset to the right. A
// value that is not finite is left out.
type points struct {
	values []float64
	offset float64
}

// at returns the place of value i on the canvas.
func (ps points) at(i int, v float64, c *draw.Canvas, p *plot.Plot) vg.Point {
	x, y := p.Transforms(c)
	return vg.Point{X: x(float64(i) + ps.offset), Y: y(v)}
}

func greatest(values []float64) float64 {
	most := 0.0
	for _, v := range values {
		if finite(v) {
			most = max(most, v)
		}
	}
	return most
}

// last returns the last finite value, or NaN if there is none.
func last(values []float64) float64 {
	for i := len(values) - 1; i >= 0; i-- {
		if finite(values[i]) {
			return values[i]
		}
	}
	return math.NaN()
}

// line joins points.
type line struct {
	points
	name  string
	style draw.LineStyle
}

// Plot implements plot.Plotter.
func (l line) Plot(c draw.Canvas, p *plot.Plot) {
	var path []vg.Point
	for i, v := range l.values {
		if finite(v) {
			path = append(path, l.at(i, v, &c, p))
		}
	}
	c.StrokeLines(l.style, path)
}

func (l line) most() float64 { return greatest(l.values) }

func (l line) label() (endLabel, bool) {
	return endLabel{text: l.name, value: last(l.values), sample: lineSample(l.style)}, l.name != ""
}

// steps draws each value as a level from half before its place to half after.
type steps struct{ line }

// Plot implements plot.Plotter.
func (s steps) Plot(c draw.Canvas, p *plot.Plot) {
	var path []vg.Point
	before, after := s.points, s.points
	before.offset -= 0.5
	after.offset += 0.5
	for i, v := range s.values {
		if finite(v) {
			path = append(path, before.at(i, v, &c, p), after.at(i, v, &c, p))
		}
	}
	c.StrokeLines(s.style, path)
}

// swatch shows a fill.
func swatch(fill color.Color) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, at vg.Rectangle) {
		c.SetColor(fill)
		c.Fill(at.Path())
	}
}
