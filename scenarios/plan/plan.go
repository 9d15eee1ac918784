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
	Facility string
	Source   string // file, or built-in example
	Invented bool
	Version  string
	Seed     uint64

	Vessels *vesselplan.Answer
	Chips   *chipplan.Answer
	Product *productplan.Answer
	Options *options.Answer // nil if the file has none, or no money
	// Why the options were not compared, if they were not.
	NoOptions string
	Cautions  []answer.Caution
}

// Setup is what a caller may choose beside the file.
type Setup struct {
	Source   string
	Invented bool
	Version  string
	Workers  int // 0 for all cores
	// Progress is told of each part as it goes; it may be nil.
	Progress func(part string, done, total int)
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

// Make finds the answers. An error carries the replication, the simulated date
// and the event, or is ctx's.
func Make(ctx context.Context, f *facilityfile.File, o Setup) (*Answer, error) {
	s, err := study.New(f, o.Workers)
	if err != nil {
		return nil, err
	}
	a := &Answer{Facility: f.Name, Source: o.Source, Invented: o.Invented, Version: o.Version, Seed: f.Seed, Cautions: answer.Cautions()}
	part := func(name string) func(done, total int) {
		return func(done, total int) {
			if o.Progress != nil {
				o.Progress(name, done, total)
			}
		}
	}
	part1 := func(name string) answer.Setup {
		return answer.Setup{Source: o.Source, Invented: o.Invented, Version: o.Version, Progress: func(_ string, done, total int) { part(name)(done, total) }}
	}
	a.Vessels, err = vesselplan.Ask(ctx, s, part1("vessels"), vesselplan.Options{Brief: true})
	if err != nil {
		return nil, err
	}
	year := fiscal.Ask{Years: 1, Replications: fiscalReplications}
	a.Chips, err = chipplan.Ask(ctx, s, part1("chips"), chipplan.Options{Ask: year, StockOut: acceptedStockOut})
	if err != nil {
		return nil, err
	}
	a.Product, err = productplan.Ask(ctx, s, part1("compost"), year)
	if err != nil {
		return nil, err
	}
	if a.NoOptions = without(f); a.NoOptions != "" {
		return a, nil
	}
	a.Options, err = options.Plan(ctx, s, options.Setup{
		Source: o.Source, Invented: o.Invented, Version: o.Version, Most: optionReplications, Progress: part("options"),
	})
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
