package fiscal

import (
	"context"
	"reflect"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

func prepared(t *testing.T) *study.Study {
	t.Helper()
	f, err := facilityfile.Open("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Questions that ask a study for the same years and futures share the runs, and no
// others do: what each gets is what it gets of a study of its own, whatever was asked
// before.
func TestRunsAreSharedByThoseWhoAskForTheSame(t *testing.T) {
	shared := prepared(t)
	ask := func(s *study.Study, o Options) []Run {
		p, err := New(s.File, o)
		if err != nil {
			t.Fatal(err)
		}
		var runs []Run
		for r, err := range p.AsIs(context.Background(), s, nil) {
			if err != nil {
				t.Fatal(err)
			}
			runs = append(runs, r)
		}
		return runs
	}
	slow, fast := shared.File.Planning.Growths[0].Name, shared.File.Planning.Growths[len(shared.File.Planning.Growths)-1].Name
	first := Options{Years: 1, Replications: 2}
	for _, o := range []Options{
		first,
		{Years: 2, Replications: 2},
		{Years: 1, Replications: 3},
		{Years: 1, Replications: 2, From: shared.File.Model.Start.Year + 1},
		{Years: 1, Replications: 2, Growth: slow},
		{Years: 1, Replications: 2, Growth: fast},
	} {
		if got, want := ask(shared, o), ask(prepared(t), o); !reflect.DeepEqual(got, want) {
			t.Errorf("%+v: other runs than those of a study that was asked for nothing else", o)
		}
	}
	if one, two := ask(shared, first), ask(shared, first); &one[0].Months[0] != &two[0].Months[0] {
		t.Error("the same runs are simulated twice")
	}
}

// Of very many runs none is kept for others that ask; they are the same as those that are.
// Who has seen enough of them breaks off.
func TestManyRunsAreLetGo(t *testing.T) {
	s := prepared(t)
	first := func(replications int) (runs []Run) {
		p, err := New(s.File, Options{Years: 1, Replications: replications})
		if err != nil {
			t.Fatal(err)
		}
		for r, err := range p.AsIs(context.Background(), s, nil) {
			if err != nil {
				t.Fatal(err)
			}
			if runs = append(runs, r); len(runs) == 3 {
				break
			}
		}
		return runs
	}
	few, many, again := first(3), first(shared+1), first(shared+1)
	if !reflect.DeepEqual(few, many) || !reflect.DeepEqual(many, again) {
		t.Error("many replications begin with others than few")
	}
	if &many[0].Months[0] == &again[0].Months[0] {
		t.Error("the runs of many replications are kept")
	}

	// What is cancelled is told, in either case.
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	for _, n := range []int{4, shared + 1} {
		p, err := New(s.File, Options{Years: 1, Replications: n})
		if err != nil {
			t.Fatal(err)
		}
		for _, err = range p.AsIs(gone, s, nil) {
			if err == nil {
				t.Errorf("%d replications go on", n)
			}
		}
		if err != context.Canceled {
			t.Errorf("%d replications end with %v", n, err)
		}
	}
}
