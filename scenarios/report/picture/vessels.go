package picture

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// yearly is a chart over the years, which the caller fills.
func yearly(a *simulate.Answer) *chart {
	return &chart{
		time:  "year",
		ticks: yearTicks(a.Years),
		from:  -0.5,
		to:    float64(len(a.Years)) - 0.5,
	}
}

// needChart sets the vessels needed against those installed and the handbook's
// estimate.
func needChart(a *simulate.Answer, _ units.System) *chart {
	need := curvesOf(a.Years, func(y *simulate.Year) answer.Spread { return y.VesselsNeeded }, unchanged)
	average := valuesOf(a.Years, func(y *simulate.Year) float64 { return y.StaticAverage })
	peak := valuesOf(a.Years, func(y *simulate.Year) float64 { return y.StaticPeak })
	installed := valuesOf(a.Years, func(y *simulate.Year) float64 { return float64(y.Installed) })

	ch := yearly(a)
	ch.title = a.Headline().String()
	ch.subtitle = about(a, "most vessels needed at one time if none were missing: median and "+interval(a))
	ch.unit = "vessels"
	ch.whole = true
	ch.series = []series{
		band{points: points{values: need.high}, low: need.low, name: "needed, " + interval(a),
			fill: tint(blue, 0.25), labelHigh: true},
		line{points{values: need.mid}, "needed, median", stroke(blue, 2.5, solid)},
		line{points{values: peak}, "handbook estimate,\npeak month", stroke(vermilion, 1.75, mixed)},
		line{points{values: average}, "handbook estimate,\nyear's average", stroke(orange, 1.75, dashed)},
		steps{line{points{values: installed}, "installed", stroke(black, 2, solid)}},
	}
	return ch
}

// useChart shows how many vessels are in use, month by month.
func useChart(a *simulate.Answer, _ units.System) *chart {
	mean := curvesOf(a.Months, func(m *simulate.Month) answer.Spread { return m.VesselsMean }, unchanged)
	peak := curvesOf(a.Months, func(m *simulate.Month) answer.Spread { return m.VesselsPeak }, unchanged)
	installed := valuesOf(a.Months, func(m *simulate.Month) float64 { return float64(m.Installed) })

	const middle = 0.5 // a month's value stands in the middle of the month
	return &chart{
		title:    "Vessels in use by month: the average over the month and the most at one time",
		subtitle: about(a, "medians; the band of the most is "+interval(a)),
		unit:     "vessels",
		time:     "month",
		ticks:    monthTicks(a.Months),
		from:     0,
		to:       float64(len(a.Months)),
		whole:    true,
		series: []series{
			band{points: points{peak.high, middle}, low: peak.low, name: "most in use,\n" + interval(a),
				fill: tint(vermilion, 0.3)},
			// Wide, to show on both sides of the thin line of the installed
			// when all are in use.
			line{points{peak.mid, middle}, "most in use,\nmedian", stroke(tint(vermilion, 0.65), 4, solid)},
			line{points{mean.mid, middle}, "average in use", stroke(blue, 1.75, solid)},
			steps{line{points{installed, middle}, "installed", stroke(black, 1.25, solid)}},
		},
	}
}
