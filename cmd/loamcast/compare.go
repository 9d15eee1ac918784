package main

import (
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/sidebyside"
	"loamcast/scenarios/study"
)

// newCompare is the command that holds two files side by side.
func newCompare() *cobra.Command {
	flags := simulationFlags{}
	replications := sidebyside.DefaultReplications
	cmd := &cobra.Command{
		Use:   sidebyside.Name + " FILE FILE",
		Short: "Compare two facility files: what differs, and what that does",
		Long: `Say which keys two facility files, or built-in examples, give other values, and what
that does: when to order vessels, what leaves untreated, chips, compost, power and
cost, in the same production, weather, breakdowns and deliveries for both, with how
sure each difference is. Both are simulated under the seed of the first.
` + exampleHelp() + exitHelp,
		Example: strings.Join([]string{
			"  loamcast compare plant.yaml plant-with-longer-shifts.yaml",
			"  loamcast compare before.yaml after.yaml --replications 60 --out changed",
		}, "\n"),
		Args: usage(cobra.ExactArgs(2)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return compareFiles(cmd, args, &flags, replications)
		},
	}
	flags.register(cmd)
	cmd.Flags().IntVar(&replications, "replications", replications, "runs of each file")
	return cmd
}

// secondAsRead is the name under which a folder of results keeps the second file.
const secondAsRead = "as-read-second.yaml"

// compareFiles reads both files, compares them and shows the answer in the units of the
// first.
func compareFiles(cmd *cobra.Command, args []string, flags *simulationFlags, replications int) error {
	a, system, err := flags.open(cmd, args[:1])
	if err != nil {
		return err
	}
	b, _, err := flags.open(cmd, args[1:])
	if err != nil {
		return err
	}
	bars := parts{}
	var studies [2]*study.Study
	var setups [2]answer.Setup
	for i, f := range []*source{a, b} {
		if studies[i], err = study.New(f.File, flags.workers); err != nil {
			return err
		}
		f.warn(cmd.ErrOrStderr())
		setups[i] = answer.Setup{Source: f.label, Invented: f.invented, Version: version, Progress: bars.update}
	}
	found, err := sidebyside.Ask(cmd.Context(), studies[0], studies[1], setups, replications)
	bars.done()
	if err != nil {
		return wrongOption(err)
	}
	return show(cmd, found.Document(), system, &flags.showFlags, inputs.Copy(a.File), outfile.File{Name: secondAsRead, Data: b.Data})
}
