package study_test

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

func demo(t *testing.T, years int) *study.Study {
	t.Helper()
	f, err := facilityfile.Parse("demo", examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Years = years
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// total returns a sum over the months of each run.
func total(t *testing.T, s *study.Study, runs []study.Run, of func(*plant.Month) float64) []float64 {
	t.Helper()
	out, err := study.Each(context.Background(), s, runs, func(r *study.Result) (float64, error) {
		sum := 0.0
		for i := range r.Record.Months {
			sum += of(&r.Record.Months[i])
		}
		return sum, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func fed(m *plant.Month) float64  { return m.Feed.Dry }
func used(m *plant.Month) float64 { return m.Chips.Used }

// A replication meets the same production in every case, but for the order in
// which it is added up: with more vessels, with a step taken, asked for alone or
// among others.
func TestCommonRandomNumbersInEveryCase(t *testing.T) {
	s := demo(t, 2)
	step := facilityfile.Step{Change: plant.Change{Name: "pad", Date: calendar.Date{Year: 2028, Month: 1, Day: 1}, Pad: 100}}
	base := study.Case{}
	want := total(t, s, study.Runs(&base, 0, 4), fed)
	for name, c := range map[string]study.Case{
		"two vessels more": {Vessels: 2}, "a step": {Steps: []facilityfile.Step{step}}, "unlimited": {Unlimited: true},
	} {
		for i, got := range total(t, s, study.Runs(&c, 0, 4), fed) {
			if math.Abs(got/want[i]-1) > 1e-12 {
				t.Errorf("%s: replication %d meets %g kg, without it %g", name, i, got, want[i])
			}
		}
	}
	if alone := total(t, s, study.Runs(&base, 3, 1), fed); alone[0] != want[3] {
		t.Errorf("replication 3 alone meets %g kg, among others %g", alone[0], want[3])
	}
	if want[0] == want[1] {
		t.Error("two replications are the same")
	}
}

// Common random numbers make a difference between cases at least three times less
// variable than separate ones would: here the chips that the demo mixes with six
// vessels, one too few, and with eight.
func TestCommonRandomNumbersSave(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	s := demo(t, 3)
	few, more := study.Case{Vessels: -2}, study.Case{}
	const n = 16
	a, b := total(t, s, study.Runs(&few, 0, n), used), total(t, s, study.Runs(&more, 0, n), used)
	ratio := varianceRatio(a, b)
	t.Logf("variance of the difference: %.1f times less", ratio)
	if !(ratio >= 3) {
		t.Errorf("the variance of the difference is only %.2f times less", ratio)
	}
}

// varianceRatio is the variance that a difference of means would have from
// separate random numbers, over the one that it has.
func varianceRatio(a, b []float64) float64 {
	d := make([]float64, len(a))
	floats.SubTo(d, a, b)
	return (stat.Variance(a, nil) + stat.Variance(b, nil)) / stat.Variance(d, nil)
}

// Vessels come with their places, steps come after the changes of the file, and
// growth is taken as asked.
func TestCasesAlterThePlant(t *testing.T) {
	s := demo(t, 2)
	s.File.Model.Yard.Places = 8
	s.File.Model.Changes = []plant.Change{{Name: "vessel", Date: calendar.Date{Year: 2028, Month: 1, Day: 1}, Vessels: 1}}
	p, err := s.Plant(&study.Case{Vessels: 3, Steps: []facilityfile.Step{{Change: plant.Change{Name: "pad", Date: calendar.Date{Year: 2028, Month: 1, Day: 1}, Pad: 100}}}})
	if err != nil {
		t.Fatal(err)
	}
	if p.Vessels.Installed != s.File.Model.Vessels.Installed+3 || p.Yard.Places != 11 {
		t.Errorf("%d vessels on %d places", p.Vessels.Installed, p.Yard.Places)
	}
	if len(p.Changes) != 2 || p.Changes[0].Name != "vessel" || p.Changes[1].Name != "pad" {
		t.Errorf("the changes are %+v", p.Changes)
	}
	for g, scenario := range s.File.Planning.Growths {
		q, err := s.Plant(&study.Case{Growth: g})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := q.Feed.Growth.Factor(1.5), scenario.Growth.Factor(1.5); math.Abs(got-want) > 0 {
			t.Errorf("growth %q: %g after a year and a half, not %g", scenario.Name, got, want)
		}
	}
}

// A run that waits for a sign cannot begin in the middle.
func TestTriggered(t *testing.T) {
	s := demo(t, 2)
	if s.Triggered(&study.Case{}) {
		t.Error("a plant without triggers has one")
	}
	for _, trigger := range []plant.Trigger{{Held: 0.8}, {Production: 500}} {
		sign := facilityfile.Step{Change: plant.Change{Name: "more", Trigger: trigger, Vessels: 1}}
		if !s.Triggered(&study.Case{Steps: []facilityfile.Step{sign}}) {
			t.Errorf("%+v is not told apart", trigger)
		}
	}
}
