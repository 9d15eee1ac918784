package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/report"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

// whenFlags are the flags of `when`.
type whenFlags struct {
	simulationFlags
	replications int
	upTo         int
	wrong        string
}

func newWhen() *cobra.Command {
	var flags whenFlags
	cmd := &cobra.Command{
		Use:   "when [FILE]",
		Short: "Say when the next vessels must be ordered, and how many",
		Long: `Find, for each number of vessels and each growth scenario of the file, the last
year that keeps the service target, the quarter by which more vessels are needed,
and the quarter in which to order them; beside it the handbook's static estimate
and why it differs.
` + exampleHelp() + exitHelp,
		Example: `  loamcast when
  loamcast when plant.yaml --out results
  loamcast when plant.yaml --vessels 12 --replications 400`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return findWhen(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.IntVar(&flags.replications, "replications", 0, "most replications of a year; more tell more years apart (default: 3.5 times the fewest that can tell)")
	f.StringVar(&flags.wrong, "wrong", "10 %", "chance that a year's verdict is wrong, where the year is clearly off the target; less takes longer")
	f.IntVar(&flags.upTo, "vessels", 0, "most vessels to try (default: the file's room_for)")
	flags.register(cmd)
	return cmd
}

func findWhen(cmd *cobra.Command, args []string, flags whenFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	wrong, err := units.Parse(flags.wrong, units.Fraction)
	if err == nil && !(wrong >= 0.001 && wrong <= 0.25) {
		err = fmt.Errorf("%s: it must be from 0.1 %% to 25 %%", flags.wrong)
	}
	if err != nil {
		return usageError{fmt.Errorf("--wrong: %w", err)}
	}
	least := vesselplan.Least(s.Planning.Target, wrong)
	if n := flags.replications; cmd.Flags().Changed("replications") && (n < least || n > facilityfile.MaxReplications) {
		return usageError{fmt.Errorf("--replications %d: it must be from %d, the fewest that can tell whether the file's service target is kept, to %d", n, least, facilityfile.MaxReplications)}
	}
	if n := flags.upTo; cmd.Flags().Changed("vessels") && (n < s.Model.Vessels.Installed || n > mostVessels) {
		return usageError{fmt.Errorf("--vessels %d: it must be from the %d installed to %d", n, s.Model.Vessels.Installed, mostVessels)}
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "searching")
	a, err := vesselplan.Plan(cmd.Context(), s.File, vesselplan.Options{
		Source: s.label, Invented: s.invented, Version: version,
		Workers: flags.workers, Replications: flags.replications, UpTo: flags.upTo, Wrong: wrong, Progress: bar.update,
	})
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*vesselplan.Answer]{report.StaircaseTerminal, report.StaircaseJSON, report.StaircaseFiles})
}

// mostVessels keeps a typing error from running for hours.
const mostVessels = 1000
