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
	simulationFlags
	ask    fiscal.Ask
	begins string
}

// manyRuns is how many replications a P90 and a chance of a few per cent want.
const manyRuns = 100

func (f *fiscalFlags) register(cmd *cobra.Command) {
	f.simulationFlags.register(cmd)
	flags := cmd.Flags()
	flags.IntVar(&f.ask.Years, "years", 2, "fiscal years to plan")
	flags.StringVar(&f.begins, "fiscal-year", "jan", "month in which fiscal years begin, by name or number")
	flags.IntVar(&f.ask.From, "from", 0, "calendar year in which the first fiscal year begins (default: the first whole one)")
	flags.StringVar(&f.ask.Growth, "growth", "", "name of one growth scenario (default: all, by their weights)")
	flags.IntVar(&f.ask.Replications, "replications", manyRuns, "number of replications")
}

// plan reads the flags into what is asked of a file.
func (f *fiscalFlags) plan(s *source) (*fiscal.Plan, error) {
	if n := f.ask.Replications; n < 1 || n > facilityfile.MaxReplications {
		return nil, usageError{fmt.Errorf("--replications %d: it must be from 1 to %d", n, facilityfile.MaxReplications)}
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
