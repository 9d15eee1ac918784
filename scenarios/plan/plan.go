package plan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/options"
	"loamcast/scenarios/productplan"
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

// Efforts of the parts: enough for an answer, and few enough that all come soon. The
// search for vessels is that of its own command, so that both say the same of the
// vessels installed.
const (
	fiscalReplications = 60 // of the first fiscal year
	optionReplications = 6  // of each option under each growth scenario
)

// acceptedStockOut is the chance of waiting for chips in a year that the ordering
// rule may have, that of the command for chips alone.
const acceptedStockOut = 0.05

// Ask finds the answers. An error carries the replication, the simulated date and
// the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup) (*Answer, error) {
	a := &Answer{Basis: setup.Basis(s.File), NoOptions: without(s.File)}
	var err error
	if a.Vessels, err = vesselplan.Ask(ctx, s, setup.Named("vessels"), vesselplan.Options{}); err != nil {
		return nil, err
	}
	year := fiscal.Options{Years: 1, Replications: fiscalReplications}
	if a.Chips, err = chipplan.Ask(ctx, s, setup.Named("chips"), chipplan.Options{Options: year, StockOut: acceptedStockOut}); err != nil {
		return nil, err
	}
	if a.Product, err = productplan.Ask(ctx, s, setup.Named("compost"), year); err != nil {
		return nil, err
	}
	if a.NoOptions == "" {
		a.Options, err = options.Ask(ctx, s, setup.Named("options"), options.Options{Replications: optionReplications})
	}
	return a, err
}

// without says why options cannot be compared.
func without(f *facilityfile.File) string {
	switch {
	case len(f.Planning.Options) == 0:
		return "the file has no options to compare"
	case !f.Planning.Priced:
		return "the file has options but no money to compare them by"
	}
	return ""
}
