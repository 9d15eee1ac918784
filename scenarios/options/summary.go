package options

import (
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// summarise fills in what each choice costs and does; worth is the present worth
// by choice and replication.
func (c *comparison) summarise(a *Answer, worth [][]float64) error {
	asIs, first := worth[0], worth[a.Order[0]]
	for i := range a.Choices {
		ch := &a.Choices[i]
		var err error
		if ch.All, err = c.all(i, worth[i]); err != nil {
			return err
		}
		ch.All.Keeps = ch.Service.Keeps
		for g := range c.file.Planning.Growths {
			s, err := c.underGrowth(i, g)
			if err != nil {
				return err
			}
			ch.Growths = append(ch.Growths, s)
		}
		if ch.OverAsIs, err = stats.PairedMean(worth[i], asIs, level); err != nil {
			return err
		}
		if ch.OverFirst, err = stats.PairedMean(worth[i], first, level); err != nil {
			return err
		}
		ch.Steps = c.steps(i)
	}
	c.regrets(a)
	return nil
}

// all summarises a choice over the growth scenarios.
func (c *comparison) all(choice int, worth []float64) (Summary, error) {
	n := c.replications()
	var xs, weights []float64
	for g, runs := range c.runs[choice] {
		for j := range runs {
			xs = append(xs, runs[j].cost.Present)
			weights = append(weights, c.file.Planning.Growths[g].Weight/float64(n))
		}
	}
	return summary(worth, xs, weights, func(of func(*outcome) float64) float64 { return mean(c.weighted(choice, of)) })
}

// underGrowth summarises a choice under one growth scenario.
func (c *comparison) underGrowth(choice, growth int) (Summary, error) {
	runs := c.runs[choice][growth]
	each := func(of func(*outcome) float64) []float64 {
		xs := make([]float64, len(runs))
		for j := range runs {
			xs[j] = of(&runs[j])
		}
		return xs
	}
	xs := each(presentWorth)
	s, err := summary(xs, xs, nil, func(of func(*outcome) float64) float64 { return mean(each(of)) })
	s.Keeps = true
	for y := range c.file.Model.Years {
		missed := mean(each(func(o *outcome) float64 { return oneIf(o.missed[y]) }))
		s.Keeps = s.Keeps && missed <= c.file.Planning.Target.MissShare+rounding
	}
	return s, err
}

// summary makes a summary from the present worths of independent replications,
// for their mean; those of all runs with their weights, for their spread; and the
// mean of any other number of the runs.
func summary(worth, all, weights []float64, mean func(of func(*outcome) float64) float64) (Summary, error) {
	present, err := stats.MeanInterval(worth, level)
	if err != nil {
		return Summary{}, err
	}
	s := Summary{
		Present:     present,
		Low:         weightedQuantile(all, weights, 0.1),
		High:        weightedQuantile(all, weights, 0.9),
		Annual:      mean(func(o *outcome) float64 { return o.cost.Annual }),
		PerDry:      mean(func(o *outcome) float64 { return o.cost.PerDry }),
		Diverted:    mean(func(o *outcome) float64 { return o.untreated }),
		HoursOver:   mean(func(o *outcome) float64 { return o.over }),
		YearsMissed: mean(func(o *outcome) float64 { return float64(yearsMissed(o)) }),
	}
	if fed := mean(func(o *outcome) float64 { return o.fed }); fed > 0 {
		s.Share = s.Diverted / fed
	}
	for _, part := range money.Parts() {
		s.ByPart[part] = mean(func(o *outcome) float64 { return o.cost.ByPart[part] })
	}
	return s, nil
}

func yearsMissed(o *outcome) int {
	n := 0
	for _, missed := range o.missed {
		if missed {
			n++
		}
	}
	return n
}

// regrets compares the choices within each growth scenario.
func (c *comparison) regrets(a *Answer) {
	for g, growth := range c.file.Planning.Growths {
		best := math.Inf(1)
		for i := range a.Choices {
			best = min(best, a.Choices[i].Growths[g].Present.Estimate)
		}
		for i := range a.Choices {
			ch := &a.Choices[i]
			regret := ch.Growths[g].Present.Estimate - best
			ch.Growths[g].Regret = regret
			ch.Regret += growth.Weight * regret
			ch.WorstRegret = max(ch.WorstRegret, regret)
		}
	}
}

// steps says how often and when the steps of an option were taken.
func (c *comparison) steps(choice int) []Step {
	var out []Step
	for i, step := range c.cases[choice][0].Steps {
		var at, weights []float64
		s := Step{Name: step.Name}
		for g, runs := range c.runs[choice] {
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

// describe adds what the answer is about.
func (c *comparison) describe(a *Answer, o Setup) {
	f := c.file
	rates := f.Planning.Economy.Rates
	if c.discount != nil {
		rates.Discount = *c.discount
	}
	a.Facility, a.Source, a.Version, a.Invented = f.Name, o.Source, o.Version, o.Invented
	a.Seed, a.Start = f.Seed, f.Model.Start
	a.Stated, a.Real = rates.Stated, rates.RealDiscount()
	_, a.AirKept = f.Model.Air.Limit()
	a.Most, a.Runs = c.most, a.Replications*len(c.cases)*len(c.cases[0])
	for _, g := range f.Planning.Growths {
		a.Growths = append(a.Growths, Growth{Name: g.Name, Weight: g.Weight})
	}
	for y := range f.Model.Years {
		a.Years = append(a.Years, yearLabel(f.Model.Start.AddYears(y)))
	}
}

// yearLabel names a year by the day on which it begins.
func yearLabel(from calendar.Date) string {
	if from.Month == time.January {
		return fmt.Sprint(from.Year)
	}
	return fmt.Sprintf("%d/%02d", from.Year, (from.Year+1)%100)
}

func mean(xs []float64) float64 { return stat.Mean(xs, nil) }

// weightedQuantile returns the least x such that a share q of the weight is at or
// below it. No weights means equal ones.
func weightedQuantile(xs, weights []float64, q float64) float64 {
	if weights == nil {
		return stats.Quantile(xs, q)
	}
	order := make([]int, len(xs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case xs[i] < xs[j]:
			return -1
		case xs[i] > xs[j]:
			return 1
		}
		return 0
	})
	total, below := 0.0, 0.0
	for _, w := range weights {
		total += w
	}
	for _, i := range order {
		if below += weights[i]; below >= q*total-rounding {
			return xs[i]
		}
	}
	return xs[order[len(order)-1]]
}
