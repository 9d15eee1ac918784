package picture

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// productChart sets the product screened against what is taken away and the
// demand that is not met.
func productChart(a *simulate.Answer, sys units.System) *chart {
	convert := converter(units.Volume, sys)
	product := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.ProductVolume }, convert)
	taken := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.TakenVolume }, convert)
	short := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.Shortage }, convert)

	ch := yearly(a)
	ch.title = "Product each year: what is screened, what is taken away, and demand not met"
	ch.subtitle = about(a, "medians; the band is the "+interval(a)+" of the product screened")
	ch.unit = unitOf(units.Volume, sys) + " a year"
	ch.series = []series{
		band{points: points{values: product.high}, low: product.low, name: "screened, " + interval(a),
			fill: tint(purple, 0.3), labelHigh: true},
		line{points{values: product.mid}, "screened", stroke(purple, 2.5, solid)},
		line{points{values: taken.mid}, "taken away", stroke(blue, 2, dashed)},
		line{points{values: short.mid}, "demand not met", stroke(vermilion, 1.75, dotted)},
	}
	return ch
}

// divertedChart shows the solids that could not be treated.
func divertedChart(a *simulate.Answer, sys units.System) *chart {
	diverted := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.DivertedDry }, converter(units.Mass, sys))

	ch := yearly(a)
	ch.title = "Dry solids hauled away untreated each year"
	ch.subtitle = about(a, "cake that found no room and loads that failed: median and "+interval(a))
	ch.unit = unitOf(units.Mass, sys) + " dry a year"
	ch.series = []series{
		band{points: points{values: diverted.high}, low: diverted.low, name: interval(a),
			fill: tint(vermilion, 0.3), labelHigh: true},
		line{points{values: diverted.mid}, "median", stroke(vermilion, 2.5, solid)},
	}
	return ch
}
