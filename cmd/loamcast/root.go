package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/yamlfile"
)

// execute runs the program and returns its exit status.
func execute(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := guarded(ctx, root)
	switch {
	case err == nil:
	case isFault(err):
		reportFault(stderr, args, err)
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, interruptedText)
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
chips in aerated vessels, from a facility file, and says when to order vessels
and how many, how many chips to buy, how much compost to expect, and which
expansion is best, each with how sure that is.

It plans; it does not certify. Local codes, the permitting authority and
licensed practice decide.`,
		SilenceErrors: true,

		SuggestionsMinimumDistance: 2,
		SilenceUsage:               true,
		RunE: func(cmd *cobra.Command, args []string) error {
			return cmd.Help()
		},
		Args:              usage(knownCommand),
		PersistentPreRunE: checkPlaces,
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return wrongUsage(cmd, err) })
	groups := []struct {
		title    string
		commands []*cobra.Command
	}{
		question.Planning: {"The planning answers:", nil},
		question.Closer:   {"A closer look:", nil},
		{"Facility files:", []*cobra.Command{newNew(), newSchema()}},
		{"Several machines:", []*cobra.Command{newStudy(), newMerge()}},
	}
	for _, q := range questions.All {
		groups[q.Group].commands = append(groups[q.Group].commands, newQuestion(q))
	}
	groups[question.Planning].commands = append(groups[question.Planning].commands, newReport(), newCompare(), newPage())
	for _, g := range groups {
		root.AddGroup(&cobra.Group{ID: g.title, Title: g.title})
		for _, c := range g.commands {
			c.GroupID = g.title
			root.AddCommand(c)
		}
	}
	root.AddCommand(newCache(), newVersion())
	helpOn(root)
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
