package picture

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// chart is a diagram over time whose series are named at their right ends.
type chart struct {
	unit     string // of the vertical axis, written above it
	time     string // what the horizontal axis counts
	ticks    plot.ConstantTicks
	from, to float64 // ends of the horizontal axis
	whole    bool    // values are counted in whole numbers
	series   []series
}

// series is something drawn in a chart, with its name.
type series interface {
	plot.Plotter
	// most is the greatest value drawn.
	most() float64
	// label names the series; ok is false if something else does.
	label() (l endLabel, ok bool)
}

// labelRoom is the width kept free at the right for the names of the series.
const labelRoom vg.Length = 150

// plot sets up the axes and adds the series.
func (ch *chart) plot() *plot.Plot {
	most := 0.0
	for _, s := range ch.series {
		most = max(most, s.most())
	}
	values := valueTicks(most, ch.whole)

	p := plot.New()
	p.BackgroundColor = nil
	p.X.Min, p.X.Max = ch.from, ch.to
	p.Y.Min, p.Y.Max = 0, values[len(values)-1].Value
	p.X.Tick.Marker, p.Y.Tick.Marker = ch.ticks, values
	p.X.Label.Text = ch.time
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Padding = 0
		axis.Color, axis.Tick.Color = faded, faded
		axis.Tick.Length = 5
		axis.Tick.Label.Font = lettering(textSize, ink).Font
		axis.Tick.Label.Color = ink
		axis.Label.TextStyle.Font = lettering(textSize, faded).Font
		axis.Label.TextStyle.Color = faded
		axis.Label.Padding = 3
	}
	p.Y.LineStyle.Width, p.Y.Tick.Width = 0, 0 // the grid shows them
	p.Add(grid(values))
	for _, s := range named(ch.series, p.Y.Max) {
		p.Add(s)
	}
	return p
}

// labels collects the names of the series that show something at the heights of
// their ends.
func (ch *chart) labels(p *plot.Plot, data *draw.Canvas) []endLabel {
	var list []endLabel
	_, y := p.Transforms(data)
	for _, s := range ch.series {
		if l, ok := s.label(); ok && finite(l.value) {
			l.y = y(l.value)
			list = append(list, l)
		}
	}
	spreadLabels(list, data.Min.Y, data.Max.Y)
	return list
}

// grid draws a thin line at each value.
type grid plot.ConstantTicks

// Plot implements plot.Plotter.
func (g grid) Plot(c draw.Canvas, p *plot.Plot) {
	for _, t := range g {
		y := c.Y(p.Y.Norm(t.Value))
		c.StrokeLine2(stroke(color.Color(rule), 0.75, solid), c.Min.X, y, c.Max.X, y)
	}
}
