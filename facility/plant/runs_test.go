package plant

import (
	"context"
	"reflect"
	"slices"
	"sync"
	"testing"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/digest"
	"loamcast/sim/digest/digesttest"
	"loamcast/sim/random"
)

// Whatever changes in a plant's model, by the last bit of one number, is another run, and no
// two changes are the same; put back, it is the same again.
func TestAnyChangeIsAnotherRun(t *testing.T) {
	m := model()
	c := digesttest.Changer{Others: []any{
		Compound{Rate: 0.01}, Compound{Rate: 0.02}, Linear{Rate: 0.01}, Logistic{Ceiling: 2, Rate: 0.01}, ByYear{1, 1.1}, Steps{{1, 2}}, Lines{{1, 2}},
		Later{Growth: Compound{Rate: 0.01}, Years: 1}, Later{Growth: Linear{Rate: 0.01}, Years: 1},
		calendar.Always(), dayShift(t, &m), dayShift(t, &m).Later(1),
	}}
	p := &Plant{Model: m}
	c.Fill(reflect.ValueOf(&p.Model).Elem())
	key := random.Key{Seed: 3, Replication: 5}
	usual := p.identify(key, false)
	seen := map[digest.Sum]string{usual: "the run as it is"}
	changed := func(path string) {
		t.Helper()
		run := p.identify(key, false)
		if other, ok := seen[run]; ok {
			t.Errorf("%s: the same run as %s", path, other)
		}
		seen[run] = path
	}
	c.Each(reflect.ValueOf(&p.Model).Elem(), "Model", changed)
	if len(seen) < 1000 {
		t.Errorf("only %d changes", len(seen)-1)
	}
	if p.identify(key, false) != usual {
		t.Error("the model is not what it was")
	}
	c.Each(reflect.ValueOf(&key).Elem(), "key", changed)
	p.airByYear = true
	changed("air by the year")
	p.airByYear = false
	p.unmarked = true
	changed("unmarked")
	p.unmarked = false
	if other, ok := seen[p.identify(key, true)]; ok {
		t.Errorf("watched: the same run as %s", other)
	}
}

// All that a plant has follows from its model, or is in what identifies a run, or changes no
// record: a field that is added must be thought of.
func TestFieldsOfPlants(t *testing.T) {
	known := []string{
		"Model", "airByYear", "unmarked", // in what identifies a run
		"kinds", "padCourses", "padDryer", "weather", "skies", // follow from the model
		"runs", // changes no record
	}
	for i := range reflect.TypeFor[Plant]().NumField() {
		if name := reflect.TypeFor[Plant]().Field(i).Name; !slices.Contains(known, name) {
			t.Errorf("Plant.%s: does a record follow from it? Then Plant.identify must know of it", name)
		}
	}
}

// remembered keeps runs in memory, and counts what it is asked and told.
type remembered struct {
	mu          sync.Mutex
	runs        map[digest.Sum]Played
	found, told int
}

func (r *remembered) Recall(run digest.Sum) (Played, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	left, ok := r.runs[run]
	if ok {
		r.found++
	}
	return left, ok
}

func (r *remembered) Keep(run digest.Sum, left Played) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.told++
	r.runs[run] = left
}

// A run that is known is not simulated, whichever plant of the same model asks for it; one
// of another model, another replication, or one that is watched is. What is found is what
// would be simulated.
func TestKnownRunsAreFound(t *testing.T) {
	m := model()
	m.Years, m.WarmUp = 1, 0
	base := plantOf(t, m)
	var stays []Stay
	play := func(p *Plant) map[string]*Record {
		t.Helper()
		again, err := p.With(m)
		if err != nil {
			t.Fatal(err)
		}
		more := m
		more.Vessels.Installed++
		larger, err := p.With(more)
		if err != nil {
			t.Fatal(err)
		}
		longer := m
		longer.Curing.Longest += sim.Day // of which there are no tables yet
		other, err := p.With(longer)
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]*Record{}
		for name, one := range map[string]*Plant{"as it is": p, "made of it": again, "a vessel more": larger, "a day longer": other, "unlimited": p.Unlimited(), "air by the year": p.AirByYear()} {
			rec, err := one.Run(t.Context(), random.Key{Seed: 1, Replication: 2})
			if err != nil {
				t.Fatal(err)
			}
			out[name] = rec
		}
		stays = nil
		rec, err := p.RunWatched(t.Context(), random.Key{Seed: 1, Replication: 2}, func(s Stay) { stays = append(stays, s) })
		if err != nil {
			t.Fatal(err)
		}
		out["watched"] = rec
		return out
	}
	want := play(base)
	seen := stays
	r := &remembered{runs: map[digest.Sum]Played{}}
	base.KeepRuns(r)
	for _, c := range []struct {
		name        string
		found, told int
	}{{"cold", 1, 6}, {"warm", 7, 0}} {
		r.found, r.told = 0, 0
		if got := play(base); !reflect.DeepEqual(got, want) || !slices.Equal(stays, seen) || len(seen) == 0 {
			t.Errorf("%s: other records", c.name)
		}
		if r.found != c.found || r.told != c.told {
			t.Errorf("%s: %d runs found and %d simulated, not %d and %d", c.name, r.found, r.told, c.found, c.told)
		}
	}
	r.told = 0
	if _, err := base.Run(t.Context(), random.Key{Seed: 1, Replication: 3}); err != nil || r.told != 1 {
		t.Errorf("another replication: %d simulated, %v", r.told, err)
	}
}

// A run that ends in an error leaves nothing that is kept.
func TestErrorsAreNotKept(t *testing.T) {
	p := plantOf(t, model())
	r := &remembered{runs: map[digest.Sum]Played{}}
	p.KeepRuns(r)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := p.Run(ctx, random.Key{}); err == nil || r.told != 0 {
		t.Errorf("%v, %d runs kept", err, r.told)
	}
	if _, err := p.RunWatched(ctx, random.Key{}, func(Stay) { t.Error("it tells of a stay") }); err == nil || r.told != 0 {
		t.Errorf("%v, %d runs kept", err, r.told)
	}
}
