package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
)

// hatchStep is how far the lines of a hatch are apart, and hatchWidth how wide they are.
const (
	hatchStep  vg.Length = 5
	hatchWidth vg.Length = 0.9
)

// hatchLines are the directions of the lines of each hatch.
var hatchLines = [...][]vg.Point{
	document.Plain: nil, document.Rising: {{X: 1, Y: 1}}, document.Falling: {{X: 1, Y: -1}},
	document.Upstanding: {{Y: 1}}, document.Lying: {{X: 1}}, document.Crossed: {{X: 1, Y: 1}, {X: 1, Y: -1}},
}

// fillArea fills a rectangle with a colour and, over it, the lines of a hatch, which
// stand in the same places whatever the rectangle: bars side by side look like one.
func fillArea(c draw.Canvas, r vg.Rectangle, fill color.NRGBA, hatch document.Hatch) {
	c.FillPolygon(fill, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
	for _, way := range hatchLines[hatch] {
		for _, ends := range across(r, way) {
			c.StrokeLine2(stroke(ink, hatchWidth, solid), ends[0].X, ends[0].Y, ends[1].X, ends[1].Y)
		}
	}
}

// across returns the parts within a rectangle of parallel lines in one direction.
func across(r vg.Rectangle, way vg.Point) [][2]vg.Point {
	// A line is where its distance from the origin, along its normal, is a whole number of
	// steps; diagonals are drawn as far apart as the others.
	var out [][2]vg.Point
	switch {
	case way.X == 0:
		for x := next(r.Min.X); x < r.Max.X; x += hatchStep {
			out = append(out, [2]vg.Point{{X: x, Y: r.Min.Y}, {X: x, Y: r.Max.Y}})
		}
	case way.Y == 0:
		for y := next(r.Min.Y); y < r.Max.Y; y += hatchStep {
			out = append(out, [2]vg.Point{{X: r.Min.X, Y: y}, {X: r.Max.X, Y: y}})
		}
	default:
		at := func(x vg.Length) vg.Length { return way.Y * x } // on the line through the origin
		low := min(r.Min.Y-at(r.Min.X), r.Min.Y-at(r.Max.X))
		high := max(r.Max.Y-at(r.Min.X), r.Max.Y-at(r.Max.X))
		const apart = 1.4142 * hatchStep
		for shift := apart * floor(low/apart); shift < high; shift += apart {
			// y = ±x + shift, cut where it leaves the rectangle.
			from, to := r.Min.X, r.Max.X
			x1, x2 := way.Y*(r.Min.Y-shift), way.Y*(r.Max.Y-shift)
			from, to = max(from, min(x1, x2)), min(to, max(x1, x2))
			if from < to {
				out = append(out, [2]vg.Point{{X: from, Y: at(from) + shift}, {X: to, Y: at(to) + shift}})
			}
		}
	}
	return out
}

// next is the first whole step after a place.
func next(x vg.Length) vg.Length { return hatchStep * (floor(x/hatchStep) + 1) }

func floor(x vg.Length) vg.Length { return vg.Length(math.Floor(float64(x))) }

// hatched shows a fill with its hatch.
func hatched(fill color.NRGBA, hatch document.Hatch) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, at vg.Rectangle) { fillArea(c, at, fill, hatch) }
}
