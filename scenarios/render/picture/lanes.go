package picture

import (
	"fmt"
	"image/color"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// lanes is a diagram with a row for each of several things and bars over some months.
type lanes struct {
	title, subtitle string
	*document.Lanes
}

const (
	lanesNames vg.Length = 92  // width of the names at the left
	lanesKey   vg.Length = 150 // and of the key at the right
	laneShare            = 0.78
)

// days is how long the months are together.
func (l *lanes) days() float64 {
	n := 0
	for _, m := range l.Months {
		n += calendar.DaysIn(m.Year, time.Month(m.Month))
	}
	return float64(n)
}

func (l *lanes) draw(c draw.Canvas) {
	c = page(c, l.title, l.subtitle)
	l.drawKey(c)
	area := draw.Crop(c, lanesNames, -lanesKey, 2.4*textSize, -textSize)
	days := l.days()
	x := func(day float64) vg.Length {
		return area.Min.X + vg.Length(min(max(day/days, 0), 1))*area.Size().X
	}
	height := min(72, area.Size().Y/vg.Length(max(1, len(l.Lanes.Lanes))))
	area.Min.Y = area.Max.Y - height*vg.Length(len(l.Lanes.Lanes))
	l.drawMonths(area, x)
	for i := range l.Lanes.Lanes {
		l.drawLane(area, &l.Lanes.Lanes[i], area.Max.Y-height*(vg.Length(i)+0.5), height, x)
	}
}

// drawMonths draws a line at the beginning of each month and a thin one for each week.
func (l *lanes) drawMonths(area draw.Canvas, x func(float64) vg.Length) {
	name := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	begins := 0
	for _, m := range l.Months {
		at := x(float64(begins))
		area.StrokeLine2(stroke(faded, 0.75, solid), at, area.Min.Y-4, at, area.Max.Y)
		area.FillText(name, vg.Point{X: at + 3, Y: area.Min.Y - 4}, fmt.Sprintf("%v %d", time.Month(m.Month), m.Year))
		length := calendar.DaysIn(m.Year, time.Month(m.Month))
		for day := 7; day < length-2; day += 7 {
			at := x(float64(begins + day))
			area.StrokeLine2(stroke(rule, 0.6, solid), at, area.Min.Y, at, area.Max.Y)
		}
		begins += length
	}
	area.StrokeLine2(stroke(faded, 0.75, solid), area.Max.X, area.Min.Y-4, area.Max.X, area.Max.Y)
}

// drawLane draws the bars of a lane about a height y.
func (l *lanes) drawLane(area draw.Canvas, lane *document.Lane, y, height vg.Length, x func(float64) vg.Length) {
	size := min(textSize, 0.8*height)
	label := aligned(lettering(size, ink), draw.XLeft, draw.YCenter)
	area.FillText(label, vg.Point{X: area.Min.X - lanesNames, Y: y}, document.Name(lane.Name, laneName))
	half := height * laneShare / 2
	for _, t := range lane.Times {
		k := &l.Kinds[t.Kind]
		fill := filled(k.Ink, k.Tint)
		r := vg.Rectangle{Min: vg.Point{X: x(t.From), Y: y - half}, Max: vg.Point{X: x(t.To), Y: y + half}}
		fillArea(area, r, fill, k.Hatch)
		area.StrokeLine2(stroke(color.White, 0.5, solid), r.Min.X, r.Min.Y, r.Min.X, r.Max.Y)
		if t.Name == "" || k.Hatch != document.Plain {
			continue
		}
		word := aligned(lettering(min(smallSize, 1.6*half), readableOn(fill)), draw.XCenter, draw.YCenter)
		if word.Width(t.Name)+4 < r.Size().X {
			area.FillText(word, vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: y}, t.Name)
		}
	}
}

// laneName is how many characters of the name of a lane there is room for.
const laneName = 16

// readableOn is a colour for letters on a fill: the light of a colour as in WCAG 2.1,
// from memory, without its curve.
func readableOn(fill color.NRGBA) color.NRGBA {
	if 0.2126*float64(fill.R)+0.7152*float64(fill.G)+0.0722*float64(fill.B) < 128 {
		return color.NRGBA{255, 255, 255, 255}
	}
	return ink
}

// drawKey explains the fills at the right.
func (l *lanes) drawKey(c draw.Canvas) {
	style := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	x, y := c.Max.X-lanesKey+16, c.Max.Y-textSize
	for _, k := range l.Kinds {
		fillArea(c, vg.Rectangle{Min: vg.Point{X: x, Y: y - lineHeight/2 - 5}, Max: vg.Point{X: x + sampleWidth, Y: y - lineHeight/2 + 5}}, filled(k.Ink, k.Tint), k.Hatch)
		for _, line := range fold(style, document.Name(k.Name, longestName), lanesKey-16-sampleWidth-6) {
			c.FillText(style, vg.Point{X: x + sampleWidth + 6, Y: y}, line)
			y -= lineHeight
		}
		y -= labelSpace
	}
}
