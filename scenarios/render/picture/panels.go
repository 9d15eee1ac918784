package picture

import (
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// inks are the colours of a document's inks.
var inks = [...]color.NRGBA{
	document.Black: black, document.Orange: orange, document.SkyBlue: skyBlue, document.Green: green, document.Blue: blue,
	document.Vermilion: vermilion, document.Purple: purple, document.Faded: faded, document.Grey: gas, document.Yellow: yellow,
}

// dashes are the lengths of a document's dashes.
var dashes = [...][]vg.Length{document.Solid: solid, document.Dashed: dashed, document.Dotted: dotted, document.Mixed: mixed}

// filled is the colour of a fill or a line.
func filled(i document.Ink, part float64) color.NRGBA {
	if part > 0 {
		return tint(inks[i], part)
	}
	return inks[i]
}

// panels are charts one above the other, under one title and with their left
// ends in line.
type panels struct {
	title, subtitle string
	charts          []*chart
}

func panelsOf(f document.Figure, sys units.System) panels {
	ps := panels{title: f.Title.Plain(sys), subtitle: f.Subtitle.Plain(sys)}
	for i := range f.Panels {
		ps.charts = append(ps.charts, chartOf(&f.Panels[i], sys))
	}
	return ps
}

// chartOf converts a panel into the units of a system.
func chartOf(p *document.Panel, sys units.System) *chart {
	ch := &chart{unit: withUnit(p.Y, p.Quantity, sys), time: p.X.Title, from: p.X.From, to: p.X.To, whole: p.Whole}
	switch {
	case p.X.Months != nil:
		ch.ticks = monthTicks(p.X.Months)
	case p.X.Labels != nil:
		ch.ticks = labelTicks(p.X.Labels)
	default:
		ch.ticks = roundTicks(p.X.From, p.X.To)
	}
	for i := range p.Series {
		ch.series = append(ch.series, seriesOf(&p.Series[i], p.Quantity, sys))
	}
	return ch
}

// withUnit puts the unit and the currency in the places that a title keeps for them.
func withUnit(title string, q document.Quantity, sys units.System) string {
	return strings.NewReplacer("{unit}", unitOf(q.Dim, sys), "{currency}", sys.Currency()).Replace(title)
}

func seriesOf(s *document.Series, q document.Quantity, sys units.System) series {
	name := s.Name.Plain(sys)
	shown := func(values []float64) []float64 {
		out := make([]float64, len(values))
		for i, v := range values {
			out[i] = q.In(v, sys)
		}
		return out
	}
	at := points{shown(s.Values), s.At}
	fill := filled(s.Ink, s.Tint)
	style := stroke(fill, vg.Length(s.Width), dashes[s.Dash])
	switch s.Shape {
	case document.Curve:
		return curve{x: s.X, y: at.values, name: name, style: style}
	case document.Steps:
		return steps{line{at, name, style}}
	case document.Band:
		return band{points: at, low: shown(s.Low), name: name, fill: fill, labelHigh: s.NameHigh}
	case document.Bars:
		return bars{points: at, low: shown(s.Low), name: name, fill: fill, hatch: s.Hatch}
	case document.Whiskers:
		return whiskers{points: at, low: shown(s.Low), name: name, style: style}
	case document.Upright:
		return upright{x: s.At, name: name}
	}
	return line{at, name, style}
}

func (ps panels) draw(c draw.Canvas) {
	c = page(c, ps.title, ps.subtitle)
	height := c.Size().Y / vg.Length(len(ps.charts))
	areas := make([]draw.Canvas, len(ps.charts))
	plots := make([]*plot.Plot, len(ps.charts))
	left := c.Min.X
	for i, ch := range ps.charts {
		top := vg.Length(i) * height
		areas[i] = draw.Crop(c, 0, -labelRoom, c.Size().Y-top-height, -top-2.4*textSize)
		plots[i] = ch.plot()
		plots[i].Y.Min = min(0, ch.least()) // a pile may freeze
		left = max(left, plots[i].DataCanvas(areas[i]).Min.X)
	}
	for i, ch := range ps.charts {
		area := areas[i]
		area.Min.X += left - plots[i].DataCanvas(area).Min.X
		plots[i].Draw(area)
		data := plots[i].DataCanvas(area)
		c.FillText(lettering(textSize, faded), vg.Point{X: c.Min.X, Y: data.Max.Y + 9}, ch.unit)
		drawLabels(c, ch.labels(plots[i], &data), data.Max.X+10)
	}
}

// least returns the least value of the curves.
func (ch *chart) least() float64 {
	least := math.Inf(1)
	for _, s := range ch.series {
		if c, ok := s.(curve); ok {
			least = min(least, smallest(c.y))
		}
	}
	return least
}
