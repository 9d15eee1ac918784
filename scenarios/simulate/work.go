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

// span picks some months of a record.
type span func(*plant.Record) []plant.Month

func (r Runs) sum(of span, f field) answer.Spread {
	return spread(r.Records, func(rec *plant.Record) float64 { return plant.Sum(of(rec), f) })
}

func (r Runs) most(of span, f field) answer.Spread {
	return spread(r.Records, func(rec *plant.Record) float64 { return most(of(rec), f) })
}

func (r Runs) work(of span) Work {
	return Work{
		OperatorHours: r.sum(of, func(m *plant.Month) float64 { return m.Work.OperatorHours }),
		LoaderHours:   r.sum(of, func(m *plant.Month) float64 { return m.Work.LoaderHours }),
		Moves:         r.sum(of, func(m *plant.Month) float64 { return m.Vessels.Moves }),
		MachineEnergy: r.sum(of, func(m *plant.Month) float64 { return m.Work.MachineEnergy * kJPerKWh }),
		BlowerEnergy:  r.sum(of, func(m *plant.Month) float64 { return m.Work.BlowerEnergy * kJPerKWh }),
		MediaVolume:   r.sum(of, func(m *plant.Month) float64 { return m.Chips.Biofilter }),
		StoreFull:     r.sum(of, func(m *plant.Month) float64 { return m.Product.HoursFull }),
	}
}

// air returns nil where nothing limits the air, as it is not followed then.
func (r Runs) air(of span) *Air {
	if _, limited := r.Plant.Air.Limit(); !limited {
		return nil
	}
	return &Air{
		Mean: spread(r.Records, func(rec *plant.Record) float64 {
			return perUnit(plant.Sum(of(rec), func(m *plant.Month) float64 { return m.Air.Volume }), hoursPerDay*plant.Sum(of(rec), daysIn))
		}),
		Peak:      r.most(of, func(m *plant.Month) float64 { return m.Air.Peak }),
		HoursOver: r.sum(of, func(m *plant.Month) float64 { return m.Air.HoursOver }),
	}
}

func daysIn(m *plant.Month) float64 { return m.Days }
