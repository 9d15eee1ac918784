package productplan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// Options are what a caller may choose beside the file.
type Options = fiscal.Options

// Ask simulates fiscal years and sums up their compost. An error is an
// *answer.OptionError, carries the replication, the simulated date and the event,
// or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	p, err := fiscal.New(f, o)
	if err != nil {
		return nil, err
	}
	a := &Answer{
		Basis: setup.Basis(f).Replicated(p.Replications), Naming: p.Naming,
		Growths: p.Shares, Store: f.Model.Product.Capacity, Price: priceOf(f),
	}
	found, err := p.AsIs(ctx, s, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	var runs [][]facts
	for i := range found {
		runs = append(runs, factsOf(p, &found[i], a.Price))
	}
	for i, month := range p.Months {
		a.Months = append(a.Months, Month{Month: month, Flows: monthFlows(runs, i)})
	}
	for y, label := range p.Labels {
		months := a.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
		a.Years = append(a.Years, Year{
			Label: label, Flows: yearFlows(runs, y),
			Glut:     season(months, func(m *Month) float64 { return m.Full.Estimate }),
			Shortage: season(months, func(m *Month) float64 { return m.Short.Estimate }),
		})
	}
	return a, nil
}

func priceOf(f *facilityfile.File) Price {
	if !f.Planning.Priced {
		return Price{}
	}
	e := &f.Planning.Economy
	return Price{Known: true, Monthly: e.ProductPrice, Stated: e.Rates.Stated, Escalation: e.Prices.Product.Escalation}
}

// facts are what a month of one replication did with product: m3, kg, h, USD.
type facts struct {
	volume, wet, dry, taken, unmet float64
	peak, end, full, revenue       float64
}

// roundingLeft is what rounding may leave of a demand that is met, m3.
const roundingLeft = 1e-6

// factsOf takes them from the months of a record.
func factsOf(p *fiscal.Plan, run *fiscal.Run, price Price) []facts {
	out, e := make([]facts, len(run.Months)), &run.Economy
	for i := range run.Months {
		m := &run.Months[i]
		out[i] = facts{
			volume: m.Product.Volume, wet: m.Product.Wet, dry: m.Product.Dry, taken: m.Product.TakenVolume,
			peak: m.Product.StorePeak, end: m.Product.StoreEnd, full: m.Product.HoursFull,
		}
		if m.Product.Shortage > roundingLeft {
			out[i].unmet = m.Product.Shortage
		}
		if price.Known {
			out[i].revenue = e.Rates.Nominal(money.Flow{
				Amount: e.ProductPrice[m.Month-1] * m.Product.TakenVolume,
				At:     p.Years(i), Escalation: e.Prices.Product.Escalation,
			})
		}
	}
	return out
}

// flows reduces the facts of the replications; values gives the number of each
// replication.
func flows(values func(of func(*facts) float64, join fiscal.Join) []float64) Flows {
	spread := func(of func(*facts) float64, join fiscal.Join) answer.Spread {
		return answer.SpreadOf(values(of, join))
	}
	full := func(f *facts) float64 { return f.full }
	unmet := func(f *facts) float64 { return f.unmet }
	return Flows{
		Volume:    spread(func(f *facts) float64 { return f.volume }, fiscal.Sum),
		Wet:       spread(func(f *facts) float64 { return f.wet }, fiscal.Sum),
		Dry:       spread(func(f *facts) float64 { return f.dry }, fiscal.Sum),
		Taken:     spread(func(f *facts) float64 { return f.taken }, fiscal.Sum),
		Unmet:     spread(unmet, fiscal.Sum),
		StorePeak: spread(func(f *facts) float64 { return f.peak }, fiscal.Most),
		StoreEnd:  spread(func(f *facts) float64 { return f.end }, fiscal.End),
		HoursFull: spread(full, fiscal.Sum),
		Revenue:   spread(func(f *facts) float64 { return f.revenue }, fiscal.Sum),
		Full:      fiscal.Chance(values(full, fiscal.Sum), 0),
		Short:     fiscal.Chance(values(unmet, fiscal.Sum), 0),
	}
}

func monthFlows(runs [][]facts, month int) Flows {
	return flows(func(of func(*facts) float64, _ fiscal.Join) []float64 { return fiscal.InMonth(runs, month, of) })
}

func yearFlows(runs [][]facts, year int) Flows {
	return flows(func(of func(*facts) float64, join fiscal.Join) []float64 { return fiscal.InYear(runs, year, of, join) })
}

// season returns the months in which something has a notable chance.
func season(months []Month, chance func(*Month) float64) Season {
	var s Season
	for i := range months {
		if c := chance(&months[i]); c >= Notable {
			s.Months = append(s.Months, months[i].Month.Month)
			s.Chance = max(s.Chance, c)
		}
	}
	return s
}
