package picture

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// phases is a diagram with a band for each plan, and in it a bar for each step
// from when it comes into service on.
type phases struct {
	title, subtitle string
	*document.Phases
	sys units.System
}

const (
	phasesNames vg.Length = 165 // width of the names of plans at the left
	bandGap     vg.Length = 14  // between plans
	thickest    vg.Length = 20  // of a bar
)

// stepInks tell the kinds of steps apart.
var stepInks = []document.Ink{document.Blue, document.Orange, document.Green, document.Purple, document.SkyBlue, document.Vermilion, document.Grey}

func (ph *phases) draw(c draw.Canvas) {
	c = page(c, ph.title, ph.subtitle)
	area := draw.Crop(c, phasesNames, 0, 2*textSize, -textSize)
	ph.drawYears(area)
	rows := 0
	for i := range ph.Plans {
		rows += max(1, len(ph.Plans[i].Steps))
	}
	height := min(thickest*1.4, (area.Size().Y-bandGap*vg.Length(len(ph.Plans)))/vg.Length(rows))
	y := area.Max.Y
	for i := range ph.Plans {
		y = ph.drawPlan(area, i, y, height) - bandGap
	}
}

// x is where a part of the horizon lies.
func (ph *phases) x(area draw.Canvas, part float64) vg.Length {
	from := float64(ph.From) / float64(len(ph.Years))
	return area.Min.X + vg.Length(min(max((part-from)/(1-from), 0), 1))*area.Size().X
}

// drawYears draws a line at the beginning of some years.
func (ph *phases) drawYears(area draw.Canvas) {
	style := aligned(lettering(textSize, ink), draw.XCenter, draw.YTop)
	shown, widest := len(ph.Years)-ph.From, labelGap
	for _, year := range ph.Years[ph.From:] {
		widest = max(widest, style.Width(year)+labelGap)
	}
	every := int(math.Ceil(float64(shown) * float64(widest/area.Size().X)))
	for y := ph.From; y < len(ph.Years); y += every {
		at := ph.x(area, float64(y)/float64(len(ph.Years)))
		area.StrokeLine2(stroke(rule, 0.75, solid), at, area.Min.Y, at, area.Max.Y)
		area.FillText(style, vg.Point{X: at, Y: area.Min.Y - 4}, ph.Years[y])
	}
}

// drawPlan draws the band of a plan below y and returns where it ends.
func (ph *phases) drawPlan(area draw.Canvas, i int, y, height vg.Length) vg.Length {
	p := &ph.Plans[i]
	left := area.Min.X - phasesNames
	area.FillText(aligned(bold(lettering(textSize, ink)), draw.XLeft, draw.YTop), vg.Point{X: left, Y: y}, p.Name)
	area.FillText(aligned(lettering(smallSize, faded), draw.XLeft, draw.YTop), vg.Point{X: left, Y: y - lineHeight}, p.Note.Plain(ph.sys))
	if len(p.Steps) == 0 {
		area.FillText(aligned(lettering(textSize, faded), draw.XLeft, draw.YTop), vg.Point{X: area.Min.X + 4, Y: y}, "nothing built")
	}
	for k, s := range p.Steps {
		ph.drawStep(area, s, y-height*(vg.Length(k)+0.5), height)
	}
	return y - height*vg.Length(max(1, len(p.Steps)))
}

// drawStep draws a step about a height y, its name in the bar or, where that is too
// short, before it.
func (ph *phases) drawStep(area draw.Canvas, s document.Phase, y, height vg.Length) {
	colour := inks[stepInks[s.Kind%len(stepInks)]]
	from, ordered, half := ph.x(area, s.InService), ph.x(area, s.Ordered), min(height*0.4, thickest/2)
	area.StrokeLine2(stroke(colour, 2, solid), ordered, y, from, y)
	area.SetColor(tint(colour, 0.45))
	area.Fill(vg.Rectangle{Min: vg.Point{X: from, Y: y - half}, Max: vg.Point{X: area.Max.X, Y: y + half}}.Path())
	text := document.Name(s.Name, longestName)
	style := aligned(lettering(min(textSize, 1.6*half), ink), draw.XLeft, draw.YCenter)
	at := vg.Point{X: from + 5, Y: y}
	if style.Width(text) > area.Max.X-from-8 {
		style, at.X = aligned(style, draw.XRight, draw.YCenter), ordered-5
	}
	area.FillText(style, at, text)
}
