package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// showFlags are the flags for how an answer is shown.
type showFlags struct {
	units string
	json  bool
	out   string
	force bool // read by replacing
}

// What help says of flags that more than one kind of command has.
const (
	unitsHelp = "show results in us or si units (default: the file's)"
	forceHelp = "replace files that are not loamcast's, or have been changed; never the facility file"
)

func (s *showFlags) register(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&s.units, "units", "", unitsHelp)
	f.BoolVar(&s.json, "json", false, "print the whole answer as JSON")
	f.StringVar(&s.out, "out", "", "folder for the text, tables (CSV), pictures, the answer (JSON), and the file with all values used")
	f.BoolVar(&s.force, "force", false, forceHelp)
}

// showOf shows an answer about one facility file, of which a folder of results keeps all
// values and a copy.
func showOf(cmd *cobra.Command, f *facilityfile.File, d *document.Document, system units.System, flags *showFlags) error {
	d.Add(inputs.Table(f))
	return show(cmd, d, system, flags, inputs.Copy(f))
}

// show makes all renderings of an answer before it writes the first; a folder of results
// gets some files more.
func show(cmd *cobra.Command, d *document.Document, system units.System, flags *showFlags, more ...outfile.File) error {
	var screen bytes.Buffer
	write := screenOf(cmd.OutOrStdout()).Text
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
		files = append(files, more...)
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
