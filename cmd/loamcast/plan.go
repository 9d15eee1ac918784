package main

import (
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/plan"
	"loamcast/scenarios/report"
)

func newPlan() *cobra.Command {
	var flags simulationFlags
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
	flags.register(cmd)
	return cmd
}

func makePlan(cmd *cobra.Command, args []string, flags simulationFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
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
	return present(cmd, a, system, flags.showFlags, renderers[*plan.Answer]{report.PlanTerminal, report.PlanJSON, report.PlanFiles})
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
