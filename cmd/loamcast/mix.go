package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/report"
	"loamcast/scenarios/units"
)

// mixFlags are the flags of `mix`.
type mixFlags struct {
	month      string
	cakeSolids string
	sweep      bool
	show       showFlags
}

func newMix() *cobra.Command {
	var flags mixFlags
	cmd := &cobra.Command{
		Use:   "mix [FILE]",
		Short: "Design the mix of a month: chips and amendments for the cake",
		Long: `Design the batch of a month at least cost: the month's cake with fresh chips,
the chips that the screen gives back, and the amendments of the file, so that
the mix meets the file's targets. Prints the mix, a loading card, and how far
the mix is from each target; when the targets cannot be met, why, and the
nearest mix.
` + exampleHelp() + exitHelp,
		Example: `  loamcast mix --month jan
  loamcast mix plant.yaml --month july --cake-solids "18 %" --sweep`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return designMix(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.StringVar(&flags.month, "month", "", monthHelp)
	f.StringVar(&flags.cakeSolids, "cake-solids", "", `solids content of the cake, e.g. "18 %" (default: the file's in that month)`)
	f.BoolVar(&flags.sweep, "sweep", false, "show how the mix changes with the solids content of the cake")
	flags.show.register(cmd)
	return cmd
}

func designMix(cmd *cobra.Command, args []string, flags mixFlags) error {
	s, err := load(cmd.Context(), args)
	if err != nil {
		return err
	}
	system, err := s.unitsFlag(flags.show.units)
	if err != nil {
		return err
	}
	o := mixplan.Options{Source: s.label, Invented: s.invented, Version: version}
	if o.Month, err = parseMonth(flags.month, s.File); err != nil {
		return err
	}
	if o.CakeSolids, err = parseCakeSolids(flags.cakeSolids); err != nil {
		return err
	}
	if flags.sweep {
		o.Sweep = mixplan.DefaultSweep()
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "designing")
	o.Progress = bar.update
	a, err := mixplan.Plan(cmd.Context(), s.File, o)
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.show, renderers[*mixplan.Answer]{report.MixTerminal, report.MixJSON, report.MixFiles})
}

// parseCakeSolids reads a solids content; an empty text is 0.
func parseCakeSolids(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	const least, most = 0.08, 0.5 // as in a file
	v, err := units.Parse(text, units.Fraction)
	if err != nil {
		return 0, usageError{fmt.Errorf("--cake-solids: %w", err)}
	}
	if v < least || v > most {
		return 0, usageError{fmt.Errorf("--cake-solids %s: must be from %.0f %% to %.0f %%", text, 100*least, 100*most)}
	}
	return v, nil
}
