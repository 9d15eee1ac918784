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
	t := tally(p, a)
	for run, err := range p.AsIs(ctx, s, setup.Part("simulating")) {
		if err != nil {
			return nil, err
		}
		t.Add(factsOf(p, &run, a.Price))
	}
	t.Close()
	return a, nil
}

// tally begins an answer.
func tally(p *fiscal.Plan, a *Answer) fiscal.Tally[facts] {
	t := fiscal.NewTally[facts](p.Replications)
	a.Months = make([]Month, len(p.Months))
	for i, month := range p.Months {
		a.Months[i].Month = month
		flows(t, &a.Months[i].Flows, fiscal.InMonth[facts](i))
	}
	a.Years = make([]Year, len(p.Labels))
	for i, label := range p.Labels {
		y, months := &a.Years[i], a.Months[i*calendar.MonthsPerYear:(i+1)*calendar.MonthsPerYear]
		y.Label = label
		flows(t, &y.Flows, fiscal.InYear[facts](i))
		t.Last(func() {
			y.Glut = season(months, func(m *Month) float64 { return m.Full.Estimate })
			y.Shortage = season(months, func(m *Month) float64 { return m.Short.Estimate })
		})
	}
	return t
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

// flows puts those of a month or year into an answer.
func flows(t fiscal.Tally[facts], into *Flows, in fiscal.Time[facts]) {
	over := func(into *answer.Spread, join fiscal.Join, of func(*facts) float64) { t.Over(into, in(of, join)) }
	full := func(f *facts) float64 { return f.full }
	unmet := func(f *facts) float64 { return f.unmet }
	over(&into.Volume, fiscal.Sum, func(f *facts) float64 { return f.volume })
	over(&into.Wet, fiscal.Sum, func(f *facts) float64 { return f.wet })
	over(&into.Dry, fiscal.Sum, func(f *facts) float64 { return f.dry })
	over(&into.Taken, fiscal.Sum, func(f *facts) float64 { return f.taken })
	over(&into.Unmet, fiscal.Sum, unmet)
	over(&into.StorePeak, fiscal.Most, func(f *facts) float64 { return f.peak })
	over(&into.StoreEnd, fiscal.End, func(f *facts) float64 { return f.end })
	over(&into.HoursFull, fiscal.Sum, full)
	over(&into.Revenue, fiscal.Sum, func(f *facts) float64 { return f.revenue })
	t.Chance(&into.Full, 0, in(full, fiscal.Sum))
	t.Chance(&into.Short, 0, in(unmet, fiscal.Sum))
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
