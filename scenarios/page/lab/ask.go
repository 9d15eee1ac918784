package lab

import (
	"context"
	"crypto/sha256"
	"fmt"
	"slices"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/document"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/report"
	"loamcast/scenarios/sidebyside"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
)

// Asked is a question of a file.
type Asked struct {
	Tab     string // where it was asked
	File    *facilityfile.File
	Name    string            // of the question
	Options map[string]string // as they were written
}

// Tell is told of an answer in the making. One call is made at a time.
type Tell struct {
	Look     func(*document.Document) error // a look, each surer than that before; none may come
	Progress func(part string, done, total int)
}

// Known returns a question by its name; ok is false if there is none.
func Known(name string) (q *question.Question, ok bool) {
	at := slices.IndexFunc(questions.All, func(q *question.Question) bool { return q.Name == name })
	if at < 0 {
		return nil, false
	}
	return questions.All[at], true
}

// Ask answers a question as the command line does. Of when to order vessels it shows looks
// before, from few runs on. Errors are those of the question, that of
// ctx, and those of [Lab]: [ErrReplaced], [ErrBusy] and [ErrTooLong]. The file is changed by
// [Lab.Ready].
func (l *Lab) Ask(ctx context.Context, a Asked, tell Tell) (*document.Document, error) {
	q, ok := Known(a.Name)
	if !ok {
		return nil, answer.WrongOption("question", "%q: there is none of that name", a.Name)
	}
	values, err := question.Read(q.Options, a.Options)
	if err != nil {
		return nil, err
	}
	ctx, end, err := l.turns.begin(ctx, a.Tab)
	if err != nil {
		return nil, err
	}
	defer end()
	asked := fmt.Sprintf("%x", sha256.Sum256(fmt.Appendf(nil, "%s %d %s %q", a.File.Hash, a.File.Seed, a.Name, a.Options)))
	if told := l.known(asked); told != nil {
		return told, nil
	}
	if err := l.Ready(ctx, a.File); err != nil {
		return nil, because(ctx, err)
	}
	s, err := l.study(a.File)
	if err != nil {
		return nil, err
	}
	setup := l.Setup
	setup.Progress = seldom(tell.Progress)
	when := q == &vesselplan.Question && len(a.Options) == 0
	if when {
		if err := l.look(ctx, s, setup, tell.Look); err != nil {
			return nil, because(ctx, err)
		}
	}
	found, err := q.Ask(ctx, s, setup, values)
	if err != nil {
		return nil, because(ctx, err)
	}
	if order, ok := found.(*vesselplan.Answer); ok && when {
		l.lend(s, order)
	}
	told := found.Document()
	l.keep(asked, told)
	return told, nil
}

// because is why something ended, where that is that it was not to go on.
func because(ctx context.Context, err error) error {
	if cause := context.Cause(ctx); cause != nil {
		return cause
	}
	return err
}

// seldom tells of progress ten times a second at most, and at the end of each part.
func seldom(tell func(part string, done, total int)) func(string, int, int) {
	const often = 100 * time.Millisecond
	last := time.Time{}
	return func(part string, done, total int) {
		if now := time.Now(); tell != nil && (now.Sub(last) >= often || done == total) {
			last = now
			tell(part, done, total)
		}
	}
}

// look shows looks at when vessels are due, one after the other, each more sure than that
// before it. What the plant was found to carry before is shown first where production alone
// has changed, and then only what is as sure; where prices alone have changed no look is
// needed, since nothing is simulated again.
func (l *Lab) look(ctx context.Context, s *study.Study, setup answer.Setup, show func(*document.Document) error) error {
	from, kin := l.kin(s.File)
	if kin == capability.ByPrices {
		return l.borrow(ctx, s)
	}
	if show == nil {
		return nil
	}
	looks, err := vesselplan.Looks(s.File)
	if err != nil {
		return err
	}
	one := func(s *study.Study, look vesselplan.Look) error {
		looked, err := vesselplan.Ask(ctx, s, setup, vesselplan.Options{Look: look})
		if err != nil {
			return err
		}
		return show(looked.Document())
	}
	if kin == capability.ByGrowth {
		lent, err := s.For(s.File)
		if err != nil {
			return err
		}
		if err := capability.Lend(ctx, from.Study, lent, from.runs); err != nil {
			return err
		}
		if err := one(lent, vesselplan.LentLook(from.runs)); err != nil {
			return err
		}
		looks = looks[len(looks)-1:]
	}
	for _, look := range looks {
		if err := one(s, look); err != nil {
			return err
		}
	}
	return nil
}

// borrow gives a study what was found of the same plant under the same growth, if anything
// was.
func (l *Lab) borrow(ctx context.Context, s *study.Study) error {
	if from, kin := l.kin(s.File); kin == capability.ByPrices {
		return capability.Lend(ctx, from.Study, s, from.runs)
	}
	return nil
}

// kin finds the study whose plant is most nearly that of a file.
func (l *Lab) kin(f *facilityfile.File) (found lender, kin capability.Kinship) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, one := range l.lenders {
		if k := capability.Kin(one.File, f); k > kin {
			found, kin = one, k
		}
	}
	return found, kin
}

// lend keeps a study that is asked nothing more, for others to be lent what it has found.
func (l *Lab) lend(s *study.Study, a *vesselplan.Answer) {
	if !capability.Known(s, a.Runs) {
		return // years of the calendar were simulated
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.lenders = kept(lender{s, a.Runs}, l.lenders, mostLenders)
}

// Rank are the keys of the uncertain inputs that move when vessels are due by more than
// chance does, that which moves it most first, as the question of the drivers finds them.
func (l *Lab) Rank(ctx context.Context, tab string, f *facilityfile.File, tell Tell) ([]string, error) {
	defaults, err := question.Read(drivers.Question.Options, nil)
	if err != nil {
		return nil, err
	}
	return about(ctx, l, tab, f, tell, func(ctx context.Context, s *study.Study, setup answer.Setup) ([]string, error) {
		found, err := drivers.Question.Ask(ctx, s, setup, defaults)
		if err != nil {
			return nil, err
		}
		return moving(found.(*drivers.Answer)), nil
	})
}

// about asks something of a file when it is the turn of a tab.
func about[T any](ctx context.Context, l *Lab, tab string, f *facilityfile.File, tell Tell, ask func(context.Context, *study.Study, answer.Setup) (T, error)) (out T, err error) {
	ctx, end, err := l.turns.begin(ctx, tab)
	if err != nil {
		return out, err
	}
	defer end()
	if err := l.Ready(ctx, f); err != nil {
		return out, because(ctx, err)
	}
	s, err := l.study(f)
	if err != nil {
		return out, err
	}
	setup := l.Setup
	setup.Progress = seldom(tell.Progress)
	if out, err = ask(ctx, s, setup); err != nil {
		return out, because(ctx, err)
	}
	return out, nil
}

// moving are the keys of the drivers that move an answer by more than chance does.
func moving(a *drivers.Answer) []string {
	var keys []string
	for i := range a.Drivers {
		if d := &a.Drivers[i]; a.Above(d) && d.Key != drivers.NoiseKey {
			keys = append(keys, d.Key)
		}
	}
	return keys
}

// Compare lays a file beside others, each under the same luck as the first. The names are
// those of the files in the answers.
func (l *Lab) Compare(ctx context.Context, tab string, files []*facilityfile.File, names []string, tell Tell) ([]*document.Document, error) {
	ctx, end, err := l.turns.begin(ctx, tab)
	if err != nil {
		return nil, err
	}
	defer end()
	studies := make([]*study.Study, len(files))
	for i, f := range files {
		if err := l.Ready(ctx, f); err != nil {
			return nil, because(ctx, err)
		}
		if studies[i], err = l.study(f); err != nil {
			return nil, err
		}
		if err := l.borrow(ctx, studies[i]); err != nil {
			return nil, because(ctx, err)
		}
	}
	setups := func(i int) answer.Setup {
		setup := l.Setup
		setup.Source, setup.Progress = names[i], seldom(tell.Progress)
		return setup
	}
	var told []*document.Document
	for i := 1; i < len(files); i++ {
		a, err := sidebyside.Ask(ctx, studies[0], studies[i], [2]answer.Setup{setups(0), setups(i)}, sidebyside.DefaultReplications)
		if err != nil {
			return nil, because(ctx, err)
		}
		told = append(told, a.Document())
	}
	return told, nil
}

// Report asks what a report holds, of a file.
func (l *Lab) Report(ctx context.Context, tab string, f *facilityfile.File, only []string, tell Tell) (*document.Report, error) {
	return about(ctx, l, tab, f, tell, func(ctx context.Context, s *study.Study, setup answer.Setup) (*document.Report, error) {
		return report.Ask(ctx, s, setup, only)
	})
}
