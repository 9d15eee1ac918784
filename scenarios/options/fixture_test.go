package options

import (
	"context"
	"strings"
	"sync"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// years of the small plant of these tests.
const years = 2

// base is the small plant made ready, once for all tests, so that they share its
// tables of courses.
var base = sync.OnceValues(func() (*study.Study, error) {
	text := strings.Replace(string(examples.Data("dunmarrow")), "horizon: 20 year", "horizon: 2 year", 1)
	f, err := facilityfile.Parse("dunmarrow.yaml", []byte(text))
	if err != nil {
		return nil, err
	}
	m := &f.Model
	always := calendar.Always()
	for i := range m.Feed.Month {
		m.Feed.Month[i] = 1
		m.Product.Demand[i] = 1000
	}
	m.Feed.Noise, m.Feed.SolidsCV, m.Chips.LeadCV = random.AR1Lognormal{}, 0, 0
	m.Feed.Growth = plant.Compound{}
	m.Vessels.Early = false
	m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = always, always, always
	m.Product.Capacity, m.Curing.Capacity = 1e5, 1e5
	m.Chips.Capacity, m.Chips.OrderUpTo, m.Chips.Reorder = 2000, 2000, 1000
	m.Screening.Settings.Capacity = 1000
	f.Planning = facilityfile.Planning{
		Target:  facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05},
		Growths: []facilityfile.GrowthScenario{{Name: "steady", Weight: 1, Growth: plant.Compound{}}},
		Priced:  true,
		Economy: facilityfile.Economy{Rates: money.Rates{Stated: 2027, Start: 2027}},
	}
	return study.New(f, 0)
})

// smallPlant is the small example with 3 vessels over two years, with all that
// varies taken out, work at all hours, and every store but the holding and the
// vessels large, so that vessels alone decide how much is treated. It is fed for
// need vessels.
func smallPlant(t *testing.T, need float64) *study.Study {
	t.Helper()
	shared, err := base()
	if err != nil {
		t.Fatal(err)
	}
	s, f := *shared, *shared.File
	s.File = &f
	p, err := s.Plant(&study.Case{})
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Feed.Base *= need / p.StaticNeed(0).Average
	return &s
}

// twoScenarios adds growth scenario "half", with half the production, believed in
// by one to three.
func twoScenarios(f *facilityfile.File) {
	steady := f.Planning.Growths[0]
	steady.Weight = 0.75
	f.Planning.Growths = []facilityfile.GrowthScenario{steady, {Name: "half", Weight: 0.25, Growth: half{}}}
}

// half is half of the production from the start.
type half struct{}

func (half) Factor(float64) float64 { return 0.5 }

// vessels is a step that adds vessels at the start.
func vessels(f *facilityfile.File, n int, cost, life float64) facilityfile.Step {
	s := facilityfile.Step{Change: plant.Change{Name: "vessels", Date: f.Model.Start, Vessels: n}}
	s.Asset = money.Asset{Cost: money.Price{Amount: cost}, Life: life}
	return s
}

// onTrigger makes a step wait until the holding is nearly full for a month.
func onTrigger(s facilityfile.Step) facilityfile.Step {
	s.Trigger = plant.Trigger{Held: 0.3, For: 30 * sim.Day}
	return s
}

func mustAsk(t *testing.T, s *study.Study, o Options) *Answer {
	t.Helper()
	a, err := Ask(context.Background(), s, answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
