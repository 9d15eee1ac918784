package report

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/plan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
)

// chapters are those of answers, with the questions that each holds in order.
var chapters = []struct {
	name, title string
	asks        []asked
}{
	{"vessels", "When to order vessels", []asked{{"when", ""}}},
	{"options", "What to build, and what it costs", []asked{{"options", "The options of the file"}, {"expand", "The cheapest plan from the catalogue"}}},
	{"drivers", "What matters most", []asked{{"drivers", ""}}},
	{"chips", "Chips to buy", []asked{{"chips", ""}}},
	{"compost", "Compost to expect", []asked{{"product", ""}}},
	{"plant", "The plant, year by year", []asked{{"run", "As it is simulated"}, {"check", "What its stages sustain"}}},
	{"setbacks", "When something goes wrong", []asked{{"setback", ""}}},
	{"load", "One load", []asked{{"cycle", "In the vessel and on the pad"}, {"mix", "How it is mixed"}}},
}

// asked is a question by its name, and the title of its answer.
type asked struct{ name, title string }

// onRequest are questions that a report holds only if they are named: they take longer
// than all others.
var onRequest = []string{"setback"}

// Questions are the names of the questions that a report may hold, in its order.
func Questions() []string {
	var names []string
	for _, c := range chapters {
		for _, a := range c.asks {
			names = append(names, a.name)
		}
	}
	return names
}

// Ask asks what a report is to hold: the questions that are named, or, if none is, all
// that the file allows but those that take long, and those of `plan` together. An unknown name is an
// *answer.OptionError. Where a question is named that the file does not allow, its error
// is that of the question; where all are asked, the report says why it is missing.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, only []string) (*doc.Report, error) {
	for _, name := range only {
		if !slices.Contains(Questions(), name) {
			return nil, answer.WrongOption("only", "%q: no part of a report has that name; there are %s", name, strings.Join(Questions(), ", "))
		}
	}
	r := &asking{s: s, only: only, answers: map[string]*doc.Document{}}
	if err := r.ask(ctx, setup); err != nil {
		return nil, err
	}
	return r.report(setup.Basis(s.File)), nil
}

// asking is a report in the making.
type asking struct {
	s       *study.Study
	only    []string
	board   *doc.Document            // nil if only some are asked
	answers map[string]*doc.Document // by the question
	run     *simulate.Answer
}

// parts are the questions that plan asks, by the names that it gives their answers.
var parts = map[string]string{"vessels": "when", "chips": "chips", "product": "product", "options": "options"}

// alone are questions that share next to no runs with those of plan: in a whole report
// they go on beside it and take the workers that it leaves idle, the shortest first.
var alone = []string{"check", "mix", "cycle", "run", "drivers"}

// ask fills in the answers.
func (r *asking) ask(ctx context.Context, setup answer.Setup) error {
	if len(r.only) > 0 {
		return r.some(ctx, setup, slices.DeleteFunc(Questions(), func(name string) bool { return !slices.Contains(r.only, name) }))
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var told answer.Later
	others := &asking{s: r.s, answers: map[string]*doc.Document{}}
	beside := study.Beside(ctx, r.s, func(ctx context.Context) (struct{}, error) {
		return struct{}{}, others.some(ctx, told.Of(setup), alone)
	})
	if err := r.together(ctx, setup); err != nil {
		cancel()
		_, _ = beside() // what is asked together comes first, and so does its error
		return err
	}
	told.Begin()
	if _, err := beside(); err != nil {
		return err
	}
	maps.Copy(r.answers, others.answers)
	r.run = others.run
	return nil
}

// together asks plan, and what nobody asks yet but on request.
func (r *asking) together(ctx context.Context, setup answer.Setup) error {
	a, err := plan.Ask(ctx, r.s, setup)
	if err != nil {
		return err
	}
	r.board = a.Document()
	for _, part := range r.board.Parts {
		r.answers[parts[part.Name]] = part.Document
	}
	return r.some(ctx, setup, slices.DeleteFunc(Questions(), func(name string) bool {
		return r.answers[name] != nil || slices.Contains(alone, name) || slices.Contains(onRequest, name)
	}))
}

// some asks questions one after the other.
func (r *asking) some(ctx context.Context, setup answer.Setup, names []string) error {
	for _, name := range names {
		if err := r.one(ctx, setup, name); err != nil {
			return err
		}
	}
	return nil
}

// one asks one question with the defaults of its options.
func (r *asking) one(ctx context.Context, setup answer.Setup, name string) error {
	q := questions.All[slices.IndexFunc(questions.All, func(q *question.Question) bool { return q.Name == name })]
	defaults, err := question.Read(q.Options, nil)
	if err != nil {
		return err
	}
	a, err := q.Ask(ctx, r.s, setup.Named(name), defaults)
	if refused := (*facilityfile.Error)(nil); errors.As(err, &refused) && len(r.only) == 0 {
		r.answers[name] = missing(name, setup.Basis(r.s.File), refused)
		return nil
	}
	if err != nil {
		return err
	}
	if run, ok := a.(*simulate.Answer); ok {
		r.run = run
	}
	r.answers[name] = a.Document()
	return nil
}

// missing says in place of an answer why the file does not allow the question. What to write
// into the file is for who asks it alone.
func missing(name string, basis answer.Basis, err error) *doc.Document {
	why, _, _ := strings.Cut(err.Error(), "\n")
	return &doc.Document{Name: name, Basis: basis, Headline: doc.Say("Not answered: %s.", doc.Printable(strings.TrimSuffix(why, ".")))}
}

// report puts the answers in order.
func (r *asking) report(basis answer.Basis) *doc.Report {
	out := &doc.Report{Basis: basis, Cautions: answer.Cautions()}
	if r.board != nil {
		out.Add("board", "For the board", doc.ReportPart{Document: r.boardPage()})
	}
	for _, c := range chapters {
		var parts []doc.ReportPart
		for _, a := range c.asks {
			if d := r.answers[a.name]; d != nil {
				parts = append(parts, doc.ReportPart{Title: a.title, Document: d})
			}
		}
		if len(parts) > 0 {
			out.Add(c.name, c.title, parts...)
		}
	}
	if r.run != nil {
		out.Add("accounts", "Accounts of mass", doc.ReportPart{Document: accounts(basis, r.run)})
	}
	out.Add("inputs", "Values used", doc.ReportPart{Document: values(basis, r.s.File)})
	out.Add("equations", "Assumptions and equations", doc.ReportPart{Document: equations(basis)})
	out.Add("basis", "What the report rests on", doc.ReportPart{Document: rests(basis, r.s.File)})
	out.Add("words", "Words", doc.ReportPart{Document: words(basis)})
	return out
}

// boardPicture is the figure of the page for the board: what waiting means.
const boardPicture = "when-order"

// boardPage is what plan says, with one picture.
func (r *asking) boardPage() *doc.Document {
	page := *r.board
	for _, f := range r.answers["when"].Figures {
		if f.Name == boardPicture {
			page.Figures = []doc.Figure{f}
		}
	}
	return &page
}
