package picture

import (
	"fmt"
	"image/color"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/expand"
	"loamcast/sim/calendar"
)

// phases is a diagram with a band for each plan, and in it a bar for each step
// from the day on which it comes into service.
type phases struct {
	a               *expand.Answer
	title, subtitle string
}

const (
	phasesNames vg.Length = 165 // width of the names of plans at the left
	bandGap     vg.Length = 14  // between plans
	thickest    vg.Length = 20  // of a bar
)

// stepColours tell the steps of the catalogue apart.
var stepColours = []color.NRGBA{blue, orange, green, purple, skyBlue, vermilion, gas}

func (ph *phases) draw(c draw.Canvas) {
	c = page(c, ph.title, ph.subtitle)
	area := draw.Crop(c, phasesNames, 0, 2*textSize, -textSize)
	ph.drawYears(area)
	rows := 0
	for i := range ph.a.Plans {
		rows += max(1, len(ph.a.Plans[i].Steps))
	}
	height := min(thickest*1.4, (area.Size().Y-bandGap*vg.Length(len(ph.a.Plans)))/vg.Length(rows))
	y := area.Max.Y
	for i := range ph.a.Plans {
		y = ph.drawPlan(area, i, y, height) - bandGap
	}
}

// x is where a day lies.
func (ph *phases) x(area draw.Canvas, day calendar.Date) vg.Length {
	whole := ph.a.Start.DaysUntil(ph.a.Start.AddYears(ph.a.Years))
	share := vg.Length(ph.a.Start.DaysUntil(day)) / vg.Length(whole)
	return area.Min.X + min(max(share, 0), 1)*area.Size().X
}

// drawYears draws a line at the beginning of some years.
func (ph *phases) drawYears(area draw.Canvas) {
	every := max(1, ph.a.Years/10)
	style := aligned(lettering(textSize, ink), draw.XCenter, draw.YTop)
	for y := 0; y < ph.a.Years; y += every {
		x := ph.x(area, ph.a.Start.AddYears(y))
		area.StrokeLine2(stroke(rule, 0.75, solid), x, area.Min.Y, x, area.Max.Y)
		area.FillText(style, vg.Point{X: x, Y: area.Min.Y - 4}, ph.a.Label(y))
	}
}

// drawPlan draws the band of a plan below y and returns where it ends.
func (ph *phases) drawPlan(area draw.Canvas, i int, y, height vg.Length) vg.Length {
	p := &ph.a.Plans[i]
	left := area.Min.X - phasesNames
	area.FillText(aligned(bold(lettering(textSize, ink)), draw.XLeft, draw.YTop), vg.Point{X: left, Y: y}, fmt.Sprintf("Plan %d", i+1))
	area.FillText(aligned(lettering(smallSize, faded), draw.XLeft, draw.YTop), vg.Point{X: left, Y: y - lineHeight}, over(ph.a, i))
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
func (ph *phases) drawStep(area draw.Canvas, s expand.Step, y, height vg.Length) {
	colour := stepColours[ph.place(s.Name)%len(stepColours)]
	from, ordered, half := ph.x(area, s.InService), ph.x(area, s.OrderBy), min(height*0.4, thickest/2)
	area.StrokeLine2(stroke(colour, 2, solid), ordered, y, from, y)
	area.SetColor(tint(colour, 0.45))
	area.Fill(vg.Rectangle{Min: vg.Point{X: from, Y: y - half}, Max: vg.Point{X: area.Max.X, Y: y + half}}.Path())
	text := fmt.Sprintf("%s, %d", printableName(s.Name), s.InService.Year)
	if s.Count > 1 {
		text = fmt.Sprintf("%d × %s", s.Count, text)
	}
	style := aligned(lettering(min(textSize, 1.6*half), ink), draw.XLeft, draw.YCenter)
	at := vg.Point{X: from + 5, Y: y}
	if style.Width(text) > area.Max.X-from-8 {
		style, at.X = aligned(style, draw.XRight, draw.YCenter), ordered-5
	}
	area.FillText(style, at, text)
}

// place is that of a step among all that the plans take.
func (ph *phases) place(name string) int {
	var seen []string
	for i := range ph.a.Plans {
		for _, s := range ph.a.Plans[i].Steps {
			if !slices.Contains(seen, s.Name) {
				seen = append(seen, s.Name)
			}
		}
	}
	return slices.Index(seen, name)
}
