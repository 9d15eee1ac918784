package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/yamlfile"
)

// execute runs the program and returns its exit status.
func execute(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "loamcast: interrupted; nothing was written")
	case errors.As(err, new(*yamlfile.Problems)):
		fmt.Fprintln(stderr, err) // each line begins with the file's name, as editors want it
	default:
		fmt.Fprintf(stderr, "loamcast: %v\n", err)
	}
	return exitStatus(err)
}

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "loamcast",
		Short: "Plan a biosolids composting facility by simulation",
		Long: `Loamcast simulates a facility that composts dewatered biosolids with wood
chips in aerated vessels, from a facility file, and says how many vessels,
how many chips and how much compost the years ahead hold.

It plans; it does not certify. Local codes, the permitting authority and
licensed practice decide.`,
		SilenceErrors: true,

		SuggestionsMinimumDistance: 2,
		SilenceUsage:               true,
		RunE: func(cmd *cobra.Command, args []string) error {
			return cmd.Help()
		},
		Args: usage(knownCommand),
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return wrongUsage(cmd, err) })
	root.AddCommand(newPlan(), newRun(), newWhen(), newOptions(), newExpand(), newChips(), newProduct(), newDrivers(), newMix(), newCycle(), newCheck(), newNew(), newVersion())
	return root
}

// usage marks a failed check of arguments as a mistake on the command line.
func usage(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if err := check(cmd, args); err != nil {
			return wrongUsage(cmd, err)
		}
		return nil
	}
}

// wrongUsage says where to read what would be right.
func wrongUsage(cmd *cobra.Command, err error) error {
	return usageError{fmt.Errorf("%w (see %s --help)", err, cmd.CommandPath())}
}

// knownCommand refuses what is not a command, with the nearest that is.
func knownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return fmt.Errorf("there is no command %q; did you mean %s?", args[0], strings.Join(near, " or "))
	}
	return fmt.Errorf("there is no command %q", args[0])
}
