package question

import (
	"context"
	"iter"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/study"
)

// Question is something that can be asked of a facility file.
type Question struct {
	Name  string // of the command, and of the files that its answer leaves
	Group Group
	Short string // in a line
	Long  string // in a few
	// Examples are arguments behind the name.
	Examples []string
	Options  []Option
	// Simulates says that it plays the plant: its answer depends on the seed.
	Simulates bool
	// Ask answers it. What is wrong with the file is a *facilityfile.Error, and what
	// is wrong with an option an *answer.OptionError; any other error carries the
	// replication, the simulated date and the event, or is ctx's. The answer does
	// not depend on the number of workers.
	Ask func(ctx context.Context, s *study.Study, setup answer.Setup, v Values) (Answer, error)
	// Trace plays the first replication of the answer again and tells each of every
	// movement of mass, in the order in which they happen; nil where the question has
	// no one replication to follow. Its errors are those of Ask.
	Trace func(ctx context.Context, s *study.Study, each func(plant.Movement)) error
	// Replicated is how the answer is made of replications that are simulated one by one,
	// each in whatever place; nil where it is not.
	Replicated *Replicated
}

// Replicated makes an answer of replications. What one contributes is plain data, all of
// it exported, so that it can be written and read.
type Replicated struct {
	// Simulate returns what one replication contributes. Its errors are those of
	// [Question.Ask].
	Simulate func(ctx context.Context, s *study.Study, replication int) (any, error)
	// Read returns what a replication contributed as decode fills it in.
	Read func(decode func(into any) error) (any, error)
	// Options are those of the question that say what is told of the replications, and
	// change nothing about them.
	Options []Option
	// Reduce makes the answer of n replications, in their order, each of which it lets go:
	// the one that [Question.Ask] gives of so many with the same values of Options. Its
	// errors are those of [Question.Ask], or the first that comes with the replications.
	Reduce func(s *study.Study, setup answer.Setup, n int, all iter.Seq2[any, error], v Values) (Answer, error)
}

// Replicate makes a [Replicated] of functions whose replications are of a kind of their
// own, and of some options.
func Replicate[R any, A Answer](simulate func(context.Context, *study.Study, int) (R, error), reduce func(*study.Study, answer.Setup, int, iter.Seq2[R, error], Values) (A, error), options ...Option) *Replicated {
	return &Replicated{
		Options: options,
		Simulate: func(ctx context.Context, s *study.Study, replication int) (any, error) {
			return simulate(ctx, s, replication)
		},
		Read: func(decode func(any) error) (any, error) {
			var r R
			err := decode(&r)
			return r, err
		},
		Reduce: func(s *study.Study, setup answer.Setup, n int, all iter.Seq2[any, error], v Values) (Answer, error) {
			each := func(yield func(R, error) bool) {
				for one, err := range all {
					r, _ := one.(R) // none comes with an error
					if !yield(r, err) {
						return
					}
				}
			}
			a, err := reduce(s, setup, n, each, v)
			if err != nil {
				return nil, err
			}
			return a, nil
		},
	}
}

// Answer is what a question is answered with: plain data, in SI, decisions
// included.
type Answer interface {
	// Document tells the answer.
	Document() *document.Document
}

// Group is the company in which a question is listed.
type Group int

// Groups of questions.
const (
	Planning Group = iota // the planning answers
	Closer                // a closer look
)

// Ask makes the function of a [Question] from one that gives an answer of its
// own kind. It refuses amounts in another currency than the file's.
func Ask[A Answer](ask func(ctx context.Context, s *study.Study, setup answer.Setup, v Values) (A, error)) func(context.Context, *study.Study, answer.Setup, Values) (Answer, error) {
	return func(ctx context.Context, s *study.Study, setup answer.Setup, v Values) (Answer, error) {
		if err := v.paidIn(s.File.Currency); err != nil {
			return nil, err
		}
		a, err := ask(ctx, s, setup, v)
		if err != nil {
			return nil, err
		}
		return a, nil
	}
}
