package main

import (
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/sidebyside"
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
			return flags.answered(compareFiles(cmd, args, &flags, replications))
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
	bars := parts{}
	a, err := flags.subject(cmd, args[:1], &bars)
	if err != nil {
		return err
	}
	b, err := flags.subject(cmd, args[1:], &bars)
	if err != nil {
		return err
	}
	found, err := sidebyside.Ask(cmd.Context(), a.study, b.study, [2]answer.Setup{a.setup, b.setup}, replications)
	bars.done()
	if err != nil {
		return wrongOption(err)
	}
	return show(cmd, found.Document(), a.system, &flags.showFlags, inputs.Copy(a.File), outfile.File{Name: secondAsRead, Data: b.Data})
}
