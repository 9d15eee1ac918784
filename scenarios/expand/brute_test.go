package expand_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// every is one way to date the steps of a catalogue: for each unit the year of the
// horizon from whose start it is in service, or the number of years for never.
type every []int

// pricing is what the steps of the small catalogue cost, in its order.
type pricing struct {
	name          string
	cost, running [3]float64 // USD and USD/year
}

// tried is what the simulation of a whole plan says.
type tried struct {
	keeps   bool
	present []float64 // by pricing
}

// The search finds the plan that trying all of them finds: with the noise off, all
// ways to date two single vessels, a pair of vessels and thicker cake over four
// years, every one of them simulated whole and costed. What the steps cost decides
// what is best: vessels one by one; both at once; thicker cake before a vessel,
// each just in time; and thicker cake from the first day on, since it saves more
// chips than it costs.
func TestBestOfAllPlans(t *testing.T) {
	s, _ := smallStudy(t)
	bestOfAllPlans(t, s)
}

// The same where the file itself adds vessels after years that are missed without
// a plan: what is built for these years is built, and no more.
func TestBestOfAllPlansWithARescue(t *testing.T) {
	s, f := smallStudy(t)
	f.Model.Feed.Base *= 1.25
	f.Model.Changes = []plant.Change{{Name: "the file's own", Date: f.Model.Start.AddYears(2), Vessels: 3}}
	bestOfAllPlans(t, s)
}

func bestOfAllPlans(t *testing.T, s *study.Study) {
	f := s.File
	prices := []pricing{
		{"thicker cake is dear", [3]float64{200e3, 370e3, 900e3}, [3]float64{0, 0, 6000}},
		{"two vessels are cheap", [3]float64{200e3, 230e3, 300e3}, [3]float64{0, 0, 6000}},
		{"thicker cake is cheap", [3]float64{200e3, 370e3, 10e3}, [3]float64{0, 0, 6000}},
		{"thicker cake pays for itself", [3]float64{200e3, 370e3, 10e3}, [3]float64{0, 0, 0}},
	}
	all := stepsOf(f)
	plans := dated(all, f.Model.Years)
	runs := tryAll(t, s, all, plans, prices)
	for k, price := range prices {
		t.Run(price.name, func(t *testing.T) {
			best, at := math.Inf(1), every(nil)
			for i, r := range runs {
				if r.keeps && r.present[k] < best {
					best, at = r.present[k], plans[i]
				}
			}
			f.Planning.Catalogue = price.of(f.Planning.Catalogue)
			a := find(t, s, expand.Options{})
			first := &a.Plans[0]
			if !a.Keeps() || math.Abs(first.Present.Estimate-best) > 1e-6*math.Abs(best) {
				t.Errorf("found %+v for %.0f USD; of %d plans the best is %v for %.0f USD", first.Steps, first.Present.Estimate, len(plans), at, best)
			}
			t.Logf("best of %d plans: %v, %.0f USD; %d of %d configurations simulated", len(plans), at, best, a.Simulated, a.Configurations)
		})
	}
}

// of returns steps at these prices.
func (p pricing) of(steps []facilityfile.Step) []facilityfile.Step {
	out := slices.Clone(steps)
	for i := range out {
		at := slices.Index([]string{"one vessel", "two vessels", "thicker cake"}, out[i].Name)
		out[i].Asset.Cost.Amount, out[i].Asset.Running.Amount = p.cost[at], p.running[at]
	}
	return out
}

// stepsOf lists the steps of the catalogue, each as often as it may be taken.
func stepsOf(f *facilityfile.File) []int {
	var out []int
	for i, s := range f.Planning.Catalogue {
		for range s.Most {
			out = append(out, i)
		}
	}
	return out
}

// dated lists all ways to date units; of equal ones the later listed comes no
// earlier.
func dated(units []int, years int) []every {
	out := []every{nil}
	for i := range units {
		var longer []every
		for _, plan := range out {
			from := 0
			if i > 0 && units[i] == units[i-1] {
				from = plan[i-1]
			}
			for y := from; y <= years; y++ {
				longer = append(longer, append(append(every{}, plan...), y))
			}
		}
		out = longer
	}
	return out
}

// tryAll simulates each plan once, and costs it at all prices.
func tryAll(t *testing.T, s *study.Study, units []int, plans []every, prices []pricing) []tried {
	t.Helper()
	f := s.File
	var runs []study.Run
	for _, plan := range plans {
		c := &study.Case{}
		for i, year := range plan {
			if year == f.Model.Years {
				continue
			}
			step := f.Planning.Catalogue[units[i]]
			step.Date = step.Lead.Before(f.Model.Start.AddYears(year))
			c.Steps = append(c.Steps, step)
		}
		runs = append(runs, study.Run{Case: c})
	}
	out, err := study.Each(context.Background(), s, runs, func(r *study.Result) (tried, error) {
		out := tried{keeps: keeps(f, r.Record.Months)}
		for _, price := range prices {
			priced := *r
			priced.Case = &study.Case{Steps: price.of(r.Case.Steps)}
			plan, err := costs.Plan(&f.Planning, &priced)
			if err != nil {
				return tried{}, err
			}
			out.present = append(out.present, plan.Cost().Present)
		}
		return out, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func keeps(f *facilityfile.File, months []plant.Month) bool {
	for ; len(months) > 0; months = months[12:] {
		if f.Planning.Target.Missed(months[:12]) {
			return false
		}
	}
	return true
}
