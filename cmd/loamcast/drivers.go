package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/report"
)

// driversFlags are the flags of `drivers`.
type driversFlags struct {
	simulationFlags
	answer       string
	shares       bool
	paths        int
	rows         int
	replications int
}

func newDrivers() *cobra.Command {
	var flags driversFlags
	cmd := &cobra.Command{
		Use:   "drivers [FILE]",
		Short: "Say which uncertain input moves an answer most",
		Long: `Find how far each uncertain input of the file, and the growth scenario, moves
an answer over its range, beside what luck alone does. The answers are:
vessels, the year in which the service target is first missed; chips, the fresh
chips bought a year; cost, the present worth of the costs.
` + exampleHelp() + exitHelp,
		Example: `  loamcast drivers
  loamcast drivers plant.yaml --answer cost --out results
  loamcast drivers plant.yaml --answer chips --shares`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return findDrivers(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.StringVar(&flags.answer, "answer", drivers.VesselYear.String(), "vessels, chips or cost")
	f.BoolVar(&flags.shares, "shares", false, "find the shares of the variance, too; takes several times as long")
	f.IntVar(&flags.paths, "paths", drivers.DefaultTrajectories, "paths through the inputs; more give narrower intervals")
	f.IntVar(&flags.replications, "replications", drivers.DefaultReplications, "runs of each point; more lower the noise")
	f.IntVar(&flags.rows, "rows", drivers.DefaultRows, "rows of the design of --shares; more give narrower intervals")
	flags.register(cmd)
	return cmd
}

func findDrivers(cmd *cobra.Command, args []string, flags driversFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	output, err := drivers.ParseOutput(flags.answer)
	if err != nil {
		return usageError{fmt.Errorf("--answer: %w", err)}
	}
	if err := flags.check(cmd.Flags().Changed("rows")); err != nil {
		return usageError{err}
	}
	rows := 0
	if flags.shares {
		rows = flags.rows
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "simulating")
	a, err := drivers.Plan(cmd.Context(), s.File, drivers.Options{
		Source: s.label, Invented: s.invented, Version: version, Workers: flags.workers, Output: output,
		Trajectories: flags.paths, Replications: flags.replications, Rows: rows, Progress: bar.update,
	})
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*drivers.Answer]{report.DriversTerminal, report.DriversJSON, report.DriversFiles})
}

// mostRows keeps a typing error from running for days.
const mostRows = 10000

// check refuses numbers that make no sense.
func (flags *driversFlags) check(rowsGiven bool) error {
	for _, n := range []struct {
		flag        string
		value       int
		least, most int
	}{
		{"paths", flags.paths, 2, mostRows},
		{"replications", flags.replications, 1, facilityfile.MaxReplications},
		{"rows", flags.rows, 2, mostRows},
	} {
		if n.value < n.least || n.value > n.most {
			return fmt.Errorf("--%s %d: it must be from %d to %d", n.flag, n.value, n.least, n.most)
		}
	}
	if rowsGiven && !flags.shares {
		return fmt.Errorf("--rows %d: it counts only with --shares", flags.rows)
	}
	return nil
}
