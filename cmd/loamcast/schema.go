package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

func newSchema() *cobra.Command {
	var system string
	cmd := &cobra.Command{
		Use:   "schema",
		Short: "Print the keys of a facility file as a JSON Schema, for editors",
		Long: `Print a JSON Schema (draft 2020-12) of the facility file: every key with what it
means, what it may be, what is usual, and what holds where it is left out. An editor
that understands YAML schemas completes keys by it; name it in the file's first line:

  # yaml-language-server: $schema=` + schemaName + `

"loamcast new" writes both.
` + exitHelp,
		Args: usage(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			shown, err := units.ParseSystem(system)
			if err != nil {
				return usageError{fmt.Errorf("--units: %w", err)}
			}
			_, err = cmd.OutOrStdout().Write(facilityfile.JSONSchema(shown))
			return err
		},
	}
	cmd.Flags().StringVar(&system, "units", units.US.String(), "units of the descriptions: us or si")
	return cmd
}
