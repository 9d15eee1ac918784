package main

import (
	"github.com/spf13/cobra"

	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
)

// replacing says what a command may replace.
func replacing(cmd *cobra.Command) outfile.Policy {
	force, _ := cmd.Flags().GetBool("force") // false where there is no such flag
	return outfile.Policy{Inputs: cmd.Flags().Args(), Force: force}
}

// checkPlaces refuses, before anything is computed, places where results would
// replace what is not ours.
func checkPlaces(cmd *cobra.Command, _ []string) error {
	p := replacing(cmd)
	if f := cmd.Flags().Lookup("trace"); f != nil && f.Value.String() != "" {
		if err := p.CheckFile(f.Value.String(), render.TraceBegins); err != nil {
			return err
		}
	}
	if f := cmd.Flags().Lookup("out"); f != nil && f.Value.String() != "" {
		return p.CheckFolder(f.Value.String())
	}
	return nil
}
