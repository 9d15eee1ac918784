package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
)

// Work is what a month or a year took of people and machines.
type Work struct {
	OperatorHours answer.Spread // person-hours of mixing, screening and moving vessels
	LoaderHours   answer.Spread // machine-hours of mixing and screening
	Moves         answer.Spread // of vessels, by truck
	MachineEnergy answer.Spread // kJ, mixer and screen
	BlowerEnergy  answer.Spread // kJ, vessels and curing
	MediaVolume   answer.Spread // m3 of fresh chips into the biofilter
	StoreFull     answer.Spread // hours during which a lot waited for room in the product store
}

// Air is what the vessels asked for together, beside what blowers and biofilter
// take.
type Air struct {
	Mean, Peak answer.Spread // m3/h
	HoursOver  answer.Spread // above Answer.AirLimit
}

// work is what some months took.
func (t *tally) work(out *Work, of span) {
	t.sum(&out.OperatorHours, of, func(m *plant.Month) float64 { return m.Work.OperatorHours })
	t.sum(&out.LoaderHours, of, func(m *plant.Month) float64 { return m.Work.LoaderHours })
	t.sum(&out.Moves, of, func(m *plant.Month) float64 { return m.Vessels.Moves })
	t.sum(&out.MachineEnergy, of, func(m *plant.Month) float64 { return m.Work.MachineEnergy * kJPerKWh })
	t.sum(&out.BlowerEnergy, of, func(m *plant.Month) float64 { return m.Work.BlowerEnergy * kJPerKWh })
	t.sum(&out.MediaVolume, of, func(m *plant.Month) float64 { return m.Chips.Biofilter })
	t.sum(&out.StoreFull, of, func(m *plant.Month) float64 { return m.Product.HoursFull })
}

// air is that of some months; nil where nothing limits it, as it is not followed then.
func (t *tally) air(of span) *Air {
	if _, limited := t.plant.Air.Limit(); !limited {
		return nil
	}
	out := &Air{}
	t.ratio(&out.Mean, of, func(m *plant.Month) float64 { return m.Air.Volume }, func(m *plant.Month) float64 { return hoursPerDay * m.Days })
	t.most(&out.Peak, of, func(m *plant.Month) float64 { return m.Air.Peak })
	t.sum(&out.HoursOver, of, func(m *plant.Month) float64 { return m.Air.HoursOver })
	return out
}

func daysIn(m *plant.Month) float64 { return m.Days }
