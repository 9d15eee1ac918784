package main

import (
	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/shards"
)

// newMerge is the command that makes an answer of replications that were simulated in
// shares.
func newMerge() *cobra.Command {
	flags := simulationFlags{noRuns: true} // they are what it is given
	cmd := &cobra.Command{
		Use:   "merge DIR...",
		Short: "Put together the shares of a study",
		Long: `Put together the replications that "loamcast study" has left in the folders named, and
show the answer of "loamcast run" of all of them, as a single machine would have it, to
the byte. Nothing is shown unless every replication is there, once, whole, and of the
same facility file, seed and program.
` + exitHelp,
		Example: `  loamcast merge study/*
  loamcast merge study/* --json --out answer
  loamcast merge study/* --quarter 2031-07`,
		Args: usage(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return mergeShares(cmd, args, &flags) },
	}
	addOptions(cmd, spreadQuestion.Replicated.Options)
	flags.showFlags.register(cmd)
	flags.registerCache(cmd)
	return cmd
}

// mergeShares reads the folders, makes the answer and shows it as its question does.
func mergeShares(cmd *cobra.Command, dirs []string, flags *simulationFlags) error {
	values, err := readOptions(cmd, spreadQuestion.Replicated.Options)
	if err != nil {
		return err
	}
	whole, err := shards.Gather(dirs)
	if err != nil {
		return err
	}
	file, err := facilityfile.Parse(whole.Source, whole.File)
	if err != nil {
		return err
	}
	facility := &source{File: file, label: whole.Source, invented: whole.Invented}
	if err := facility.prepare(cmd.Context(), flags.designs()); err != nil {
		return err
	}
	facility.Seed = whole.Seed
	system, err := facility.unitsFlag(flags.units)
	if err != nil {
		return err
	}
	f, err := flags.ready(cmd, facility, system, &parts{})
	if err != nil {
		return err
	}
	a, err := whole.Answer(cmd.Context(), spreadQuestion, f.study, f.setup, values)
	if err != nil {
		return wrongOption(err)
	}
	return showOf(cmd, f.File, a.Document(), f.system, &flags.showFlags)
}
