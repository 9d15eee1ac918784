package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/options"
	"loamcast/scenarios/report"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// optionsFlags are the flags of `options`.
type optionsFlags struct {
	simulationFlags
	replications int
	discount     string
}

func newOptions() *cobra.Command {
	var flags optionsFlags
	cmd := &cobra.Command{
		Use:   "options [FILE]",
		Short: "Compare the options of a file: cost, service, and which to choose",
		Long: `Simulate the plant as it is and with each option of the file, under each growth
scenario, and say which option to choose: the cheapest by present worth that keeps
the service target, by how much, and how sure that is. The file needs money,
options and, if growth is not certain, growth_scenarios.
` + exampleHelp() + exitHelp,
		Example: `  loamcast options
  loamcast options plant.yaml --out results
  loamcast options plant.yaml --replications 60 --discount "4 %/year"`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return compareOptions(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.IntVar(&flags.replications, "replications", 0, "most replications of each option and growth scenario (default: the file's)")
	f.StringVar(&flags.discount, "discount", "", `discount rate instead of the file's, such as "4 %/year", nominal or real as there`)
	flags.register(cmd)
	return cmd
}

func compareOptions(cmd *cobra.Command, args []string, flags optionsFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	setup, err := flags.setup(cmd)
	if err != nil {
		return err
	}
	setup.Source, setup.Invented, setup.Version = s.label, s.invented, version
	s.warn(cmd.ErrOrStderr())

	ready, err := study.New(s.File, flags.workers)
	if err != nil {
		return err
	}
	bar := newProgress(os.Stderr, "comparing")
	setup.Progress = bar.update
	a, err := options.Plan(cmd.Context(), ready, setup)
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*options.Answer]{report.OptionsTerminal, report.OptionsJSON, report.OptionsFiles})
}

// setup checks the flags that limit or alter the comparison.
func (o optionsFlags) setup(cmd *cobra.Command) (options.Setup, error) {
	setup := options.Setup{Most: o.replications}
	if n := o.replications; cmd.Flags().Changed("replications") && (n < 2 || n > facilityfile.MaxReplications) {
		return setup, usageError{fmt.Errorf("--replications %d: it must be from 2 to %d", n, facilityfile.MaxReplications)}
	}
	if cmd.Flags().Changed("discount") {
		const least, most = -0.1, 0.5 // as in a file
		rate, err := units.Parse(o.discount, units.AnnualRate)
		if err == nil && (rate < least || rate > most) {
			err = fmt.Errorf("%s: it must be from -10 %%/year to 50 %%/year", o.discount)
		}
		if err != nil {
			return setup, usageError{fmt.Errorf("--discount: %w", err)}
		}
		setup.Discount = &rate
	}
	return setup, nil
}
