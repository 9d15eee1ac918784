package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"loamcast/scenarios/render"
)

// screenOf is the screen that output is written for: that of the terminal; or one of as
// many columns as the environment's COLUMNS has, if that is given; or the usual one, so
// that what is piped does not depend on a window.
func screenOf(w io.Writer) render.Screen {
	if f, ok := w.(*os.File); ok {
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil {
			return render.OfTerminal(columns)
		}
	}
	if columns, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && columns > 0 {
		return render.OfTerminal(columns)
	}
	return render.Usual
}

// helpOn makes help as wide as the screen.
func helpOn(root *cobra.Command) {
	help := root.HelpFunc()
	root.SetHelpFunc(func(cmd *cobra.Command, args []string) {
		screen := screenOf(cmd.OutOrStdout())
		cmd.Long = reflow(cmd.Long, screen)
		cmd.SetUsageTemplate(strings.ReplaceAll(cmd.UsageTemplate(), ".FlagUsages", fmt.Sprintf(".FlagUsagesWrapped %d", screen.Columns)))
		help(cmd, args)
	})
}

// reflow breaks the lines of paragraphs anew, but of lists, whose lines are indented.
func reflow(text string, screen render.Screen) string {
	paragraphs := strings.Split(text, "\n\n")
	for i, p := range paragraphs {
		if !strings.Contains(p, "\n ") {
			paragraphs[i] = strings.Join(screen.Wrap(strings.ReplaceAll(p, "\n", " "), "", ""), "\n")
		}
	}
	return strings.Join(paragraphs, "\n\n")
}
