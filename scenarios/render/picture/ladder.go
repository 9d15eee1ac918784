package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// ladder is a diagram with a row for each of several things, over one horizontal
// axis through zero.
type ladder struct {
	title, subtitle string
	*document.Ladder
	sys units.System
}

// rung is a row of a ladder, in the units of a system.
type rung struct {
	*document.Rung
	q   document.Quantity
	sys units.System
}

// in is a value in the shown unit.
func (r rung) in(v float64) float64 { return r.q.In(v, r.sys) }

func (l *ladder) rung(i int) rung { return rung{&l.Rows[i], l.Quantity, l.sys} }

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
	height := area.Size().Y / vg.Length(len(l.Rows))
	for i := range l.Rows {
		l.rung(i).draw(area, area.Max.Y-height*(vg.Length(i)+0.5), height, x)
	}
}

// reach is the span of all values drawn and zero, in whole steps of the axis.
func (l *ladder) reach() (low, high float64) {
	for i := range l.Rows {
		r := l.rung(i)
		for _, b := range r.Bars {
			low, high = min(low, r.in(b.To)), max(high, r.in(b.To))
		}
		for _, d := range r.Dots {
			low, high = min(low, r.in(d.Low), r.in(d.At)), max(high, r.in(d.High), r.in(d.At))
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
	area.FillText(aligned(lettering(textSize, faded), draw.XRight, draw.YTop), vg.Point{X: area.Max.X, Y: area.Min.Y - 4 - 1.2*textSize}, withUnit(l.Unit, l.Quantity, l.sys))
}

// draw draws a row about a height y.
func (r rung) draw(area draw.Canvas, y, height vg.Length, x func(float64) vg.Length) {
	text := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	note := aligned(lettering(smallSize, faded), draw.XLeft, draw.YTop)
	lines := fold(text, document.Name(r.Name, longestName), ladderNames-14)
	notes := fold(note, r.Note.Plain(r.sys), ladderNames-8)
	room := max(2, int(height/lineHeight))
	lines = lines[:min(len(lines), room-1)] // the note has a line of its own at least
	notes = notes[:min(len(notes), room-len(lines))]
	at := y + lineHeight*vg.Length(len(lines)+len(notes))/2
	for _, line := range lines {
		area.FillText(text, vg.Point{X: area.Min.X - ladderNames, Y: at}, line)
		at -= lineHeight
	}
	for _, line := range notes {
		area.FillText(note, vg.Point{X: area.Min.X - ladderNames, Y: at}, line)
		at -= lineHeight
	}

	half := min(height*0.3, 16)
	for _, b := range r.Bars {
		from, to := r.in(b.From), r.in(b.To)
		area.SetColor(inks[b.Ink])
		area.Fill(vg.Rectangle{Min: vg.Point{X: x(min(from, to)), Y: y - half}, Max: vg.Point{X: x(max(from, to)), Y: y + half}}.Path())
	}
	gap := min(height*0.8/vg.Length(len(r.Dots)), 14)
	top := y + gap*vg.Length(len(r.Dots)-1)/2
	for i, d := range r.Dots {
		at := top - gap*vg.Length(i)
		low, high := x(r.in(d.Low)), x(r.in(d.High))
		area.StrokeLine2(stroke(color.White, 4, solid), low, at, high, at) // stands out from a bar
		area.StrokeLine2(stroke(inks[d.Ink], 2, solid), low, at, high, at)
		drawDot(area, vg.Point{X: x(r.in(d.At)), Y: at}, inks[d.Ink])
	}
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
	for _, e := range l.Key {
		sample := swatch(inks[e.Ink])
		if e.Dot {
			sample = dotSample(inks[e.Ink])
		}
		sample(c, vg.Rectangle{Min: vg.Point{X: x, Y: y - lineHeight/2 - 4}, Max: vg.Point{X: x + sampleWidth, Y: y - lineHeight/2 + 4}})
		for _, line := range fold(style, document.Name(e.Name, longestName), ladderKey-16-sampleWidth-6) {
			c.FillText(style, vg.Point{X: x + sampleWidth + 6, Y: y}, line)
			y -= lineHeight
		}
		y -= labelSpace
	}
}
