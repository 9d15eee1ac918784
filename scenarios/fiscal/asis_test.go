package fiscal

import (
	"context"
	"reflect"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Questions that ask a study for the same years and futures share the runs, and no
// others do: what each gets is what it gets of a study of its own, whatever was asked
// before.
func TestRunsAreSharedByThoseWhoAskForTheSame(t *testing.T) {
	prepared := func() *study.Study {
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
	shared := prepared()
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
		if got, want := ask(shared, o), ask(prepared(), o); !reflect.DeepEqual(got, want) {
			t.Errorf("%+v: other runs than those of a study that was asked for nothing else", o)
		}
	}
	if one, two := ask(shared, first), ask(shared, first); &one[0].Months[0] != &two[0].Months[0] {
		t.Error("the same runs are simulated twice")
	}
}
