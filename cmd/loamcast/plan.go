package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/plan"
	"loamcast/scenarios/report"
)

// planFlags are the flags of `plan`.
type planFlags struct {
	show    showFlags
	seed    uint64
	workers int
}

func newPlan() *cobra.Command {
	var flags planFlags
	cmd := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "Answer all at once: vessels to order, chips to buy, compost to expect, option to choose",
		Long: `Answer the planning questions of FILE, of a built-in example, or of the demo if
nothing is named, on one screen and each with how sure it is: when the next vessels
must be ordered, how many chips to buy and what they cost, how much compost to
expect, and, if the file has options and money, which to choose.
` + exampleHelp() + exitHelp,
		Example: `  loamcast plan
  loamcast plan plant.yaml --out results
  loamcast plan plant.yaml --units si --seed 7`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return makePlan(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.Uint64Var(&flags.seed, "seed", 0, "seed of the random streams (default: the file's)")
	f.IntVar(&flags.workers, "workers", 0, "replications at a time (default: one per core; results do not depend on it)")
	flags.show.register(cmd)
	return cmd
}

func makePlan(cmd *cobra.Command, args []string, flags planFlags) error {
	s, err := load(cmd.Context(), args)
	if err != nil {
		return err
	}
	system, err := s.unitsFlag(flags.show.units)
	if err != nil {
		return err
	}
	if cmd.Flags().Changed("seed") {
		s.Seed = flags.seed
	}
	if flags.workers < 0 {
		return usageError{fmt.Errorf("--workers %d: must not be negative", flags.workers)}
	}
	s.warn(cmd.ErrOrStderr())

	bars := parts{}
	a, err := plan.Make(cmd.Context(), s.File, plan.Setup{
		Source: s.label, Invented: s.invented, Version: version, Workers: flags.workers, Progress: bars.update,
	})
	bars.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.show, renderers[*plan.Answer]{report.PlanTerminal, report.PlanJSON, report.PlanFiles})
}

// parts shows the progress of one part after the other.
type parts struct {
	name string
	bar  *progress
}

func (p *parts) update(name string, done, total int) {
	if p.bar == nil || name != p.name {
		p.done()
		p.name, p.bar = name, newProgress(os.Stderr, name)
	}
	p.bar.update(done, total)
}

func (p *parts) done() {
	if p.bar != nil {
		p.bar.done()
	}
}
