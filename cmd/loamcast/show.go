package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// show makes all renderings of a document before it writes the first.
func show(cmd *cobra.Command, d *document.Document, system units.System, flags *showFlags) error {
	var screen bytes.Buffer
	write := render.Text
	if flags.json {
		write = render.JSON
	}
	if err := write(&screen, d, system); err != nil {
		return err
	}
	if flags.out != "" {
		files, err := render.Files(d, system)
		if err != nil {
			return err
		}
		if err := replacing(cmd).WriteFolder(cmd.Context(), flags.out, files); err != nil {
			return err
		}
	}
	if _, err := cmd.OutOrStdout().Write(screen.Bytes()); err != nil {
		return err
	}
	if flags.out != "" && !flags.json {
		fmt.Fprintf(cmd.OutOrStdout(), "The answer, its tables and cautions are in %s\n", flags.out)
	}
	return nil
}
