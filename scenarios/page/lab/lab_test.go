package lab

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/sensitivity"
	"loamcast/sim/stats"
)

// edited is a small invented plant with one value changed.
func edited(t *testing.T, old, new string) *facilityfile.File {
	t.Helper()
	text := string(examples.Data("dunmarrow"))
	if strings.Count(text, old) != 1 {
		t.Fatalf("%q is not there once", old)
	}
	f, err := facilityfile.Parse("plant.yaml", []byte(strings.Replace(text, old, new, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func plain(context.Context, *facilityfile.File) error { return nil }

// Files of the same physics share their tables, whatever came between; so many others are
// kept as there is room for, and all are made anew when too much is held.
func TestTablesAreShared(t *testing.T) {
	l := New(answer.Setup{}, plain, 1)
	held := uint64(0)
	l.holds = func() uint64 { return held }
	tables := func(f *facilityfile.File) any {
		s, err := l.study(f)
		if err != nil {
			t.Fatal(err)
		}
		return s.Base().Active
	}
	first := tables(edited(t, "installed: 3", "installed: 2"))
	other := tables(edited(t, "wall_loss: 25 W/K", "wall_loss: 30 W/K"))
	if first == other {
		t.Error("other physics have the same tables")
	}
	if again := tables(edited(t, "cake_solids: 23 %", "cake_solids: 24 %")); again != first {
		t.Error("the same physics have other tables")
	}
	for _, loss := range []string{"31 W/K", "32 W/K", "33 W/K"} {
		tables(edited(t, "wall_loss: 25 W/K", "wall_loss: "+loss))
	}
	if again := tables(edited(t, "wall_loss: 25 W/K", "wall_loss: 30 W/K")); again == other || len(l.bases) != mostBases {
		t.Errorf("the tables used longest ago are kept, of %d physics", len(l.bases))
	}
	last := tables(edited(t, "installed: 3", "installed: 2"))
	held = mostHeap + 1
	if again := tables(edited(t, "installed: 3", "installed: 2")); again == last {
		t.Error("too much is held, and kept")
	}
}

// The last answers are kept, the one used last longest.
func TestAnswersAreKept(t *testing.T) {
	l := New(answer.Setup{}, plain, 1)
	ask := func(month string) error {
		_, err := l.Ask(context.Background(), Asked{Tab: "a", File: edited(t, "installed: 3", "installed: 2"), Name: "mix", Options: map[string]string{"month": month}}, Tell{})
		return err
	}
	for _, month := range []string{"1", "2", "1"} {
		if err := ask(month); err != nil {
			t.Fatal(err)
		}
	}
	if len(l.answers) != 2 {
		t.Errorf("%d answers are kept, not 2", len(l.answers))
	}
	if wrong := (*answer.OptionError)(nil); !errors.As(ask("Juember"), &wrong) {
		t.Error("a wrong option is taken")
	}
	if list := kept(4, []int{3, 2, 1}, 3); len(list) != 3 || list[0] != 4 || list[2] != 2 {
		t.Errorf("kept are %v", list)
	}
	if list := toFront([]int{1, 2, 3}, 2); list[0] != 3 || list[1] != 1 || list[2] != 2 {
		t.Errorf("in order %v", list)
	}
}

// A program that ends, a tab that asks something else and time that is over are told apart.
func TestWhyItEnds(t *testing.T) {
	for _, cause := range []error{ErrReplaced, ErrTooLong, context.Canceled} {
		ctx, cancel := context.WithCancelCause(context.Background())
		l := New(answer.Setup{}, func(ctx context.Context, _ *facilityfile.File) error { cancel(cause); return ctx.Err() }, 1)
		if _, err := l.Ask(ctx, Asked{Tab: "a", File: edited(t, "installed: 3", "installed: 2"), Name: "run"}, Tell{}); !errors.Is(err, cause) {
			t.Errorf("%v ends as %v", cause, err)
		}
	}
	if !errors.Is(ErrReplaced, context.Canceled) || errors.Is(ErrTooLong, context.Canceled) {
		t.Error("what was replaced is no cancelled question, or what takes too long is one")
	}
}

// Of drivers, those count that move the answer by more than chance does.
func TestMoving(t *testing.T) {
	of := func(key string, effect float64) drivers.Driver {
		return drivers.Driver{Key: key, Effect: sensitivity.Effect{MuStar: stats.Interval{Estimate: effect}}}
	}
	a := &drivers.Answer{Drivers: []drivers.Driver{of("solids.growth", 3), of("screen.recovery", 1.1), of(drivers.NoiseKey, 1), of("chips.price", 0.5)}, Noise: of(drivers.NoiseKey, 1)}
	if got := moving(a); !slices.Equal(got, []string{"solids.growth", "screen.recovery"}) {
		t.Errorf("those that move it are %v", got)
	}
}
