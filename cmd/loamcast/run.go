package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/report"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// runFlags are the flags of `run`.
type runFlags struct {
	simulationFlags
	replications int
	trace        string
}

func newRun() *cobra.Command {
	var flags runFlags
	cmd := &cobra.Command{
		Use:   "run [FILE]",
		Short: "Simulate a facility: vessels, chips and compost by year",
		Long: `Simulate the facility of FILE, of a built-in example, or of the demo if
nothing is named, and print what goes in, what comes out, and how many
vessels, chips and how much compost each year holds.
` + exampleHelp() + exitHelp,
		Example: `  loamcast run
  loamcast run plant.yaml --out results
  loamcast run plant.yaml --replications 100 --seed 7 --units si`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return runFacility(cmd, args, flags) },
	}
	flags.register(cmd)
	f := cmd.Flags()
	f.IntVar(&flags.replications, "replications", 0, "number of replications (default: the file's)")
	f.StringVar(&flags.trace, "trace", "", "file for every movement of mass in the first replication (CSV)")
	return cmd
}

func runFacility(cmd *cobra.Command, args []string, flags runFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	if cmd.Flags().Changed("replications") {
		if n := flags.replications; n < 1 || n > facilityfile.MaxReplications {
			return usageError{fmt.Errorf("--replications %d: it must be from 1 to %d", n, facilityfile.MaxReplications)}
		}
		s.Replications = flags.replications
	}
	s.warn(cmd.ErrOrStderr())

	st, err := study.New(s.File, flags.workers)
	if err != nil {
		return err
	}
	bars := parts{}
	a, err := simulate.Ask(cmd.Context(), st, answer.Setup{Source: s.label, Invented: s.invented, Version: version, Progress: bars.update}, simulate.Options{})
	bars.done()
	if err != nil {
		return err
	}
	if flags.trace != "" {
		if err := writeTrace(cmd, s.File, system, flags.trace); err != nil {
			return err
		}
	}
	return present(cmd, a, system, flags.showFlags, renderers[*simulate.Answer]{
		terminal: report.Terminal, json: report.JSON, files: report.Files,
	})
}

// writeTrace writes the trace of the first replication whole or not at all.
func writeTrace(cmd *cobra.Command, f *facilityfile.File, system units.System, path string) error {
	var rows bytes.Buffer
	t := report.NewTrace(&rows, system)
	if err := simulate.Trace(cmd.Context(), f, t.Add); err != nil {
		return err
	}
	if err := t.Close(); err != nil {
		return err
	}
	return replacing(cmd).WriteFile(cmd.Context(), path, rows.Bytes(), report.TraceBegins)
}
