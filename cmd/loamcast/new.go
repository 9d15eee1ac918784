package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/outfile"
)

// starterName is the file that `new` writes.
const starterName = "plant.yaml"

func newNew() *cobra.Command {
	var example string
	cmd := &cobra.Command{
		Use:   "new DIR",
		Short: "Write a commented facility file to start from",
		Long: `Write ` + starterName + `, a facility file with comments, into DIR. An existing file is
not overwritten.
` + exampleHelp() + exitHelp,
		Args: usage(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if !examples.Has(example) {
				return usageError{fmt.Errorf("--example %s: there is no such example%s", example, exampleHelp())}
			}
			path := filepath.Join(args[0], starterName)
			if exists(path) {
				return usageError{fmt.Errorf("%s is already there and is not overwritten", path)}
			}
			if err := (outfile.Policy{}).WriteFile(cmd.Context(), path, examples.Data(example), ""); err != nil {
				return err
			}
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s. Change it, then: loamcast plan %s\n", path, path)
			return err
		},
	}
	cmd.Flags().StringVar(&example, "example", examples.Demo, "built-in facility to start from")
	return cmd
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// exampleHelp lists the built-in examples for help texts.
func exampleHelp() string {
	text := "\nBuilt-in examples, all invented:\n"
	for _, name := range examples.Names() {
		text += fmt.Sprintf("  %-16s %s\n", name, examples.About(name))
	}
	return text
}
