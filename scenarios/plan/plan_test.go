package plan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/plan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
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
// workers. The parts that simulate are told of in order, with one worker each of them:
// compost has the runs of chips, which with more are made beside all others.
func TestAllAnswers(t *testing.T) {
	var told []string
	setup := answer.Setup{Source: "here", Progress: func(part string, done, total int) {
		if done > total {
			t.Errorf("%s: %d of %d are done", part, done, total)
		}
		if len(told) == 0 || told[len(told)-1] != part {
			told = append(told, part)
		}
	}}
	want := []string{"vessels", "options", "chips"}
	a, err := ask(context.Background(), t, file(t), 2, setup)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(told, want) && !slices.Equal(told, []string{"vessels", "options"}) {
		t.Errorf("told of %q, not %q", told, want)
	}
	if a.Vessels.Seed != a.Seed || a.Chips.Seed != a.Seed || a.Product.Seed != a.Seed || a.Options.Seed != a.Seed || a.Options.Source != "here" {
		t.Error("the parts are not of the same file and seed")
	}
	if len(a.Chips.Years) != len(a.Product.Years) || a.Chips.Years[0].Label != a.Product.Years[0].Label {
		t.Error("chips and compost are not of the same fiscal years")
	}
	if testing.Short() {
		return // one worker alone has nothing to race with, and takes twice as long
	}
	told = nil
	alone, err := ask(context.Background(), t, file(t), 1, setup)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(told, want) {
		t.Errorf("with one worker told of %q, not %q", told, want)
	}
	if got, want := rendertest.JSON(t, alone.Document(), units.SI), rendertest.JSON(t, a.Document(), units.SI); !bytes.Equal(got, want) {
		t.Error("the answer depends on the number of workers")
	}
}

// Each part of the plan is what its command answers if nothing else is asked for, in
// every number and word: vessels, chips, compost and option, each asked of the
// question that the command asks, with what was not written left to its defaults.
func TestPartsAreTheAnswersOfTheCommands(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short")
	}
	f := file(t)
	a, err := ask(context.Background(), t, f, 0, answer.Setup{Source: "here"})
	if err != nil {
		t.Fatal(err)
	}
	var parts map[string]json.RawMessage
	whole := a.Document()
	if err := json.Unmarshal(rendertest.JSON(t, whole, units.SI), &parts); err != nil {
		t.Fatal(err)
	}
	screen := unbroken(rendertest.Text(t, whole, units.SI))
	for command, part := range map[string]string{"when": "vessels", "chips": "chips", "product": "product", "options": "options"} {
		i := slices.IndexFunc(questions.All, func(q *question.Question) bool { return q.Name == command })
		q := questions.All[i]
		nothing, err := question.Read(q.Options, nil)
		if err != nil {
			t.Fatal(err)
		}
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := q.Ask(context.Background(), s, answer.Setup{Source: "here"}, nothing)
		if err != nil {
			t.Fatal(err)
		}
		d := alone.Document()
		var own, within map[string]any
		if err := errors.Join(json.Unmarshal(rendertest.JSON(t, d, units.SI), &own), json.Unmarshal(parts[part], &within)); err != nil {
			t.Fatal(err)
		}
		if len(within) < 3 {
			t.Errorf("the plan says of %s only %v", part, within)
		}
		for name, value := range within {
			if !reflect.DeepEqual(value, own[name]) {
				t.Errorf("%s: %s is %v in the plan, and %v by its command", part, name, value, own[name])
			}
		}
		if headline := d.Headline.Plain(units.SI); !strings.Contains(screen, headline) {
			t.Errorf("the plan does not say\n%s\nbut\n%s", headline, screen)
		}
	}
}

// unbroken takes the line breaks of a screen out of its paragraphs.
func unbroken(screen string) string { return strings.ReplaceAll(screen, "\n  ", " ") }

// A file that names no options, or no money, is answered without them, and told
// why. Growth goes by weight only where there is a choice of it.
func TestWithoutOptions(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	for want, alter := range map[string]func(*facilityfile.Planning){
		"the file has no options to compare":                    func(p *facilityfile.Planning) { p.Options, p.Growths = nil, p.Growths[:1] },
		"the file has options but no prices to compare them by": func(p *facilityfile.Planning) { p.Priced = false },
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
