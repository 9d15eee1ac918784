package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
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
	if len(path) == 1 { // a line of one year would not be seen
		half := l.at(0, 0, &c, p).X - l.at(-1, 0, &c, p).X
		path = []vg.Point{{X: path[0].X - half*barHalf, Y: path[0].Y}, {X: path[0].X + half*barHalf, Y: path[0].Y}}
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

// band fills the space between low and high.
type band struct {
	points    // the high ends
	low       []float64
	name      string
	fill      color.Color
	labelHigh bool // put the name at the high end, not in the middle
}

// Plot implements plot.Plotter.
func (b band) Plot(c draw.Canvas, p *plot.Plot) {
	var top, bottom []vg.Point
	for i, v := range b.values {
		if finite(v) && finite(b.low[i]) {
			top = append(top, b.at(i, v, &c, p))
			bottom = append(bottom, b.at(i, b.low[i], &c, p))
		}
	}
	if len(top) == 1 { // nor would a band of one
		half := (b.at(0, 0, &c, p).X - b.at(-1, 0, &c, p).X) * barHalf
		top = []vg.Point{{X: top[0].X - half, Y: top[0].Y}, {X: top[0].X + half, Y: top[0].Y}}
		bottom = []vg.Point{{X: top[0].X, Y: bottom[0].Y}, {X: top[1].X, Y: bottom[0].Y}}
	}
	outline := top
	for i := len(bottom) - 1; i >= 0; i-- {
		outline = append(outline, bottom[i])
	}
	c.FillPolygon(b.fill, outline)
}

func (b band) most() float64 { return greatest(b.values) }

func (b band) label() (endLabel, bool) {
	at := last(b.values)
	if !b.labelHigh {
		at = (at + last(b.low)) / 2
	}
	return endLabel{text: b.name, value: at, sample: swatch(b.fill)}, b.name != ""
}

// bars stand on low and reach up to their values.
type bars struct {
	points
	low   []float64
	name  string
	fill  color.NRGBA
	hatch document.Hatch
}

// barHalf is half the width of a bar, in steps of the horizontal axis.
const barHalf = 0.36

// Plot implements plot.Plotter.
func (b bars) Plot(c draw.Canvas, p *plot.Plot) {
	left, right := b.points, b.points
	left.offset -= barHalf
	right.offset += barHalf
	for i, v := range b.values {
		if finite(v) && finite(b.low[i]) {
			fillArea(c, vg.Rectangle{Min: left.at(i, b.low[i], &c, p), Max: right.at(i, v, &c, p)}, b.fill, b.hatch)
		}
	}
}

func (b bars) most() float64 { return greatest(b.values) }

func (b bars) label() (endLabel, bool) {
	return endLabel{text: b.name, value: (last(b.values) + last(b.low)) / 2, sample: hatched(b.fill, b.hatch)}, true
}

// whiskers are thin upright lines from low to the values.
type whiskers struct {
	points
	low   []float64
	name  string
	style draw.LineStyle
}

// Plot implements plot.Plotter.
func (w whiskers) Plot(c draw.Canvas, p *plot.Plot) {
	for i, v := range w.values {
		if finite(v) && finite(w.low[i]) {
			c.StrokeLines(w.style, []vg.Point{w.at(i, w.low[i], &c, p), w.at(i, v, &c, p)})
		}
	}
}

func (w whiskers) most() float64 { return greatest(w.values) }

func (w whiskers) label() (endLabel, bool) {
	sample := func(c draw.Canvas, at vg.Rectangle) {
		x := (at.Min.X + at.Max.X) / 2
		c.StrokeLine2(w.style, x, at.Min.Y-2, x, at.Max.Y+2)
	}
	return endLabel{text: w.name, value: last(w.values), sample: sample}, true
}

// swatch shows a fill.
func swatch(fill color.Color) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, at vg.Rectangle) {
		c.SetColor(fill)
		c.Fill(at.Path())
	}
}
