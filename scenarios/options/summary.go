package options

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// summarise fills in what each choice costs and does.
func (c *comparison) summarise(a *Answer) error {
	for i := range a.Choices {
		ch := &a.Choices[i]
		for g := range c.file.Planning.Growths {
			s, err := c.summary(i, a.Order[0], []int{g})
			if err != nil {
				return err
			}
			ch.Growths = append(ch.Growths, s)
		}
		var err error
		if ch.All, err = c.summary(i, a.Order[0], c.everywhere()); err != nil {
			return err
		}
		ch.Steps = c.steps(i)
	}
	a.regrets()
	return nil
}

// summary describes a choice under some growth scenarios, beside the first ranked.
func (c *comparison) summary(choice, first int, growths []int) (Summary, error) {
	average := func(of func(*outcome) float64) float64 { return mean(c.each(choice, growths, of)) }
	costs := func(of func(*outcome) float64) float64 { // of the replications compared
		return c.expected(choice, first, growths, of)
	}
	s := Summary{
		Annual:      costs(func(o *outcome) float64 { return o.cost.Annual }),
		PerDry:      costs(func(o *outcome) float64 { return o.cost.PerDry }),
		Diverted:    average(func(o *outcome) float64 { return o.untreated }),
		Contract:    average(func(o *outcome) float64 { return o.contract }),
		HoursOver:   average(func(o *outcome) float64 { return o.over }),
		WaitedAlone: average(func(o *outcome) float64 { return o.waitedAlone }),
	}
	service, err := c.service(choice, growths)
	if err != nil {
		return s, err
	}
	s.Keeps, s.YearsMissed = service.Keeps, service.YearsMissed
	if fed := average(func(o *outcome) float64 { return o.fed }); fed > 0 {
		s.Share, s.ContractShare = s.Diverted/fed, s.Contract/fed
	}
	for _, part := range money.Parts() {
		s.ByPart[part] = costs(func(o *outcome) float64 { return o.cost.ByPart[part] })
	}
	worth := c.worth(choice, growths)
	if s.Present, err = stats.MeanInterval(worth, level); err != nil {
		return s, err
	}
	luck := s.Present.Estimate - costs(presentWorth)
	s.Present = moved(s.Present, costs(presentWorth))
	s.Low, s.High = c.quantile(choice, growths, 0.1)-luck, c.quantile(choice, growths, 0.9)-luck
	base := c.worth(asIs, growths)
	if s.OverAsIs, err = stats.PairedMean(worth, base[:len(worth)], level); err != nil {
		return s, err
	}
	s.OverAsIs = moved(s.OverAsIs, costs(presentWorth)-mean(base))
	s.OverFirst, err = stats.PairedMean(worth, c.worth(first, growths)[:len(worth)], level)
	return s, err
}

// moved moves an interval to another estimate.
func moved(i stats.Interval, estimate float64) stats.Interval {
	by := estimate - i.Estimate
	return stats.Interval{Estimate: estimate, Low: i.Low + by, High: i.High + by, Level: i.Level}
}

// quantile returns a quantile of the present worth over the runs compared.
func (c *comparison) quantile(choice int, growths []int, q float64) float64 {
	var xs, weights []float64
	for i, w := range c.shares(growths) {
		for j := range min(c.replications(choice), c.compared()) {
			xs = append(xs, c.runs[choice][growths[i]][j].cost.Present)
			weights = append(weights, w)
		}
	}
	return weightedQuantile(xs, weights, q)
}

func presentWorth(o *outcome) float64 { return o.cost.Present }

// missed counts the runs that miss the target in year y.
func missed(y int) func(*outcome) float64 {
	return func(o *outcome) float64 {
		if o.missed[y] {
			return 1
		}
		return 0
	}
}

// steps says how often and when the steps of an option were taken.
func (c *comparison) steps(choice int) []Step {
	var out []Step
	for i, step := range c.cases[choice][0].Steps {
		var at, weights []float64
		s := Step{Name: step.Name, Brings: step.Brings(&c.file.Model.Vessels), Triggered: step.Trigger.Waits()}
		for g := range c.cases[choice] {
			runs := c.under(choice, g)
			w := c.file.Planning.Growths[g].Weight / float64(len(runs))
			for j := range runs {
				if years := runs[j].inService[i]; !math.IsNaN(years) {
					at, weights = append(at, years), append(weights, w)
					s.Taken += w
				}
			}
		}
		if len(at) > 0 {
			s.InService = dateAfter(c.file.Model.Start, weightedQuantile(at, weights, 0.5))
		}
		out = append(out, s)
	}
	return out
}

// dateAfter returns the day so many years after a date.
func dateAfter(from calendar.Date, years float64) calendar.Date {
	whole := math.Floor(years)
	since := from.AddYears(int(whole))
	length := since.DaysUntil(from.AddYears(int(whole) + 1))
	return since.AddDays(int(math.Round((years - whole) * float64(length))))
}

// describe adds what the answer rests on.
func (c *comparison) describe(a *Answer) {
	rates := c.file.Planning.Economy.Rates
	if c.discount != nil {
		rates.Discount = *c.discount
	}
	a.Stated, a.Real = rates.Stated, rates.RealDiscount()
	_, a.AirKept = c.file.Model.Air.Limit()
	a.Most, a.Runs = c.most, c.total()
	a.reckoning = c.reckoning(a)
}

func mean(xs []float64) float64 { return stat.Mean(xs, nil) }

// weightedQuantile returns the least x such that a share q of the weight is at or
// below it.
func weightedQuantile(xs, weights []float64, q float64) float64 {
	stat.SortWeighted(xs, weights)
	return stat.Quantile(q, stat.Empirical, xs, weights)
}
