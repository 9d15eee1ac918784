package expand_test

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/digest"
	"loamcast/sim/replicate"
	"loamcast/sim/stats"
)

// How closely TestTheChanceIsRight looks, of which prices; with 200 seeds a price takes
// some minutes of two cores:
//
//	go test ./scenarios/expand -run ChanceIsRight -v -timeout 2h -chance.seeds 200 -chance.runs 400
var (
	chanceSeeds = flag.Int("chance.seeds", 2, "seeds of TestTheChanceIsRight, from -chance.first on")
	chanceFirst = flag.Uint64("chance.first", 1, "the first of the seeds")
	chanceRuns  = flag.Int("chance.runs", 12, "whole runs of a plan that say what is true of it")
)

// What is told to be the cheapest plan that keeps the target is that as often as is
// told. Of a catalogue so small that all its plans can be simulated whole, some hundred
// times each if that is asked for, these runs say which keep the target in every year and what each costs in
// the mean. The search is repeated with other seeds, which none of the runs has met. It
// is right if its first plan does not surely miss the target, by so many runs, and costs no
// more than the cheapest that surely keeps it, what the answer says being sure costs, and
// what does not matter to it. So it is nearly as often as the chances that it gave add up
// to: these are of the costs, while the target is kept as far as the range of a share that
// is 90 % sure tells.
//
// What the steps cost is such that vessels one by one are clearly the cheapest; or hardly
// cheaper than thicker cake and one vessel.
func TestTheChanceIsRight(t *testing.T) {
	const alike = 0.005 // of the present worth, within which the search does not tell plans apart
	if testing.Short() {
		t.Skip("runs in the round without -short")
	}
	f := uncertainFile(t)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	f.Planning.Catalogue = slices.DeleteFunc(f.Planning.Catalogue, func(s facilityfile.Step) bool { return s.Name == "two vessels" })
	prices := []pricing{
		{"thicker cake is dear", [3]float64{200e3, 0, 900e3}, [3]float64{0, 0, 6000}},
		{"thicker cake costs about as much", [3]float64{200e3, 0, 205e3}, [3]float64{0, 0, 6000}},
		{"thicker cake is cheap", [3]float64{200e3, 0, 10e3}, [3]float64{0, 0, 6000}},
	}
	units := stepsOf(f)
	began := time.Now()
	plans := simulatedPlans(t, s, units, prices)
	t.Logf("whole runs of %d plans took %.0f s", len(plans), time.Since(began).Seconds())
	for _, p := range plans {
		if p.runs >= *chanceRuns {
			t.Logf("%s: %.0f USD at the prices, missed in %.3f of %d runs in the worst year", datesText(p.plan), p.presents(), p.worst(), p.runs)
		}
	}
	began = time.Now()
	answers := askedUnderSeeds(t, s, prices)
	t.Logf("the searches of %d seeds took %.0f s", *chanceSeeds, time.Since(began).Seconds())
	for k, price := range prices {
		t.Run(price.name, func(t *testing.T) {
			best := math.Inf(1)
			for _, p := range plans {
				if p.surely(f, -1) && p.present(k) < best {
					best = p.present(k)
				}
			}
			if math.IsInf(best, 1) {
				t.Fatal("so few runs say of no plan that it surely keeps the target")
			}
			right, promised, broken := 0, 0.0, 0
			told := map[string]int{}
			var found []float64
			var ranges []stats.Interval
			for seed, a := range answers {
				a, first := a[k], &a[k].Plans[0]
				i := slices.IndexFunc(plans, func(p *simulated) bool { return slices.Equal(p.plan, datesOf(f, units, first)) })
				p := plans[i]
				told[datesText(p.plan)]++
				switch {
				case !p.surely(f, 1):
					broken++
				case p.present(k)-best <= max(a.Indifference, alike*best)+a.Doubt.Caution:
					right++
				default:
					t.Logf("seed %d: %s for %.0f USD, the best %.0f, being sure %.0f", *chanceFirst+uint64(seed), datesText(p.plan), p.present(k), best, a.Doubt.Caution)
				}
				promised += a.Chance
				found, ranges = append(found, first.Present.Estimate), append(ranges, a.Doubt.Range)
			}
			within, pairs := 0, 0
			for i, usd := range found {
				for j, r := range ranges {
					if i != j {
						pairs++
						if r.Low <= usd && usd <= r.High {
							within++
						}
					}
				}
			}
			t.Logf("%.0f %% of what others find is within the range told", 100*float64(within)/float64(pairs))
			t.Logf("right in %d of %d, promised %.1f; the target is missed in %d; told %v", right, *chanceSeeds, promised, broken, told)
			b := distuv.Binomial{N: float64(*chanceSeeds), P: capability.Sureness * promised / float64(*chanceSeeds)}
			if b.CDF(float64(right)) < 0.01 {
				t.Errorf("right in %d of %d; by the chances given it should be in %.1f", right, *chanceSeeds, promised)
			}
		})
	}
}

// askedUnderSeeds asks for the cheapest plan under each seed at each of some prices: seeds
// side by side, and prices one after the other, each of which is lent what was found
// at those before it of what the plant carries.
func askedUnderSeeds(t *testing.T, s *study.Study, prices []pricing) [][]*expand.Answer {
	t.Helper()
	out, err := replicate.Run(t.Context(), *chanceSeeds, 2, func(ctx context.Context, i int) ([]*expand.Answer, error) {
		var out []*expand.Answer
		var before *study.Study
		runs := &remembered{left: map[digest.Sum]plant.Played{}}
		for _, price := range prices {
			f := *s.File
			f.Seed = *chanceFirst + uint64(i)
			f.Planning.Catalogue = price.of(f.Planning.Catalogue)
			f.Planning.Target.MissShare = mayMiss(f.Seed)
			one, err := s.For(&f)
			if err != nil {
				return nil, err
			}
			one.KeepRuns(runs)
			if before != nil {
				if err := capability.Lend(ctx, before, one, capability.Replications); err != nil {
					return nil, err
				}
			}
			a, err := expand.Ask(ctx, one, answer.Setup{}, expand.Options{Replications: expand.DefaultReplications})
			if err != nil {
				return nil, err
			}
			if !a.Keeps() || a.Doubt == nil {
				return nil, fmt.Errorf("seed %d, %s: no plan keeps the target", f.Seed, price.name)
			}
			t.Logf("seed %d, %.3f may miss, %s: %s, keeps %.3f, stays %.3f, rival %+v, chance %.3f, being sure %.0f, indifferent %.0f", f.Seed, mayMiss(f.Seed), price.name,
				datesText(datesOf(&f, stepsOf(&f), &a.Plans[0])), a.Doubt.Keeps, a.Doubt.Stays, a.Doubt.Rival, a.Chance, a.Doubt.Caution, a.Indifference)
			out, before = append(out, a), one
		}
		return out, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// remembered are runs that another pricing has asked for: prices change none.
type remembered struct {
	mu   sync.Mutex
	left map[digest.Sum]plant.Played
}

// Recall returns what a run has left.
func (r *remembered) Recall(run digest.Sum) (plant.Played, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	left, ok := r.left[run]
	return left, ok
}

// Keep remembers it.
func (r *remembered) Keep(run digest.Sum, left plant.Played) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.left[run] = left
}

// mayMiss is the share of runs that may miss under a seed: by the golden section, as
// even as can be over 8 to 32 %.
func mayMiss(seed uint64) float64 {
	_, part := math.Modf(float64(seed) * 0.6180339887498949)
	return 0.08 + 0.24*part
}

// uncertainFile is the small file in which production rises less, and not evenly, and
// what chips cost and how long a vessel stands empty is not known.
func uncertainFile(t *testing.T) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(
		"dry_per_day: 600 kg/day", "dry_per_day: 640 kg/day\n  day_to_day: {variation: 20 %, correlation: 0.9}",
		"{linear: 16.6666667 %/year}", "{linear: 7 %/year}",
	).Replace(string(data)) + `
uncertain:
  - {input: vessels.turnaround, triangular: [1.6 day, 2 day, 2.6 day]}
  - {input: chips.price, lognormal: {mean: 20 USD/m3, variation: 25 %}}
`
	f, err := facilityfile.Parse("uncertain.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

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
func (p *simulated) surely(f *facilityfile.File, times float64) bool {
	may := f.Planning.Target.MissShare
	return p.worst() <= may+times*1.645*math.Sqrt(may*(1-may)/float64(p.runs))
}

// simulatedPlans simulates all ways to date the units a few times, and those that may be
// the cheapest that keeps the target often.
func simulatedPlans(t *testing.T, s *study.Study, units []int, prices []pricing) []*simulated {
	t.Helper()
	const few, slack = 40, 0.2
	f := s.File
	var plans []*simulated
	for _, dates := range dated(units, f.Model.Years) {
		plans = append(plans, &simulated{plan: dates, missed: make([]int, f.Model.Years), worth: make([]float64, len(prices))})
	}
	for _, p := range plans {
		p.simulate(t, s, units, prices, min(few, *chanceRuns))
	}
	for k := range prices {
		perhaps := slices.DeleteFunc(slices.Clone(plans), func(p *simulated) bool { return p.worst() > f.Planning.Target.MissShare+slack })
		for _, p := range cheapest(perhaps, k, 10) {
			p.simulate(t, s, units, prices, *chanceRuns)
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
