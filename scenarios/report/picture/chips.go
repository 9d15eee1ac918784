package picture

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// chipsChart stacks the chips recovered on the fresh chips bought.
func chipsChart(a *simulate.Answer, sys units.System) *chart {
	convert := converter(units.Volume, sys)
	fresh := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.ChipsBought }, convert)
	recovered := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.ChipsRecovered }, convert)
	ground := make([]float64, len(fresh.mean))
	top := make([]float64, len(fresh.mean))
	for i := range top {
		top[i] = fresh.mean[i] + recovered.mean[i]
	}

	ch := yearly(a)
	ch.title = "Wood chips each year: fresh chips to buy, and chips that the screen gives back"
	ch.subtitle = about(a, "means; the upright lines are the "+interval(a)+" of the chips to buy")
	ch.unit = unitOf(units.Volume, sys) + " a year"
	ch.series = []series{
		bars{points{values: top}, fresh.mean, "recovered", tint(green, 0.45)},
		bars{points{values: fresh.mean}, ground, "bought fresh", orange},
		whiskers{points{values: fresh.high}, fresh.low, "bought fresh,\n" + interval(a), stroke(black, 1.5, solid)},
	}
	return ch
}
