package study_test

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// A study of a changed file that shares tables finds what one with tables of its own
// finds, whether the physics are the same or not, and shares them where they are.
func TestForChangesNoAnswer(t *testing.T) {
	text := string(examples.Data("dunmarrow"))
	read := func(old, new string) *facilityfile.File {
		f, err := facilityfile.Parse("plant.yaml", []byte(strings.Replace(text, old, new, 1)))
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	run := func(s *study.Study) []plant.Month {
		found, err := study.Each(context.Background(), s, study.Runs(&study.Case{Years: 1}, 0, 1), func(r *study.Result) ([]plant.Month, error) {
			return r.Record.Months, nil
		}, nil)
		if err != nil {
			t.Fatal(err)
		}
		return found[0]
	}
	base, err := study.New(read("", ""), 1)
	if err != nil {
		t.Fatal(err)
	}
	run(base)
	for _, c := range []struct {
		old, new string
		shared   bool
	}{{"cake_solids: 23 %", "cake_solids: 22 %", true}, {"wall_loss: 25 W/K", "wall_loss: 40 W/K", false}} {
		f := read(c.old, c.new)
		shared, err := base.For(f)
		if err != nil {
			t.Fatal(err)
		}
		own, err := study.New(f, 1)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(run(shared), run(own)) {
			t.Errorf("%s: the answer depends on the tables", c.new)
		}
		if got := shared.Base().Active == base.Base().Active; got != c.shared || f.Model.Active == base.Base().Active {
			t.Errorf("%s: physics are shared: %t, want %t", c.new, got, c.shared)
		}
	}
}
