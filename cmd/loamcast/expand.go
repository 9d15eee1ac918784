package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/report"
	"loamcast/scenarios/study"
)

// expandFlags are the flags of `expand`.
type expandFlags struct {
	simulationFlags
	replications int
	plans        int
	growth       string
}

func newExpand() *cobra.Command {
	var flags expandFlags
	cmd := &cobra.Command{
		Use:   "expand [FILE]",
		Short: "Find the cheapest phased plan that keeps the service target",
		Long: `Search the file's catalogue of what may be built for the plan that costs least, as
present worth, and keeps the service target in every year: what to build, when to
have it in service and when to order it; beside it the next best plans and what
each costs more. The file needs money and a catalogue.
` + exampleHelp() + exitHelp,
		Example: `  loamcast expand
  loamcast expand plant.yaml --out results
  loamcast expand plant.yaml --growth fast --plans 6`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return findExpand(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.StringVar(&flags.growth, "growth", "", "name of the growth scenario (default: the one of the highest weight)")
	f.IntVar(&flags.plans, "plans", expand.DefaultPlans, "plans to compare and show")
	f.IntVar(&flags.replications, "replications", 0, fmt.Sprintf("most replications of a year or of a plan; more tell more apart (default: %v times the fewest that can tell)", expand.Enough))
	flags.register(cmd)
	return cmd
}

func findExpand(cmd *cobra.Command, args []string, flags expandFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	if err := flags.check(cmd, s.Planning.Target); err != nil {
		return err
	}
	s.warn(cmd.ErrOrStderr())

	ready, err := study.New(s.File, flags.workers)
	if err != nil {
		return err
	}
	bar := newProgress(os.Stderr, "searching")
	a, err := expand.Find(cmd.Context(), ready, expand.Setup{
		Source: s.label, Invented: s.invented, Version: version,
		Growth: flags.growth, Plans: flags.plans, Replications: flags.replications, Progress: bar.update,
	})
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*expand.Answer]{report.ExpandTerminal, report.ExpandJSON, report.ExpandFiles})
}

// mostPlans that are compared whole.
const mostPlans = 20

func (f expandFlags) check(cmd *cobra.Command, target facilityfile.Target) error {
	least := expand.Least(target)
	switch n := f.replications; {
	case cmd.Flags().Changed("replications") && (n < least || n > facilityfile.MaxReplications):
		return usageError{fmt.Errorf("--replications %d: it must be from %d, the fewest that can tell whether the file's service target is kept, to %d", n, least, facilityfile.MaxReplications)}
	case f.plans < 1 || f.plans > mostPlans:
		return usageError{fmt.Errorf("--plans %d: it must be from 1 to %d", f.plans, mostPlans)}
	}
	return nil
}
