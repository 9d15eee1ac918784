package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"path/filepath"
	"strconv"

	"github.com/spf13/cobra"

	"loamcast/scenarios/cache"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/infile"
	"loamcast/scenarios/page"
	"loamcast/scenarios/page/drafts"
	"loamcast/scenarios/units"
)

// loopback is the only interface that the page is served on.
const loopback = "127.0.0.1"

// newPage is the command that serves the local page.
func newPage() *cobra.Command {
	port, workers, system := 0, 0, ""
	cmd := &cobra.Command{
		Use:   "page [FILE]",
		Short: "Open a page in the browser: turn a dial, see the year move",
		Long: `Serve a page for this machine alone, on which values of FILE, or of a built-in
example, or of the demo if nothing is named, are dials: turn one and see when vessels
must be ordered, by a quick look at first and surer by the second, until it is as the
command line says. The page asks every other question too, goes through what each vessel
is in quarter by quarter, lays cases side by side under the same luck, edits the file and
leaves its comments and layout as they are, and makes the report and the workbook.

The address that is printed holds a key that is new at each start: only who has it can
use the page. Files are read and written in the folder of FILE alone, or for a built-in
example in the current one. Ctrl-C ends it; what is edited and not saved is offered at
the next start: it is kept in the folder that the environment's ` + drafts.Variable + ` names,
or in one of the user's.
` + exampleHelp() + exitHelp,
		Example: "  loamcast page\n  loamcast page plant.yaml --port 8080",
		Args:    usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return servePage(cmd, args, port, workers, system)
		},
	}
	f := cmd.Flags()
	f.IntVar(&port, "port", 0, "port of the page (default: one that is free)")
	f.StringVar(&system, "units", "", unitsHelp)
	f.IntVar(&workers, "workers", 0, "replications at a time (default: one per core; results do not depend on it)")
	return cmd
}

// mostPort is the last there is.
const mostPort = 1<<16 - 1

// servePage reads the file, tells where the page is, and serves it until a signal ends it.
func servePage(cmd *cobra.Command, args []string, port, workers int, system string) error {
	switch {
	case port < 0 || port > mostPort:
		return usageError{fmt.Errorf("--port %d: it must be from 0 to %d", port, mostPort)}
	case workers < 0:
		return usageError{fmt.Errorf("--workers %d: must not be negative", workers)}
	}
	if system != "" {
		if _, err := units.ParseSystem(system); err != nil {
			return usageError{fmt.Errorf("--units: %w", err)}
		}
	}
	if len(args) > 0 && args[0] == infile.Standard {
		return usageError{errors.New("a page needs a file that it can read again: name one")}
	}
	s, err := read(args)
	if err != nil {
		return err
	}
	known := cache.MemoryOnly()
	if kept := openCache(); kept != nil {
		known = kept.Designs()
	}
	ready := func(ctx context.Context, f *facilityfile.File) error { return (&source{File: f}).prepare(ctx, known) }
	c := page.Config{Label: s.label, Data: s.Data, Invented: s.invented, Version: version, Units: system, Workers: workers, Ready: ready, Folder: "."}
	if !s.invented {
		if c.Path, err = filepath.Abs(args[0]); err != nil {
			return err
		}
		c.Folder = filepath.Dir(c.Path)
	}
	if c.Drafts, err = drafts.Folder(); err != nil {
		fmt.Fprintf(cmd.ErrOrStderr(), "loamcast: what is not saved is kept in the browser's tab alone: %v; name a folder in %s\n", err, drafts.Variable)
	}
	l, err := new(net.ListenConfig).Listen(cmd.Context(), "tcp", net.JoinHostPort(loopback, strconv.Itoa(port)))
	if err != nil {
		return usageError{fmt.Errorf("--port %d: %w", port, err)}
	}
	made := page.New(c)
	fmt.Fprintf(cmd.OutOrStdout(), "Open this address in a browser on this machine (Ctrl-C ends it):\n  %s\n", made.Address(l))
	if err := made.Serve(cmd.Context(), l); err != nil && !errors.Is(err, context.Canceled) {
		return err
	}
	return nil
}
