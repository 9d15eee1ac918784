package main

import (
	"bytes"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamcast/scenarios/outfile"
	"loamcast/scenarios/units"
)

// showFlags are the flags for how an answer is shown.
type showFlags struct {
	units string
	json  bool
	out   string
	force bool // read by replacing
}

func (s *showFlags) register(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&s.units, "units", "", "show results in us or si units (default: the file's)")
	f.BoolVar(&s.json, "json", false, "print the whole answer as JSON")
	f.StringVar(&s.out, "out", "", "folder for the text, tables (CSV), pictures and the answer (JSON)")
	f.BoolVar(&s.force, "force", false, "replace files that are not loamcast's, or have been changed; never the facility file")
}

// renderers turn an answer into what is shown.
type renderers[T any] struct {
	terminal, json func(io.Writer, T, units.System) error
	files          func(T, units.System) ([]outfile.File, error)
}

// present makes all renderings of an answer before it writes the first.
func present[T any](cmd *cobra.Command, a T, system units.System, flags showFlags, r renderers[T]) error {
	var screen bytes.Buffer
	render := r.terminal
	if flags.json {
		render = r.json
	}
	if err := render(&screen, a, system); err != nil {
		return err
	}
	if flags.out != "" {
		files, err := r.files(a, system)
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
