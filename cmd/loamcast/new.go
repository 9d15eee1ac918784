package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/outfile"
)

// The files that `new` writes: the facility file, and its description for editors.
const (
	starterName = "plant.yaml"
	schemaName  = "plant.schema.json"
)

func newNew() *cobra.Command {
	var example string
	cmd := &cobra.Command{
		Use:   "new DIR",
		Short: "Write a commented facility file to start from",
		Long: `Write ` + starterName + `, a facility file with comments, into DIR, and beside it
` + schemaName + `, by which an editor that understands YAML schemas completes keys
and explains them. Existing files are not overwritten.
` + exampleHelp() + exitHelp,
		Args: usage(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if !examples.Has(example) {
				return usageError{fmt.Errorf("--example %s: there is no such example%s", example, exampleHelp())}
			}
			switch filepath.Ext(args[0]) {
			case ".yaml", ".yml":
				return usageError{fmt.Errorf("new writes %s into a folder: give the name of the folder, not %s", starterName, args[0])}
			}
			path := filepath.Join(args[0], starterName)
			for _, file := range []string{path, filepath.Join(args[0], schemaName)} {
				if exists(file) {
					return usageError{fmt.Errorf("%s is already there and is not overwritten", file)}
				}
			}
			files, err := starterFiles(example)
			if err != nil {
				return err
			}
			if err := (outfile.Policy{}).WriteFiles(cmd.Context(), args[0], files, ""); err != nil {
				return err
			}
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s. Change it, then: loamcast plan %s\n", path, path)
			return err
		},
	}
	cmd.Flags().StringVar(&example, "example", examples.Demo, "built-in facility to start from")
	return cmd
}

// starterFiles returns an example with comments, and its schema, in the units in
// which the example shows results.
func starterFiles(example string) ([]outfile.File, error) {
	s, err := builtIn(example)
	if err != nil {
		return nil, err
	}
	text, err := facilityfile.Starter(examples.Data(example), schemaName, s.Units)
	if err != nil {
		return nil, err
	}
	return []outfile.File{{Name: starterName, Data: text}, {Name: schemaName, Data: facilityfile.JSONSchema(s.Units)}}, nil
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
