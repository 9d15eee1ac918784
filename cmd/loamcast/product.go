package main

import (
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/productplan"
	"loamcast/scenarios/report"
)

func newProduct() *cobra.Command {
	var flags fiscalFlags
	cmd := &cobra.Command{
		Use:   "product [FILE]",
		Short: "Plan the compost to expect: how much, when too much, when too little",
		Long: `Plan the compost by month and fiscal year: what is screened and what is taken,
what the store holds, the months in which it is full and stops the screen, the
months in which demand goes unmet, and what the compost brings.
` + exampleHelp() + exitHelp,
		Example: `  loamcast product
  loamcast product plant.yaml --fiscal-year jul --years 3 --out product`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return planProduct(cmd, args, flags) },
	}
	flags.register(cmd)
	return cmd
}

func planProduct(cmd *cobra.Command, args []string, flags fiscalFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	plan, err := flags.plan(s)
	if err != nil {
		return err
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "simulating")
	a, err := productplan.Plan(cmd.Context(), s.File, plan, productplan.Options{
		Source: s.label, Invented: s.invented, Version: version, Workers: flags.workers, Progress: bar.update,
	})
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*productplan.Answer]{report.ProductTerminal, report.ProductJSON, report.ProductFiles})
}
