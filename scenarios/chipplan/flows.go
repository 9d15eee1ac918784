package chipplan

import (
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/sim/stats"
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

// flows puts those of a month or year into a plan, and returns what is kept of the spend.
func flows(t fiscal.Tally[facts], into *Flows, in fiscal.Time[facts]) *stats.Sample {
	t.Over(&into.Bought, in(bought, fiscal.Sum))
	t.Over(&into.Truckloads, in(truckloads, fiscal.Sum))
	t.Over(&into.Used, in(used, fiscal.Sum))
	t.Over(&into.FreshUsed, in(freshUsed, fiscal.Sum))
	t.Over(&into.Recovered, in(recovered, fiscal.Sum))
	t.Over(&into.Lost, in(lost, fiscal.Sum))
	t.Over(&into.Media, in(media, fiscal.Sum))
	t.Over(&into.StorePeak, in(peak, fiscal.Most))
	t.Over(&into.StoreEnd, in(end, fiscal.End))
	t.Over(&into.HoursShort, in(hoursShort, fiscal.Sum))
	t.Chance(&into.StockOut, 0, in(hoursShort, fiscal.Sum))
	return t.Over(&into.Spend, in(spend, fiscal.Sum))
}

// year puts a fiscal year into a plan, and sets its budget.
func (p *planner) year(t fiscal.Tally[facts], into *Year, y int, label string) {
	into.Label = label
	in := fiscal.InYear[facts](y)
	spent := flows(t, &into.Flows, in)
	if !p.price.Known {
		return
	}
	t.Last(func() { into.Budget, into.Passing = budget(into.Spend, spent) })
	if into.AskedBudget = p.o.Budget; into.AskedBudget > 0 {
		t.Chance(&into.PassingAsked, into.AskedBudget, in(spend, fiscal.Sum))
	}
}
