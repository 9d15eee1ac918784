package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// mostRows is how many rows there is room for.
const mostRows = 14

// ladder is a diagram with a row for each of several things, over one horizontal
// axis through zero.
type ladder struct {
	title, subtitle string
	unit            string // of the axis
	rows            []ladderRow
	key             []keyEntry
}

// ladderRow is a name with a note, bars, and dots one below the other.
type ladderRow struct {
	name, note string
	bars       []span
	dots       []dot
}

type span struct {
	from, to float64
	fill     color.NRGBA
}

// dot is a value with an interval.
type dot struct {
	at, low, high float64
	colour        color.NRGBA
}

type keyEntry struct {
	name   string
	sample func(draw.Canvas, vg.Rectangle)
}

const (
	ladderNames vg.Length = 190 // width of the names at the left
	ladderKey   vg.Length = 175 // and of the key at the right
	dotRadius   vg.Length = 4
)

func (l *ladder) draw(c draw.Canvas) {
	c = page(c, l.title, l.subtitle)
	l.drawKey(c)
	area := draw.Crop(c, ladderNames, -ladderKey, 2.4*textSize, -1.5*textSize)
	low, high := l.reach()
	x := func(v float64) vg.Length {
		return area.Min.X + vg.Length((v-low)/(high-low))*area.Size().X
	}
	l.drawAxis(area, low, high, x)
	height := area.Size().Y / vg.Length(len(l.rows))
	for i, row := range l.rows {
		row.draw(area, area.Max.Y-height*(vg.Length(i)+0.5), height, x)
	}
}

// reach is the span of all values drawn and zero, in whole steps of the axis.
func (l *ladder) reach() (low, high float64) {
	for _, row := range l.rows {
		for _, b := range row.bars {
			low, high = min(low, b.to), max(high, b.to)
		}
		for _, d := range row.dots {
			low, high = min(low, d.low, d.at), max(high, d.high, d.at)
		}
	}
	if high == low {
		high = low + 1
	}
	step := axisStep(low, high)
	return step * math.Floor(low/step+1e-9), step * math.Ceil(high/step-1e-9)
}

// axisStep divides a span into at most eight steps.
func axisStep(low, high float64) float64 { return roundStep((high - low) / 8) }

func (l *ladder) drawAxis(area draw.Canvas, low, high float64, x func(float64) vg.Length) {
	label := aligned(lettering(textSize, ink), draw.XCenter, draw.YTop)
	step := axisStep(low, high)
	for i := math.Round(low / step); i <= math.Round(high/step); i++ {
		at := x(i * step)
		c := color.NRGBA(rule)
		if i == 0 {
			c = faded
		}
		area.StrokeLine2(stroke(c, 0.75, solid), at, area.Min.Y, at, area.Max.Y)
		area.FillText(label, vg.Point{X: at, Y: area.Min.Y - 4}, units.FormatNumber(i*step))
	}
	area.FillText(aligned(lettering(textSize, faded), draw.XRight, draw.YTop), vg.Point{X: area.Max.X, Y: area.Min.Y - 4 - 1.2*textSize}, l.unit)
}

// draw draws a row about a height y.
func (row ladderRow) draw(area draw.Canvas, y, height vg.Length, x func(float64) vg.Length) {
	text := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	note := aligned(lettering(smallSize, faded), draw.XLeft, draw.YTop)
	lines := fold(text, printableName(row.name), ladderNames-14)
	lines = lines[:min(len(lines), max(1, int(height/lineHeight)-1))] // the note has a line of its own
	at := y + lineHeight*vg.Length(len(lines)+1)/2
	for _, line := range lines {
		area.FillText(text, vg.Point{X: area.Min.X - ladderNames, Y: at}, line)
		at -= lineHeight
	}
	area.FillText(note, vg.Point{X: area.Min.X - ladderNames, Y: at}, row.note)

	half := min(height*0.3, 16)
	for _, b := range row.bars {
		area.SetColor(b.fill)
		area.Fill(vg.Rectangle{Min: vg.Point{X: x(min(b.from, b.to)), Y: y - half}, Max: vg.Point{X: x(max(b.from, b.to)), Y: y + half}}.Path())
	}
	gap := min(height*0.8/vg.Length(len(row.dots)), 14)
	top := y + gap*vg.Length(len(row.dots)-1)/2
	for i, d := range row.dots {
		d.draw(area, top-gap*vg.Length(i), x)
	}
}

func (d dot) draw(c draw.Canvas, y vg.Length, x func(float64) vg.Length) {
	c.StrokeLine2(stroke(color.White, 4, solid), x(d.low), y, x(d.high), y) // stands out from a bar
	c.StrokeLine2(stroke(d.colour, 2, solid), x(d.low), y, x(d.high), y)
	drawDot(c, vg.Point{X: x(d.at), Y: y}, d.colour)
}

func drawDot(c draw.Canvas, at vg.Point, colour color.NRGBA) {
	c.DrawGlyph(draw.GlyphStyle{Color: color.White, Radius: dotRadius + 1, Shape: draw.CircleGlyph{}}, at)
	c.DrawGlyph(draw.GlyphStyle{Color: colour, Radius: dotRadius, Shape: draw.CircleGlyph{}}, at)
}

// dotSample shows a dot with its line.
func dotSample(colour color.NRGBA) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, at vg.Rectangle) {
		y := (at.Min.Y + at.Max.Y) / 2
		c.StrokeLine2(stroke(colour, 2, solid), at.Min.X, y, at.Max.X, y)
		drawDot(c, vg.Point{X: (at.Min.X + at.Max.X) / 2, Y: y}, colour)
	}
}

// drawKey explains colours at the right.
func (l *ladder) drawKey(c draw.Canvas) {
	style := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	x, y := c.Max.X-ladderKey+16, c.Max.Y-2*textSize
	for _, e := range l.key {
		e.sample(c, vg.Rectangle{Min: vg.Point{X: x, Y: y - lineHeight/2 - 4}, Max: vg.Point{X: x + sampleWidth, Y: y - lineHeight/2 + 4}})
		for _, line := range fold(style, printableName(e.name), ladderKey-16-sampleWidth-6) {
			c.FillText(style, vg.Point{X: x + sampleWidth + 6, Y: y}, line)
			y -= lineHeight
		}
		y -= labelSpace
	}
}

// printableName is a name without characters that cannot be drawn, of a length
// that can.
func printableName(s string) string { return name(&simulate.Answer{Basis: answer.Basis{Facility: s}}) }
