package picture

import (
	"errors"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
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

// All returns the pictures of an answer in the order in which they are best
// looked at. It is an error if the answer has no year or no month.
func All(a *simulate.Answer, sys units.System) ([]Picture, error) {
	if len(a.Years) == 0 || len(a.Months) == 0 {
		return nil, errors.New("picture: the answer has no whole year to draw")
	}
	charts := []struct {
		name string
		make func(*simulate.Answer, units.System) *chart
	}{
		{"vessels-needed", needChart},
		{"vessels-in-use", useChart},
		{"diverted", divertedChart},
		{"chips", chipsChart},
		{"product", productChart},
	}
	var list []Picture
	for _, c := range charts {
		chart := c.make(a, sys)
		list = append(list, Picture{Name: c.name, Title: chart.title, draw: chart.draw})
	}
	flow := newFlowPicture(a, sys)
	return append(list, Picture{Name: "mass-flow", Title: flowTitle, draw: flow.draw}), nil
}
