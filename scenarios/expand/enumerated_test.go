package expand_test

import (
	"cmp"
	"context"
	"math"
	"slices"
	"testing"

	"loamcast/scenarios/costs"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// simulated is a plan with what its whole runs say.
type simulated struct {
	plan   every
	runs   int
	missed []int     // by year
	worth  []float64 // by pricing, the sum over the runs
}

func (p *simulated) present(price int) float64 { return p.worth[price] / float64(p.runs) }

// presents are the mean present worths by pricing.
func (p *simulated) presents() (out []float64) {
	for price := range p.worth {
		out = append(out, p.present(price))
	}
	return out
}

// worst is the share of the runs that miss the year that most miss.
func (p *simulated) worst() float64 { return float64(slices.Max(p.missed)) / float64(p.runs) }

// surely reports whether the worst year is missed in no more of the runs than may, and
// so many times 1.645 standard errors more.
func (p *simulated) surely(may, times float64) bool {
	return p.worst() <= may+times*1.645*math.Sqrt(may*(1-may)/float64(p.runs))
}

// simulatedPlans simulates all ways to date the units a few times, and those that may be
// the cheapest that keeps the target often.
func simulatedPlans(t *testing.T, s *study.Study, units []int, prices []pricing) []*simulated {
	t.Helper()
	const few, slack, several = 40, 0.1, 4
	f := s.File
	var plans []*simulated
	for _, dates := range dated(units, f.Model.Years) {
		plans = append(plans, &simulated{plan: dates, missed: make([]int, f.Model.Years), worth: make([]float64, len(prices))})
	}
	for _, p := range plans {
		p.simulate(t, s, units, prices, min(few, *chanceRuns))
	}
	for k := range prices {
		for _, may := range []float64{fewestMay, (fewestMay + mostMay) / 2, mostMay} {
			perhaps := slices.DeleteFunc(slices.Clone(plans), func(p *simulated) bool { return p.worst() > may+slack })
			for _, p := range cheapest(perhaps, k, several) {
				p.simulate(t, s, units, prices, *chanceRuns)
			}
		}
	}
	return plans
}

// cheapest returns some plans, the cheapest first.
func cheapest(plans []*simulated, price, n int) []*simulated {
	sorted := slices.SortedStableFunc(slices.Values(plans), func(a, b *simulated) int { return cmp.Compare(a.present(price), b.present(price)) })
	return sorted[:min(n, len(sorted))]
}

// simulate adds runs up to so many.
func (p *simulated) simulate(t *testing.T, s *study.Study, units []int, prices []pricing, n int) {
	t.Helper()
	const unmet = 10000 // the first of the replications
	f := s.File
	c := &study.Case{}
	for i, year := range p.plan {
		if year < f.Model.Years {
			step := f.Planning.Catalogue[units[i]]
			step.Date = step.Lead.Before(f.Model.Start.AddYears(year))
			c.Steps = append(c.Steps, step)
		}
	}
	type outcome struct {
		missed  []bool
		present []float64
	}
	found, err := study.Each(context.Background(), s, study.Runs(c, unmet+p.runs, max(0, n-p.runs)), func(r *study.Result) (out outcome, err error) {
		for months := range slices.Chunk(r.Record.Months, 12) {
			out.missed = append(out.missed, f.Planning.Target.Missed(months))
		}
		for _, price := range prices {
			priced := *r
			priced.Case = &study.Case{Steps: price.of(r.Case.Steps)}
			plan, err := costs.Plan(&f.Planning, &priced)
			if err != nil {
				return out, err
			}
			out.present = append(out.present, plan.Cost().Present)
		}
		return out, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, out := range found {
		p.runs++
		for y, missed := range out.missed {
			if missed {
				p.missed[y]++
			}
		}
		for k, usd := range out.present {
			p.worth[k] += usd
		}
	}
}

// datesOf returns a plan found as its dates.
func datesOf(f *facilityfile.File, units []int, p *expand.Plan) every {
	out := make(every, len(units))
	for i := range out {
		out[i] = f.Model.Years
	}
	for _, step := range p.Steps {
		for range step.Count {
			for i, unit := range units {
				if f.Planning.Catalogue[unit].Name == step.Name && out[i] == f.Model.Years {
					out[i] = step.Year
					break
				}
			}
		}
	}
	return out
}

func datesText(p every) string {
	out := ""
	for _, year := range p {
		out += string(rune('0' + year))
	}
	return out
}
