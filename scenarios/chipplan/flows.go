package chipplan

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
)

// facts are what a month of one replication did with chips: m3, h, USD.
type facts struct {
	bought, truckloads, used, fresh, recovered, lost, media float64
	peak, end, short, spend                                 float64
	amendments                                              []amendmentFacts
	sources                                                 []sourceFacts
}

// facts takes them from the months of a run.
func (p *planner) facts(months []fiscal.Goods, e *facilityfile.Economy) []facts {
	out := make([]facts, len(months))
	for i := range months {
		m := &months[i]
		out[i] = facts{
			bought: m.Chips.Bought, truckloads: m.Chips.Truckloads, used: m.Chips.Used, fresh: m.Chips.FreshUsed, recovered: m.Chips.Recovered, lost: m.Chips.Lost,
			media: m.Chips.Biofilter, peak: m.Chips.StorePeak, end: m.Chips.StoreEnd, short: m.Chips.HoursShort,
			spend: p.spend(e, costs.Chips(&m.Chips, m.Month, e), p.years.Years(i)), amendments: p.amendmentFacts(m, e, p.years.Years(i)),
			sources: p.sourceFacts(m, e, p.years.Years(i)),
		}
	}
	return out
}

func bought(f *facts) float64     { return f.bought }
func truckloads(f *facts) float64 { return f.truckloads }
func used(f *facts) float64       { return f.used }
func recovered(f *facts) float64  { return f.recovered }
func freshUsed(f *facts) float64  { return f.fresh }
func lost(f *facts) float64       { return f.lost }
func media(f *facts) float64      { return f.media }
func peak(f *facts) float64       { return f.peak }
func end(f *facts) float64        { return f.end }
func hoursShort(f *facts) float64 { return f.short }
func spend(f *facts) float64      { return f.spend }

// flows reduces the facts of the replications; values gives the number of each
// replication.
func flows(values func(of func(*facts) float64, join fiscal.Join) []float64) Flows {
	spread := func(of func(*facts) float64, join fiscal.Join) answer.Spread {
		return answer.SpreadOf(values(of, join))
	}
	return Flows{
		Bought:     spread(bought, fiscal.Sum),
		Truckloads: spread(truckloads, fiscal.Sum),
		Used:       spread(used, fiscal.Sum),
		FreshUsed:  spread(freshUsed, fiscal.Sum),
		Recovered:  spread(recovered, fiscal.Sum),
		Lost:       spread(lost, fiscal.Sum),
		Media:      spread(media, fiscal.Sum),
		StorePeak:  spread(peak, fiscal.Most),
		StoreEnd:   spread(end, fiscal.End),
		HoursShort: spread(hoursShort, fiscal.Sum),
		Spend:      spread(spend, fiscal.Sum),
		StockOut:   fiscal.Chance(values(hoursShort, fiscal.Sum), 0),
	}
}

func monthFlows(runs [][]facts, month int) Flows {
	return flows(func(of func(*facts) float64, _ fiscal.Join) []float64 { return fiscal.InMonth(runs, month, of) })
}

// year reduces a fiscal year and sets its budget.
func (p *planner) year(runs [][]facts, y int, label string) Year {
	out := Year{Label: label, Flows: flows(func(of func(*facts) float64, join fiscal.Join) []float64 {
		return fiscal.InYear(runs, y, of, join)
	})}
	if !p.price.Known {
		return out
	}
	spent := fiscal.InYear(runs, y, spend, fiscal.Sum)
	out.Budget = figure(out.Spend.P90)
	out.Passing = fiscal.Chance(spent, out.Budget)
	if out.AskedBudget = p.o.Budget; out.AskedBudget > 0 {
		out.PassingAsked = fiscal.Chance(spent, out.AskedBudget)
	}
	return out
}
