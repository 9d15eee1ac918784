package plan_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/plan"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

func file(t *testing.T) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func ask(ctx context.Context, t *testing.T, f *facilityfile.File, workers int, setup answer.Setup) (*plan.Answer, error) {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Ask(ctx, s, setup)
}

// Every answer is there, of the same facility and seed, whatever the number of
// workers; each part is told of, in order.
func TestAllAnswers(t *testing.T) {
	var told []string
	a, err := ask(context.Background(), t, file(t), 2, answer.Setup{Source: "here", Progress: func(part string, done, total int) {
		if done > total {
			t.Errorf("%s: %d of %d are done", part, done, total)
		}
		if !slices.Contains(told, part) {
			told = append(told, part)
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"vessels", "chips", "compost", "options"}; !slices.Equal(told, want) {
		t.Errorf("told of %q, not %q", told, want)
	}
	if a.Vessels.Seed != a.Seed || a.Chips.Seed != a.Seed || a.Product.Seed != a.Seed || a.Options.Seed != a.Seed || a.Options.Source != "here" {
		t.Error("the parts are not of the same file and seed")
	}
	if len(a.Chips.Years) != len(a.Product.Years) || a.Chips.Years[0].Label != a.Product.Years[0].Label {
		t.Error("chips and compost are not of the same fiscal years")
	}
	alone, err := ask(context.Background(), t, file(t), 1, answer.Setup{Source: "here"})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a, alone) {
		t.Error("the answer depends on the number of workers")
	}
}

// A file that names no options, or no money, is answered without them, and told
// why. Growth goes by weight only where there is a choice of it.
func TestWithoutOptions(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	for want, alter := range map[string]func(*facilityfile.Planning){
		"the file has no options to compare":                   func(p *facilityfile.Planning) { p.Options, p.Growths = nil, p.Growths[:1] },
		"the file has options but no money to compare them by": func(p *facilityfile.Planning) { p.Priced = false },
	} {
		f := file(t)
		alter(&f.Planning)
		a, err := ask(context.Background(), t, f, 0, answer.Setup{})
		if err != nil {
			t.Fatal(err)
		}
		if a.Options != nil || a.NoOptions != want {
			t.Errorf("options %v: %q, not %q", a.Options, a.NoOptions, want)
		}
		screen := rendertest.Text(t, a.Document(), units.SI)
		if weighted := strings.Contains(screen, "growth by weight"); weighted != (len(f.Planning.Growths) > 1) {
			t.Errorf("by weight: %v, of %d scenarios", weighted, len(f.Planning.Growths))
		}
	}
}

// It stops when it is told to, and says that it was.
func TestStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	_, err := ask(ctx, t, file(t), 0, answer.Setup{Progress: func(string, int, int) { cancel() }})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("stopped with %v", err)
	}
}
