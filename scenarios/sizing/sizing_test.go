package sizing

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

func ask(t *testing.T, f *facilityfile.File) *Answer {
	t.Helper()
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Ask(t.Context(), s, answer.Setup{Invented: true})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func example(t *testing.T, name string) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Parse(name, examples.Data(name))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func (a *Answer) stage(name plant.Stage) *Stage {
	i := slices.IndexFunc(a.Stages, func(s Stage) bool { return s.Name == name.String() })
	if i < 0 {
		return nil
	}
	return &a.Stages[i]
}

// Shows what years bring by hand (derived): 1,000 kg a day that grow by 100 a year, half
// as much again in August, and 50 kg of a feedstock in June alone.
func TestYearsByHand(t *testing.T) {
	f := example(t, examples.Demo)
	m := &f.Model
	m.Years = 3
	m.Feed.Base, m.Feed.Growth, m.Feed.Pulses = 1000, plant.Linear{Rate: 0.1}, nil
	for i := range m.Feed.Month {
		m.Feed.Month[i] = 1
	}
	m.Feed.Month[time.August-1] = 1.5
	m.Feedstocks = []plant.Feedstock{{Material: m.Cake, Weekday: [7]float64{1, 1, 1, 1, 1, 1, 1}}}
	m.Feedstocks[0].PerDay[time.June-1] = 50
	a := ask(t, f)
	level := m.Feed.Growth.Factor(0.5) // 1 in the mean of the first year
	for y, year := range a.Years {
		factor := func(month float64) float64 { return level + 0.1*(float64(y)+(month-0.5)/12-0.5) }
		mean := 50.0 / 12
		for month := range 12 {
			v := 1.0
			if month+1 == int(time.August) {
				v = 1.5
			}
			mean += 1000 * factor(float64(month+1)) * v / (12.5 / 12) / 12
		}
		peak := 1000 * factor(8) * 1.5 / (12.5 / 12)
		if math.Abs(year.Mean-mean) > 2e-3*mean || math.Abs(year.Peak-peak) > 2e-3*peak || year.Highest != time.August || math.Abs(year.Feedstocks-50.0/12) > 1e-9 {
			t.Errorf("%s: %.1f, %.1f in %v; by hand %.1f, %.1f in August", year.Label, year.Mean, year.Peak, year.Highest, mean, peak)
		}
	}
}

// Shows that a stage is named as short when it is (derived): half of the demand that the
// first year's product asks for, a pad with a hundredth of its room, one vessel; that it is
// named first; and that what a store carries over the seasons is not held against a month.
func TestShortStageIsNamed(t *testing.T) {
	plain := ask(t, example(t, examples.Demo))
	if s := plain.stage(plant.AtDemand); s == nil || s.PassedByMean != Never || s.PassedByPeak != Never {
		t.Fatalf("demand of the demo: %+v", s)
	}
	for _, c := range []struct {
		stage  plant.Stage
		change func(*plant.Model)
		season bool
	}{
		{plant.AtDemand, func(m *plant.Model) {
			for i := range m.Product.Demand {
				m.Product.Demand[i] *= 0.97 * plain.Years[0].Mean / plain.stage(plant.AtDemand).first()
			}
		}, true},
		{plant.AtPad, func(m *plant.Model) { m.Curing.Capacity /= 100 }, false},
		{plant.AtVessels, func(m *plant.Model) { m.Vessels.Installed = 1 }, false},
	} {
		f := example(t, examples.Demo)
		c.change(&f.Model)
		a := ask(t, f)
		s := a.Stages[0]
		if s.Name != c.stage.String() || s.PassedByMean != 0 {
			t.Errorf("%v: first is %s, passed by the mean of year %d", c.stage, s.Name, s.PassedByMean)
		}
		if (s.PassedByPeak == Never) != c.season {
			t.Errorf("%v: passed by a month of year %d", c.stage, s.PassedByPeak)
		}
		if text := a.Headline().Plain(units.US); !strings.HasPrefix(text, "By arithmetic alone "+s.Name) || !strings.Contains(text, "already the mean of 2027") {
			t.Errorf("%v: %s", c.stage, text)
		}
	}
}

// Shows that months whose loads do not comply are told: with two of chips the demo's
// January loads do not hold enough air (as `cycle` has it).
func TestFailingMonthsAreTold(t *testing.T) {
	if a := ask(t, example(t, examples.Demo)); len(a.Seasons) > 0 {
		t.Errorf("the demo fails in %+v", a.Seasons)
	}
	f := example(t, examples.Demo)
	f.Model.Recipe.ChipsPerCake = 2
	a := ask(t, f)
	if len(a.Seasons) == 0 || a.Seasons[0].Month != time.January || !slices.Contains(a.Seasons[0].Unmet, "air throughout the load") {
		t.Fatalf("%+v", a.Seasons)
	}
	if text := rendertest.Text(t, a.Document(), units.US); !strings.Contains(text, "loamcast cycle --month jan") {
		t.Errorf("January is not told:\n%s", text)
	}
}

// Shows that arithmetic before a run says what `run` says of the same stages from the loads
// that it has made, on all built-in plants: to 2 % of vessels, mixer and screen, to 8 % of
// what depends on how long lots lie in each season and on which chips are bought when.
func TestAgreesWithRun(t *testing.T) {
	if testing.Short() {
		t.Skip("runs every built-in plant; the round without -short has it")
	}
	for _, name := range examples.Names() {
		f := example(t, name)
		f.Model.Years, f.Replications = 2, 3
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		run, err := simulate.Ask(t.Context(), s, answer.Setup{}, simulate.Options{})
		if err != nil {
			t.Fatal(err)
		}
		a := ask(t, f)
		year := run.Capacities[1]
		for y := range run.Years { // the handbook's estimate is that of a run
			if short := run.Years[y].StaticPeak > float64(run.Years[y].Installed); short != (a.Handbook <= y) {
				t.Errorf("%s: the handbook's vessels are short in year %d: %v by the run, from year %d on by arithmetic", name, y, short, a.Handbook)
			}
		}
		if got := a.Years[1].Mean; math.Abs(got-year.Arrived.P50) > 0.03*got {
			t.Errorf("%s: %.1f kg a day arrive by arithmetic, %.1f in the run", name, got, year.Arrived.P50)
		}
		for _, want := range year.Stages {
			if want.Name == plant.AtDrying.String() {
				continue // hardly a lot is dried in these years
			}
			i := slices.IndexFunc(a.Stages, func(s Stage) bool { return s.Name == want.Name })
			if i < 0 {
				t.Errorf("%s: %s is missing", name, want.Name)
				continue
			}
			got := a.Stages[i].last()
			t.Logf("%s, %s: %.1f by arithmetic, %.1f by the run", name, want.Name, got, want.Sustains)
			within := 0.08
			if slices.Contains([]string{plant.AtVessels.String(), plant.AtMixer.String(), plant.AtScreen.String()}, want.Name) {
				within = 0.02
			}
			if math.Abs(got-want.Sustains) > within*want.Sustains {
				t.Errorf("%s, %s: %.1f by arithmetic, %.1f by the run", name, want.Name, got, want.Sustains)
			}
		}
	}
}

// Shows that an answer ends with its context.
func TestInterrupted(t *testing.T) {
	s, err := study.New(example(t, examples.Demo), 0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Ask(ctx, s, answer.Setup{}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}
