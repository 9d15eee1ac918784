package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/html"
	"loamcast/scenarios/render/pdf"
	"loamcast/scenarios/render/workbook"
	"loamcast/scenarios/report"
)

// newReport is the command that puts the answers together to be handed on.
func newReport() *cobra.Command {
	flags := simulationFlags{}
	only := []string{}
	cmd := &cobra.Command{
		Use:   "report [FILE] --out DIR",
		Short: "Write the answers as a report to hand on (HTML, PDF, XLSX)",
		Long: `Ask all questions that FILE allows, or a built-in example, or the demo if nothing
is named, and write a report to hand on: a page for the board, each answer in full
with its pictures, the plant and its accounts, every value used with its source,
assumptions and equations, and what it takes to have the same report again.

report.html is one file that needs no network and can be read on a telephone;
report.pdf is the same on paper, with pages and contents. report.xlsx is a workbook:
tables by month and year, and money as formulas, so that another price or discount
rate shows at once what it would cost. Beside them lie the tables of all answers as
CSV, and the facility file as it was read.
` + exampleHelp() + exitHelp,
		Example: strings.Join([]string{
			"  loamcast report --out board",
			"  loamcast report plant.yaml --out board --units si",
			"  loamcast report plant.yaml --out order --only when,check",
		}, "\n"),
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return flags.answered(writeReport(cmd, args, &flags, only))
		},
	}
	f := cmd.Flags()
	flags.registerReport(cmd)
	f.StringSliceVar(&only, "only", nil, "parts, by the names of their commands: "+strings.Join(report.Questions(), ", ")+" (default: all but setback, which takes long)")
	return cmd
}

// registerReport registers the flags of a report: it goes to a folder, and not to the
// screen.
func (s *simulationFlags) registerReport(cmd *cobra.Command) {
	s.registerRuns(cmd)
	f := cmd.Flags()
	f.StringVar(&s.units, "units", "", unitsHelp)
	f.StringVar(&s.out, "out", "", "folder for the report")
	f.BoolVar(&s.force, "force", false, forceHelp)
}

// writeReport makes a report and then writes it, whole or not at all.
func writeReport(cmd *cobra.Command, args []string, flags *simulationFlags, only []string) error {
	if flags.out == "" {
		return wrongUsage(cmd, fmt.Errorf("a report goes to a folder: name one with --out"))
	}
	bars := parts{}
	f, err := flags.subject(cmd, args, &bars)
	if err != nil {
		return err
	}
	r, err := report.Ask(cmd.Context(), f.study, f.setup, only)
	bars.done()
	if err != nil {
		return wrongOption(err)
	}
	var page, paper, book bytes.Buffer
	if err := errors.Join(html.Write(&page, r, f.system), pdf.Write(&paper, r, f.system), workbook.Write(&book, r, f.system)); err != nil {
		return err
	}
	files, err := render.Tables(r, f.system)
	if err != nil {
		return err
	}
	files = append(files, outfile.File{Name: "report.html", Data: page.Bytes()}, outfile.File{Name: "report.pdf", Data: paper.Bytes()},
		outfile.File{Name: "report.xlsx", Data: book.Bytes()}, inputs.Copy(f.File))
	if err := replacing(cmd).WriteFolder(cmd.Context(), flags.out, files); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "The report is in %s: report.html, report.pdf and report.xlsx\n", flags.out)
	return nil
}
