package picture

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Size of a picture in points of 1/72 inch: 1200 by 700 pixels at 96 to the
// inch.
const (
	Width  vg.Length = 900
	Height vg.Length = 525
)

// Picture is a drawing with its name.
type Picture struct {
	Name  string // fit for a file name, without extension
	Title string // what the picture says

	draw func(draw.Canvas)
}

// Draw draws the picture over the whole of c, which should have the
// proportions of [Width] and [Height] and at least that size.
func (p Picture) Draw(c draw.Canvas) { p.draw(c) }
