package sample

import (
	"cmp"
	"slices"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/sim/calendar"
)

// airLimit is what the plant's blowers give, m3/h.
const airLimit = 1300

// work goes with the dry cake of a year or month, kg.
func work(dry answer.Spread) simulate.Work {
	times := func(f float64) answer.Spread {
		return answer.Spread{Mean: dry.Mean * f, P10: dry.P10 * f, P50: dry.P50 * f, P90: dry.P90 * f}
	}
	return simulate.Work{
		OperatorHours: times(0.004), LoaderHours: times(0.003), Moves: times(0.0015),
		MachineEnergy: times(300), BlowerEnergy: times(420), MediaVolume: times(0.00002), StoreFull: times(0.00003),
	}
}

// air goes with the vessels in use in a year or month.
func air(vessels answer.Spread, hoursOver float64) *simulate.Air {
	return &simulate.Air{Mean: about(vessels.P50*60, 0.1), Peak: about(vessels.P50*150+180, 0.1), HoursOver: about(hoursOver, 0.5)}
}

// resources are two that work more from year to year.
func resources(years []simulate.Year) []simulate.Resource {
	list := []simulate.Resource{{Name: "mixer"}, {Name: "operator"}}
	for _, y := range years {
		for i, scheduled := range []float64{2200, 4400} {
			use := y.FeedDry.P50 / 900e3 / float64(i+1)
			list[i].Years = append(list[i].Years, simulate.ResourceYear{
				Scheduled: about(scheduled, 0.001), Busy: about(scheduled*use, 0.05), Down: about(40, 0.3),
				Use: about(use, 0.05), PeakUse: about(use*1.3, 0.08),
			})
		}
	}
	return list
}

// capacities set five stages beside what each year brings.
func capacities(years []simulate.Year) []simulate.CapacityYear {
	list := make([]simulate.CapacityYear, len(years))
	for i, y := range years {
		arrived := y.FeedDry.P50 / 365
		c := simulate.CapacityYear{
			Label: y.Label, Arrived: about(arrived, 0.04), ArrivedPeak: about(arrived*1.12, 0.06),
			Carried: about(arrived*(1-y.DivertedShare.P50), 0.04), CarriedPeak: about(arrived*1.05*(1-y.DivertedShare.P50), 0.04),
		}
		for _, stage := range []simulate.Stage{
			{Name: "mixer", Sustains: 2300}, {Name: "vessels", Sustains: installed / perTonDry * 1000},
			{Name: "curing pad", Sustains: 1450}, {Name: "screen", Sustains: 3100}, {Name: "product demand", Sustains: 1380},
		} {
			stage.Headroom = stage.Sustains/arrived - 1
			c.Stages = append(c.Stages, stage)
		}
		slices.SortFunc(c.Stages, func(a, b simulate.Stage) int { return cmp.Compare(a.Sustains, b.Sustains) })
		list[i] = c
	}
	return list
}

// triggered are a change that came about in most runs and one that never did.
func triggered() []simulate.Triggered {
	return []simulate.Triggered{
		{Change: "larger pad", Share: 0.85, Decided: calendar.Date{Year: firstYear + 9, Month: time.May, Day: 4}},
		{Change: "second shift"},
	}
}
