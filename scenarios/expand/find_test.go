package expand_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/stats"
)

// A plant that lasts as it is needs nothing built, and no other plan is proposed:
// whatever is added, it can be left out.
func TestNothingNeeded(t *testing.T) {
	s, f := smallStudy(t)
	f.Planning.Growths[0].Growth = plant.Compound{}
	a := find(t, s, expand.Options{})
	if !a.Keeps() || len(a.Plans) != 1 || len(a.Plans[0].Steps) != 0 || !a.AsItIs() || a.AsIsMissed != a.Horizon {
		t.Errorf("kept through %d as it is; plans %+v", a.AsIs, a.Plans)
	}
	if a.Chance != 1 || !a.Settled {
		t.Errorf("chance %v of the only plan", a.Chance)
	}
}

// Where the catalogue does not help, the answer says how far the plant comes, by
// how much the catalogue helps, and what is short. With 8 vessels of 100 kg/day
// and production of 850 in the mean of the third year, no pad helps; one vessel
// helps through that year, not through the next with its 950.
func TestNothingKeeps(t *testing.T) {
	s, f := smallStudy(t)
	vessel, pad := f.Planning.Catalogue[0], f.Planning.Catalogue[0]
	vessel.Most = 1
	pad.Name, pad.Vessels, pad.Pad = "pad", 0, 500
	f.Planning.Catalogue = []facilityfile.Step{pad}
	a := find(t, s, expand.Options{})
	if a.Keeps() || a.Through != 1 || a.AsIs != 1 || a.AsIsMissed != 2 || len(a.Plans) != 1 || len(a.Plans[0].Steps) != 0 || a.Short.Waits != plant.NoVessel {
		t.Errorf("with a pad through %d (as it is %d, missed from %d), short of %v, %d plans, %d steps", a.Through, a.AsIs, a.AsIsMissed, a.Short, len(a.Plans), len(a.Plans[0].Steps))
	}
	f.Planning.Catalogue = []facilityfile.Step{pad, vessel}
	a = find(t, s, expand.Options{})
	if a.Keeps() || a.Through != 2 || len(a.Plans) != 1 || a.Short.Waits != plant.NoVessel {
		t.Fatalf("with a vessel through %d, short of %v, plans %+v", a.Through, a.Short, a.Plans)
	}
	if steps := a.Plans[0].Steps; len(steps) != 1 || steps[0].Name != "one vessel" || steps[0].Year != 2 {
		t.Errorf("built is %+v", steps)
	}
	// Not even the first year: twice the production. Nor where years are told by runs, of
	// which then none is left to judge: what the plan costs is known all the same.
	twice := *f
	s.File = &twice
	twice.Model.Feed.Base *= 2
	a = find(t, s, expand.Options{})
	if a.Keeps() || a.Through != -1 || a.AsIs != -1 || a.AsIsMissed != 0 || len(a.Plans) != 1 || len(a.Plans[0].Steps) != 0 || a.Short.Waits != plant.NoVessel {
		t.Errorf("twice the production: through %d (as it is %d, missed from %d), short of %v, %d plans, %d steps", a.Through, a.AsIs, a.AsIsMissed, a.Short, len(a.Plans), len(a.Plans[0].Steps))
	}
	twice.Model.Feed.Pulses = []plant.Pulse{{From: twice.Model.Start.AddYears(1), Days: 10, PerDay: 50}}
	pulsed := find(t, s, expand.Options{})
	if pulsed.Through != -1 || len(pulsed.Plans) != 1 || pulsed.Plans[0].Present.Estimate <= 0 {
		t.Errorf("with a pulse: through %d, plans %+v", pulsed.Through, pulsed.Plans)
	}
	for _, answer := range []*expand.Answer{a, pulsed} {
		if v := answer.Plans[0].Verdict; v != stats.Above {
			t.Errorf("the verdict on a plan that keeps no year is %v", v)
		}
	}
}

// No plan has more vessels than there is room for; where the file does not say
// what there is room for, there is room for the catalogue.
func TestRoom(t *testing.T) {
	s, f := smallStudy(t)
	f.Planning.RoomFor = 9
	f.Planning.Catalogue = f.Planning.Catalogue[:2]
	if a := find(t, s, expand.Options{}); a.Keeps() || a.Through != 2 {
		t.Errorf("with room for 9 vessels kept through %d", a.Through)
	}
	f.Planning.RoomFor = f.Model.Vessels.Installed
	if a := find(t, s, expand.Options{}); !a.Keeps() {
		t.Errorf("with room for what the catalogue has kept through %d only", a.Through)
	}
}

// A step that must be ordered before the start is late. 400 days are longer than
// the year that is left when vessels run short in the second.
func TestLate(t *testing.T) {
	s, f := smallStudy(t)
	f.Model.Feed.Base = 700
	f.Planning.Catalogue = f.Planning.Catalogue[1:2]
	f.Planning.Catalogue[0].Most = 2
	steps := find(t, s, expand.Options{}).Plans[0].Steps
	if len(steps) != 2 || !steps[0].Late || steps[0].Year != 1 || steps[1].Late || steps[1].Year != 3 {
		t.Errorf("steps %+v", steps)
	}
}

// The answer does not depend on the number of workers, with noise and with what is
// not known for sure; and it keeps what it promises: the first plans are judged,
// and each costs no less than the first.
func TestWorkersDoNotMatter(t *testing.T) {
	s, f := smallStudy(t)
	f.Model.Feed.Noise.CV = 0.15
	s.Workers = 1
	one := find(t, s, expand.Options{Replications: 24})
	s.Workers = 2
	two := find(t, s, expand.Options{Replications: 24})
	if !reflect.DeepEqual(one, two) {
		t.Errorf("1 worker: %+v\n2 workers: %+v", one, two)
	}
	if len(one.Plans) < 2 || one.Plans[0].Verdict != stats.Below || one.Plans[1].Verdict != stats.Below {
		t.Fatalf("plans %+v", one.Plans)
	}
	for _, p := range one.Plans[1:] {
		if p.OverFirst.Estimate < 0 || p.OverFirst.Low > p.OverFirst.Estimate || p.OverFirst.High < p.OverFirst.Estimate || len(p.Steps) == 0 {
			t.Errorf("plan %+v", p)
		}
	}
}

// A file without prices, without a catalogue, with one that is too long, or without
// the growth scenario asked for, is refused with what would be right.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		alter  func(*facilityfile.File)
		growth string
		want   string
	}{
		{func(f *facilityfile.File) { f.Planning.Priced = false }, "", "write a group money:"},
		{func(f *facilityfile.File) { f.Planning.Catalogue = nil }, "", "write catalogue:"},
		{func(f *facilityfile.File) { f.Planning.Catalogue[0].Most = 5000 }, "", "more than 4000 ways"},
		{func(*facilityfile.File) {}, "tenfold", `no growth scenario "tenfold"; it has "as expected"`},
	} {
		s, f := smallStudy(t)
		c.alter(f)
		_, err := expand.Ask(context.Background(), s, answer.Setup{}, expand.Options{Growth: c.growth})
		if !errors.As(err, new(*facilityfile.Error)) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q", err, c.want)
		}
	}
}

// A search that is interrupted says so, at whatever point.
func TestInterrupted(t *testing.T) {
	s, _ := smallStudy(t)
	for _, after := range []int{1, 40} {
		ctx, cancel := context.WithCancel(context.Background())
		calls := 0
		_, err := expand.Ask(ctx, s, answer.Setup{Progress: func(_ string, done, planned int) {
			if calls++; calls == after {
				cancel()
			}
			if done > planned {
				t.Errorf("%d of %d years", done, planned)
			}
		}}, expand.Options{Replications: 10})
		if calls >= after && !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at call %d of %d: %v", after, calls, err)
		}
		cancel()
	}
}

// The first plan ordered when its signs are seen, on a plant that grows by 100 kg a day
// each year and carries 800: the sign comes while what is ordered then, 400 days
// before it is in use, is in time by whole runs, and costs no more than a year of its
// interest differs from the dated plan. A plan whose steps come at the start, or pay
// for themselves, has no sign.
func TestOrderedWhenSeen(t *testing.T) {
	s, f := smallStudy(t)
	a := find(t, s, expand.Options{})
	if a.Adaptive == nil {
		t.Fatalf("no sign of %+v", a.Plans[0].Steps)
	}
	for _, step := range a.Adaptive.Steps {
		if !(step.Production > 600) || !(step.Production < 800) || step.Never > 0 || step.To.Before(step.From) {
			t.Errorf("%+v", step)
		}
	}
	if a.Adaptive.Missed > 0 || a.Adaptive.Replications != a.Plans[0].Replications {
		t.Errorf("%d of %d runs are late", a.Adaptive.Missed, a.Adaptive.Replications)
	}
	if over := a.Adaptive.OverDated.Estimate; math.Abs(over) > 0.1*a.Plans[0].Build() {
		t.Errorf("it costs %.0f USD more than on dates; building costs %.0f", over, a.Plans[0].Build())
	}
	f.Planning.Growths[0].Growth = plant.Compound{}
	again := *f
	s.File = &again
	if a := find(t, s, expand.Options{}); a.Adaptive != nil {
		t.Errorf("a plant that is enough has signs: %+v", a.Adaptive)
	}
}
