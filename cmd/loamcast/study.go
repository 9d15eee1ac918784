package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/shards"
	"loamcast/scenarios/simulate"
)

// spreadQuestion is the question of which replications can be simulated in shares.
var spreadQuestion = &simulate.Question

// newStudy is the command that simulates a share of the replications of an answer.
func newStudy() *cobra.Command {
	flags := simulationFlags{noRuns: true} // they are what it leaves
	o := shards.Options{}
	share := ""
	cmd := &cobra.Command{
		Use:   "study [FILE] --shard i/n --out DIR",
		Short: "Simulate a share of the replications of run",
		Long: `Simulate the i-th of n shares of the replications of "loamcast run FILE", on this machine,
and write each into a file of its own in DIR as soon as it is done. With a scheduler's
array of jobs, each with a share and a folder of its own, a study takes as many machines
as there are; "loamcast merge" makes the answer of all of them, the one that a single
machine gives, to the byte.

What was stopped goes on with --resume: replications that are there are kept.
` + exampleHelp() + exitHelp,
		Example: `  loamcast study plant.yaml --replications 10000 --shard 1/40 --out study/1
  loamcast study plant.yaml --replications 10000 --shard 1/40 --out study/1 --resume
  loamcast merge study/*`,
		Args: usage(cobra.MaximumNArgs(1)),
		// What may lie in DIR is for shards to say.
		PersistentPreRunE: func(*cobra.Command, []string) error { return nil },
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			if share == "" || o.Dir == "" {
				return wrongUsage(cmd, fmt.Errorf("say which share this is with --shard, as 1/8, and where it goes with --out"))
			}
			if o.Share, err = shards.ParseShare(share); err != nil {
				return usageError{fmt.Errorf("--shard %w", err)}
			}
			return flags.answered(simulateShare(cmd, args, &flags, o))
		},
	}
	flags.registerRuns(cmd)
	f := cmd.Flags()
	f.StringVar(&share, "shard", "", "which share of how many, as 1/8")
	f.IntVar(&o.Replications, "replications", 0, "number of replications of all shares together (default: the file's)")
	f.StringVar(&o.Dir, "out", "", "folder for the replications of this share")
	f.BoolVar(&o.Resume, "resume", false, "go on with the replications that are there, if any are")
	return cmd
}

// simulateShare simulates a share and says what it did.
func simulateShare(cmd *cobra.Command, args []string, flags *simulationFlags, o shards.Options) error {
	if cmd.Flags().Changed("replications") && o.Replications == 0 {
		return usageError{fmt.Errorf("--replications 0: it must be from 1 to %d", facilityfile.MaxReplications)}
	}
	bars := parts{}
	f, err := flags.subject(cmd, args, &bars)
	if err != nil {
		return err
	}
	done, err := shards.Simulate(cmd.Context(), spreadQuestion, f.study, f.setup, o)
	bars.done()
	for _, path := range done.Damaged {
		fmt.Fprintf(cmd.ErrOrStderr(), "%s was damaged and is simulated again\n", path)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "Share %s is in %s: %d replications simulated, %d were there\n", done.Share, o.Dir, done.Simulated, done.Kept)
	return err
}
