package picture

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// endLabel names a series beside its right end, after a sample of its line or
// colour.
type endLabel struct {
	text   string // lines parted by "\n"
	value  float64
	y      vg.Length // of its middle, on the canvas
	sample func(c draw.Canvas, at vg.Rectangle)
}

const (
	lineHeight  vg.Length = 1.2 * textSize
	labelSpace  vg.Length = 6
	sampleWidth vg.Length = 20
)

func (l endLabel) height() vg.Length {
	return lineHeight * vg.Length(1+strings.Count(l.text, "\n"))
}

// spreadLabels moves labels up and down just so far that they do not overlap
// and stay between low and high where there is room.
func spreadLabels(list []endLabel, low, high vg.Length) {
	slices.SortStableFunc(list, func(a, b endLabel) int { return cmp.Compare(a.y, b.y) })
	floor := low
	for i := range list { // push up from below
		half := list[i].height() / 2
		list[i].y = max(list[i].y, floor+half)
		floor = list[i].y + half + labelSpace
	}
	ceiling := high + lineHeight
	for i := len(list) - 1; i >= 0; i-- { // and down from above
		half := list[i].height() / 2
		list[i].y = min(list[i].y, ceiling-half)
		ceiling = list[i].y - half - labelSpace
	}
}

// drawLabels writes the labels with their samples at x.
func drawLabels(c draw.Canvas, list []endLabel, x vg.Length) {
	style := aligned(lettering(textSize, ink), draw.XLeft, draw.YTop)
	for _, l := range list {
		top := l.y + l.height()/2
		middle := top - lineHeight/2
		l.sample(c, vg.Rectangle{
			Min: vg.Point{X: x, Y: middle - 4},
			Max: vg.Point{X: x + sampleWidth, Y: middle + 4},
		})
		for i, line := range strings.Split(l.text, "\n") {
			c.FillText(style, vg.Point{X: x + sampleWidth + 6, Y: top - vg.Length(i)*lineHeight}, line)
		}
	}
}

// lineSample shows a line's colour and dashes.
func lineSample(s draw.LineStyle) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, at vg.Rectangle) {
		y := (at.Min.Y + at.Max.Y) / 2
		c.StrokeLine2(s, at.Min.X, y, at.Max.X, y)
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
