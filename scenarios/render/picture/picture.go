package picture

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// Size of a picture in points of 1/72 inch: 1200 by 700 pixels at 96 to the
// inch.
const (
	Width  vg.Length = 900
	Height vg.Length = 525
)

// longestName is how many characters of a name are drawn.
const longestName = 60

// Picture is a drawing with its name.
type Picture struct {
	Name  string // fit for a file name, without extension
	Title string // what the picture says

	draw func(draw.Canvas)
}

// Of draws a figure in a system of units.
func Of(f document.Figure, sys units.System) Picture {
	title, subtitle := f.Title.Plain(sys), f.Subtitle.Plain(sys)
	p := Picture{Name: f.Name, Title: title}
	switch {
	case f.Ladder != nil:
		p.draw = (&ladder{title, subtitle, f.Ladder, sys}).draw
	case f.Phases != nil:
		p.draw = (&phases{title, subtitle, f.Phases, sys}).draw
	case f.Lanes != nil:
		p.draw = (&lanes{title, subtitle, f.Lanes}).draw
	case f.Flow != nil:
		p.draw = flowPicture{title, subtitle, f.Flow, sys}.draw
	default:
		p.draw = panelsOf(f, sys).draw
	}
	return p
}
