package capability

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// What is found in few runs and then in more is what is found in more at once, years
// simulated included; fewer than there are already, and so many as end within a ramp, are
// found by themselves and disturb nothing.
func TestClimbGoesOn(t *testing.T) {
	ctx := context.Background()
	f, err := facilityfile.Parse("dunmarrow", examples.Data("dunmarrow"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	atOnce := func(runs int) *Capability {
		t.Helper()
		found, err := Find(ctx, s, study.Case{}, runs)
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	c := newClimb(s, study.Case{})
	for _, runs := range []int{16, 20, 32, 5} {
		found, err := c.upTo(ctx, runs)
		if err != nil {
			t.Fatal(err)
		}
		if want := atOnce(runs); !reflect.DeepEqual(found, want) {
			t.Errorf("%d runs after others find %v of %d years, by themselves %v of %d", runs, found.Curve.Load(0.5), found.Simulated, want.Curve.Load(0.5), want.Simulated)
		}
	}
	if n := len(c.now.all); n != 32 {
		t.Errorf("%d runs are gone on from, not 32", n)
	}

	// The first sixteen ramps have as many runs, and later ones an eighth of those before.
	var sizes []int
	for n, at := 0, (ascent{}); n < 600; n += sizes[len(sizes)-1] {
		at.all = make([][]Trial, n)
		sizes = append(sizes, at.next())
	}
	if want := append(slices.Repeat([]int{16}, 16), 32, 32, 32, 32, 48, 48, 48, 64, 64); !slices.Equal(sizes, want) {
		t.Errorf("ramps of %v runs, want %v", sizes, want)
	}

	// A climb that is broken off goes on from where it was.
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := c.upTo(gone, 48); err == nil {
		t.Error("what is cancelled ends")
	}
	if found, err := c.upTo(ctx, 40); err != nil || !reflect.DeepEqual(found, atOnce(40)) {
		t.Errorf("after a break other things are found (%v)", err)
	}
}
