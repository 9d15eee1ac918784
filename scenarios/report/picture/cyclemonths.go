package picture

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// CycleMonths returns the picture of when the loads of several months are hot,
// comply and leave.
func CycleMonths(a *cycleplan.Answer, sys units.System) []Picture {
	ch := monthsChart(a, sys)
	return []Picture{{Name: "cycle-months", Title: ch.title, draw: ch.draw}}
}

func monthsChart(a *cycleplan.Answer, sys units.System) *chart {
	ch := &chart{
		title:    "When a load of each month is hot, meets the criteria and may leave the vessel",
		subtitle: name(&simulate.Answer{Basis: answer.Basis{Facility: a.Facility}}) + " · days from the start of the load; a gap is a criterion that is not met",
		unit:     "days", from: -0.5, to: float64(len(a.Loads)) - 0.5,
	}
	if a.Invented {
		ch.subtitle += " · invented data"
	}
	for i := range a.Loads {
		ch.ticks = append(ch.ticks, plot.Tick{Value: float64(i), Label: a.Loads[i].Month.String()[:3]})
	}
	landmark := fmt.Sprintf("first %.0f %s", converter(units.Temperature, sys)(a.Landmark), unitOf(units.Temperature, sys))
	ch.series = append(ch.series,
		byMonth(a, landmark, 0, func(l *cycleplan.Load) cycleplan.Moment { return l.Passes }),
		byMonth(a, "leaves the vessel", 1, func(l *cycleplan.Load) cycleplan.Moment { return cycleplan.Moment{OK: l.Complies, Hours: l.Stay} }))
	for i, x := range a.Loads[0].Criteria {
		ch.series = append(ch.series, byMonth(a, x.Name, 2+i, func(l *cycleplan.Load) cycleplan.Moment { return l.Criteria[i].Met }))
	}
	return ch
}

// byMonth is the curve of a moment over the months.
func byMonth(a *cycleplan.Answer, name string, i int, of func(*cycleplan.Load) cycleplan.Moment) curve {
	colours := []color.NRGBA{vermilion, black, blue, green, purple, orange}
	dashes := [][]vg.Length{solid, solid, dashed, mixed, dotted}
	c := curve{name: name, style: stroke(colours[i%len(colours)], 2, dashes[i%len(dashes)])}
	for month := range a.Loads {
		v := math.NaN()
		if m := of(&a.Loads[month]); m.OK {
			v = m.Hours / hoursPerDay
		}
		c.add(float64(month), v)
	}
	return c
}
