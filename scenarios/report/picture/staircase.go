package picture

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/vesselplan"
)

// Staircase returns the picture of the vessels that keep the service target,
// year by year, in every growth scenario.
func Staircase(a *vesselplan.Answer) []Picture {
	ch := staircaseChart(a)
	return []Picture{{Name: "when", Title: ch.title, draw: ch.draw}}
}

func staircaseChart(a *vesselplan.Answer) *chart {
	g := a.Main()
	ch := &chart{
		title:    "Vessels that keep the service target, year by year",
		subtitle: name(&simulate.Answer{Basis: answer.Basis{Facility: a.Facility}}) + " · a line that ends: no number tried is enough · handbook: for growth \"" + g.Name + "\"",
		unit:     "vessels", time: "year", from: -0.5, to: float64(a.Years) - 0.5, whole: true,
	}
	if a.Invented {
		ch.subtitle += " · invented data"
	}
	every := max(1, a.Years/10)
	for y := range a.Years {
		if y%every == 0 {
			ch.ticks = append(ch.ticks, plot.Tick{Value: float64(y), Label: a.Label(y)})
		}
	}
	ch.series = append(ch.series,
		line{points{values: g.StaticPeak}, "handbook estimate,\npeak month", stroke(faded, 1.5, dotted)},
		line{points{values: g.StaticMean}, "handbook estimate,\nyear's average", stroke(gas, 1.5, dashed)})
	colours := []color.NRGBA{blue, orange, vermilion, green, purple}
	dashes := [][]vg.Length{solid, dashed, mixed}
	for i := range a.Growths {
		g := &a.Growths[i]
		// Side by side, so that lines at the same height can be told apart.
		offset := 0.06 * float64(i)
		ch.series = append(ch.series, steps{line{points{values: enough(a, g), offset: offset},
			fmt.Sprintf("growth\n%s", g.Name), stroke(colours[i%len(colours)], 2.25, dashes[i%len(dashes)])}})
	}
	return ch
}

// enough returns by year the fewest vessels that keep the target through it.
func enough(a *vesselplan.Answer, g *vesselplan.Growth) []float64 {
	out := make([]float64, a.Years)
	for y := range out {
		out[y] = math.NaN()
		for i := len(g.Rows) - 1; i >= 0; i-- {
			if r := &g.Rows[i]; r.LastKept >= y {
				out[y] = float64(r.Vessels)
			}
		}
	}
	return out
}
