package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
)

// fiscalFlags are the flags of the commands that answer by month and fiscal
// year.
type fiscalFlags struct {
	showFlags
	ask     fiscal.Ask
	begins  string
	seed    uint64
	workers int
}

// manyRuns is how many replications a P90 and a chance of a few per cent want.
const manyRuns = 100

func (f *fiscalFlags) register(cmd *cobra.Command) {
	f.showFlags.register(cmd)
	flags := cmd.Flags()
	flags.IntVar(&f.ask.Years, "years", 2, "fiscal years to plan")
	flags.StringVar(&f.begins, "fiscal-year", "jan", "month in which fiscal years begin, by name or number")
	flags.IntVar(&f.ask.From, "from", 0, "calendar year in which the first fiscal year begins (default: the first whole one)")
	flags.StringVar(&f.ask.Growth, "growth", "", "name of one growth scenario (default: all, by their weights)")
	flags.IntVar(&f.ask.Replications, "replications", manyRuns, "number of replications")
	flags.Uint64Var(&f.seed, "seed", 0, "seed of the random streams (default: the file's)")
	flags.IntVar(&f.workers, "workers", 0, "replications at a time (default: one per core; results do not depend on it)")
}

// plan reads the flags into what is asked of a file.
func (f *fiscalFlags) plan(cmd *cobra.Command, s *source) (*fiscal.Plan, error) {
	if cmd.Flags().Changed("seed") {
		s.Seed = f.seed
	}
	if n := f.ask.Replications; n < 1 || n > facilityfile.MaxReplications {
		return nil, usageError{fmt.Errorf("--replications %d: it must be from 1 to %d", n, facilityfile.MaxReplications)}
	}
	if f.workers < 0 {
		return nil, usageError{fmt.Errorf("--workers %d: must not be negative", f.workers)}
	}
	month, ok := monthNamed(f.begins)
	if !ok {
		return nil, usageError{fmt.Errorf("--fiscal-year %q: write a month such as jul, october or 7", f.begins)}
	}
	f.ask.Begins = month
	p, err := fiscal.New(s.File, f.ask)
	if err != nil {
		return nil, usageError{fmt.Errorf("--%w", err)}
	}
	return p, nil
}
