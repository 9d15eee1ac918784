package report_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/html"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/report"
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

func ask(t *testing.T, f *facilityfile.File, only ...string) (*document.Report, error) {
	t.Helper()
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return report.Ask(context.Background(), s, answer.Setup{Source: "here"}, only)
}

func chapterNames(r *document.Report) []string {
	var names []string
	for _, c := range r.Chapters {
		names = append(names, c.Name)
	}
	return names
}

// A report has the answers of all questions, in the order of a reader, and says of each
// what its own command says: every headline, every table and every number of its JSON.
func TestSaysWhatTheCommandsSay(t *testing.T) {
	if testing.Short() {
		t.Skip("asks every question twice; runs in the round without -short")
	}
	r, err := ask(t, file(t))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"board", "vessels", "options", "drivers", "chips", "compost", "plant", "load", "accounts", "inputs", "equations", "basis", "words"}
	if got := chapterNames(r); !slices.Equal(got, want) {
		t.Errorf("the chapters are %v", got)
	}
	answered := map[string]*document.Document{}
	for _, c := range r.Chapters {
		for _, p := range c.Parts {
			answered[p.Name] = p.Document
		}
	}
	for _, name := range report.Questions() {
		if name == "setback" {
			if answered[name] != nil {
				t.Error("the report has what it is to have only if it is named")
			}
			continue
		}
		q := questions.All[slices.IndexFunc(questions.All, func(q *question.Question) bool { return q.Name == name })]
		values, err := question.Read(q.Options, nil)
		if err != nil {
			t.Fatal(err)
		}
		s, err := study.New(file(t), 0)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := q.Ask(context.Background(), s, answer.Setup{Source: "here"}, values)
		if err != nil {
			t.Fatal(err)
		}
		in := answered[name]
		if in == nil {
			t.Errorf("the report has no %s", name)
			continue
		}
		if got, want := rendertest.JSON(t, in, units.US), rendertest.JSON(t, alone.Document(), units.US); string(got) != string(want) {
			t.Errorf("%s says in the report\n%.400s\nand by its command\n%.400s", name, got, want)
		}
	}
	sameHeadlines(t, r)
	for _, sys := range rendertest.Systems {
		files, err := render.Tables(r, sys)
		if err != nil {
			t.Fatal(err)
		}
		rendertest.Explained(t, files)
	}
}

// sameHeadlines looks on the page for what each answer says first.
func sameHeadlines(t *testing.T, r *document.Report) {
	t.Helper()
	var page strings.Builder
	if err := html.Write(&page, r, units.US); err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, c := range r.Chapters {
		for _, p := range c.Parts {
			if p.Headline.Empty() {
				continue
			}
			seen++
			words := strings.NewReplacer("&#34;", `"`, "&#39;", "'", "<code>", "`", "</code>", "`", "&#43;", "+").Replace(page.String())
			if headline := p.Headline.In(units.US); !strings.Contains(words, headline) {
				t.Errorf("%s: the page does not say\n%s", p.Name, headline)
			}
		}
	}
	if seen < 12 {
		t.Errorf("%d headlines were looked for", seen)
	}
}

// A report of some questions has these alone, beside the values and words that any report
// has.
func TestOnly(t *testing.T) {
	r, err := ask(t, file(t), "check", "cycle")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := chapterNames(r), []string{"plant", "load", "inputs", "equations", "basis", "words"}; !slices.Equal(got, want) {
		t.Errorf("the chapters are %v", got)
	}
	tables, err := render.Tables(r, units.US)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range tables {
		names = append(names, f.Name)
	}
	for _, want := range []string{"cycle-days.csv", "inputs.csv"} {
		if !slices.Contains(names, want) {
			t.Errorf("the tables are %v, without %s", names, want)
		}
	}
}

// A name that no part has is a mistake on the command line, and what is there is said.
func TestUnknownPart(t *testing.T) {
	_, err := ask(t, file(t), "when", "everything")
	var wrong *answer.OptionError
	if !errors.As(err, &wrong) || wrong.Option != "only" || !strings.Contains(wrong.Reason, `"everything"`) || !strings.Contains(wrong.Reason, "when, options") {
		t.Errorf("the error is %v", err)
	}
}

// What a file does not allow is said in its place; where it is asked for by name, it is
// an error.
func TestWithoutMoney(t *testing.T) {
	f := file(t)
	f.Planning.Priced = false
	_, err := ask(t, f, "expand")
	if refused := (*facilityfile.Error)(nil); !errors.As(err, &refused) {
		t.Errorf("the error is %v", err)
	}
	if testing.Short() {
		t.Skip("asks all questions; runs in the round without -short")
	}
	r, err := ask(t, f)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range r.Chapters {
		for _, p := range c.Parts {
			if p.Name != "expand" {
				continue
			}
			if text := p.Headline.Plain(units.US); !strings.HasPrefix(text, "Not answered: ") || !strings.Contains(text, "money") {
				t.Errorf("the report says %q", text)
			}
			return
		}
	}
	t.Error("the report does not name expand")
}

// The basis holds what it takes to have the report again, and the inputs every value.
func TestRepeatable(t *testing.T) {
	f := file(t)
	r, err := ask(t, f, "check")
	if err != nil {
		t.Fatal(err)
	}
	var page strings.Builder
	if err := html.Write(&page, r, units.US); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{f.Hash, `Seed</th><td class="text">1</td>`, strings.NewReplacer("'", "&#39;", document.NoBreak, " ").Replace(f.Planning.Target.String()), "solids.growth.population.per_person", "0.05 kg/day"} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("the report does not say %q", want)
		}
	}
}
