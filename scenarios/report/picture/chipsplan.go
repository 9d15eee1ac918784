package picture

import (
	"fmt"

	"gonum.org/v1/plot"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/units"
)

// middle is where a month's value stands between the beginning of the month
// and the next.
const middle = 0.5

// ChipPlan returns the picture of a purchase plan: what is bought from the
// beginning of each fiscal year on, what is bought and comes back each month, and
// the store.
func ChipPlan(a *chipplan.Answer, sys units.System) []Picture {
	convert := converter(units.Volume, sys)
	of := func(spread func(*chipplan.Month) answer.Spread) curves { return curvesOf(a.Months, spread, convert) }
	bought := of(func(m *chipplan.Month) answer.Spread { return m.Bought })
	recovered := of(func(m *chipplan.Month) answer.Spread { return m.Recovered })
	peak := of(func(m *chipplan.Month) answer.Spread { return m.StorePeak })
	end := of(func(m *chipplan.Month) answer.Spread { return m.StoreEnd })

	head := answer.Answer{Facility: a.Facility, Invented: a.Invented, Seed: a.Seed, Replications: a.Replications, Level: a.Level}
	band1 := interval(&head)
	axis := monthlyAxis(fiscalMonths(a.Months, func(m *chipplan.Month) fiscal.Month { return m.Month }))
	sum := of(func(m *chipplan.Month) answer.Spread { return m.BoughtToDate })
	year := axis("Fresh chips: bought since the fiscal year began, bought each month, and in the store",
		about(&head, "bands are "+band1), unitOf(units.Volume, sys)+" bought since the fiscal year began")
	year.time = ""
	for from := 0; from < len(a.Months); from += len(a.Months) / len(a.Years) {
		to := from + len(a.Months)/len(a.Years)
		b := band{points: points{sum.high[from:to], middle + float64(from)}, low: sum.low[from:to], fill: tint(orange, 0.35)}
		l := line{points{sum.mid[from:to], middle + float64(from)}, "", stroke(orange, 2.5, solid)}
		if to == len(a.Months) { // the years look alike: the last names them all
			b.name, b.labelHigh, l.name = band1, true, "median"
		}
		year.series = append(year.series, b, l)
	}
	flow := axis("", "", unitOf(units.Volume, sys)+" a month, means")
	flow.time = ""
	flow.series = []series{
		line{points{recovered.mean, middle}, "recovered", stroke(green, 1.75, dashed)},
		line{points{bought.mean, middle}, "bought", stroke(orange, 2.5, solid)},
	}
	store := axis("", "", unitOf(units.Volume, sys)+" of fresh chips in the store")
	store.series = []series{
		band{points: points{end.high, middle}, low: end.low, name: "at month's end,\n" + band1, fill: tint(skyBlue, 0.4)},
		line{points{peak.high, middle}, fmt.Sprintf("peak, %s", quantile(a.Level.High)), stroke(vermilion, 1.75, dashed)},
		line{points{end.mid, middle}, "at month's end,\nmedian", stroke(blue, 2, solid)},
		steps{line{points{level(len(a.Months), convert(a.Ordering.Store)), middle}, "room", stroke(black, 1.25, solid)}},
	}
	all := panels{year, flow, store}
	return []Picture{{Name: "chips-months", Title: year.title, draw: all.draw}}
}

// fiscalMonths takes the months of records as the months of an answer.
func fiscalMonths[T any](records []T, of func(*T) fiscal.Month) []answer.Month {
	months := make([]answer.Month, len(records))
	for i := range records {
		m := of(&records[i])
		months[i] = answer.Month{Year: m.Year, Month: m.Month}
	}
	return months
}

// monthlyAxis returns a maker of empty charts over the same months.
func monthlyAxis(months []answer.Month) func(title, subtitle, unit string) *chart {
	var ticks plot.ConstantTicks = monthTicks(months)
	return func(title, subtitle, unit string) *chart {
		return &chart{title: title, subtitle: subtitle, unit: unit, time: "month", ticks: ticks, to: float64(len(months))}
	}
}

// level is the same value n times.
func level(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}
