package plan

import (
	"cmp"
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/options"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
)

// Answer holds the answers.
type Answer struct {
	answer.Basis
	Vessels *vesselplan.Answer
	Chips   *chipplan.Answer
	Product *productplan.Answer
	Options *options.Answer // nil if the file has none, or no money
	// Why the options were not compared, if they were not.
	NoOptions string
}

// Ask asks the questions themselves, each with what it takes if nothing is said, so
// that a part is what its own command answers. An error carries the replication, the
// simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup) (*Answer, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	a := &Answer{Basis: setup.Basis(s.File), NoOptions: without(s.File)}
	var told answer.Later
	supplies := study.Beside(ctx, s, func(ctx context.Context) (struct{}, error) { return struct{}{}, a.supplies(ctx, s, told.Of(setup)) })
	var err error
	if a.Vessels, err = ask[*vesselplan.Answer](ctx, s, setup.Named("vessels"), &vesselplan.Question); err != nil {
		cancel()
		_, _ = supplies() // vessels come first, and so does their error
		return nil, err
	}
	if a.NoOptions == "" {
		if a.Options, err = ask[*options.Answer](ctx, s, setup.Named("options"), &options.Question); err != nil {
			cancel()
		}
	}
	told.Begin()
	_, late := supplies()
	return a, cmp.Or(err, late)
}

// supplies fills in what to buy and what to expect.
func (a *Answer) supplies(ctx context.Context, s *study.Study, setup answer.Setup) (err error) {
	if a.Chips, err = ask[*chipplan.Answer](ctx, s, setup.Named("chips"), &chipplan.Question); err != nil {
		return err
	}
	a.Product, err = ask[*productplan.Answer](ctx, s, setup.Named("compost"), &productplan.Question)
	return err
}

// ask asks a question with the defaults of its options. A is the kind of its answer.
func ask[A question.Answer](ctx context.Context, s *study.Study, setup answer.Setup, q *question.Question) (A, error) {
	var none A
	defaults, err := question.Read(q.Options, nil)
	if err != nil {
		return none, err
	}
	a, err := q.Ask(ctx, s, setup, defaults)
	if err != nil {
		return none, err
	}
	return a.(A), nil
}

// without says why options cannot be compared.
func without(f *facilityfile.File) string {
	switch {
	case len(f.Planning.Options) == 0 && !f.Planning.Priced:
		return "the file has no options, and no prices to compare them by"
	case len(f.Planning.Options) == 0:
		return "the file has no options to compare"
	case !f.Planning.Priced:
		return "the file has options but no prices to compare them by"
	}
	return ""
}
