package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/cache"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// simulationFlags are the flags of every command that simulates.
type simulationFlags struct {
	showFlags
	seed    uint64
	workers int
	noCache bool
	noRuns  bool         // of a command that keeps its runs itself
	kept    *cache.Cache // nil until something is made ready, and where nothing is kept
}

func (s *simulationFlags) register(cmd *cobra.Command) {
	s.showFlags.register(cmd)
	s.registerRuns(cmd)
}

// registerRuns registers the flags of what is simulated.
func (s *simulationFlags) registerRuns(cmd *cobra.Command) {
	f := cmd.Flags()
	f.Uint64Var(&s.seed, "seed", 0, "seed of the random streams (default: the file's)")
	f.IntVar(&s.workers, "workers", 0, "replications at a time (default: one per core; results do not depend on it)")
	s.registerCache(cmd)
}

// registerCache registers the flag of what is kept.
func (s *simulationFlags) registerCache(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&s.noCache, "no-cache", false, "neither read nor keep what takes long to work out (results do not depend on it; see loamcast cache)")
}

// open reads the facility that is named, with the seed asked for, and the system
// in which its answer is shown.
func (s *simulationFlags) open(cmd *cobra.Command, args []string) (*source, units.System, error) {
	if s.workers < 0 {
		return nil, units.System{}, usageError{fmt.Errorf("--workers %d: must not be negative", s.workers)}
	}
	facility, err := load(cmd.Context(), args, s.designs())
	if err != nil {
		return nil, units.System{}, err
	}
	if cmd.Flags().Changed("seed") {
		facility.Seed = s.seed
	}
	system, err := facility.unitsFlag(s.units)
	return facility, system, err
}

// subject is a facility made ready to be asked about.
type subject struct {
	*source
	system units.System // in which its answers are shown
	study  *study.Study
	setup  answer.Setup
}

// subject reads the facility that is named and makes it ready, and says what it warns of.
// Progress is told to bars.
func (s *simulationFlags) subject(cmd *cobra.Command, args []string, bars *parts) (*subject, error) {
	facility, system, err := s.open(cmd, args)
	if err != nil {
		return nil, err
	}
	return s.ready(cmd, facility, system, bars)
}

// ready makes a facility ready to be asked about, and says what it warns of.
func (s *simulationFlags) ready(cmd *cobra.Command, facility *source, system units.System, bars *parts) (*subject, error) {
	made, err := study.New(facility.File, s.workers)
	if err != nil {
		return nil, err
	}
	s.keep(made)
	facility.warn(cmd.ErrOrStderr())
	setup := answer.Setup{Source: facility.label, Invented: facility.invented, Version: version, Progress: bars.update}
	return &subject{facility, system, made, setup}, nil
}

// cache opens what is kept. It is nil if the command is not to use it, or there is nowhere
// to keep anything: answers are the same without.
func (s *simulationFlags) cache() *cache.Cache {
	if s.kept == nil && !s.noCache {
		s.kept = openCache()
	}
	return s.kept
}

// openCache opens what is kept, or returns nil if there is nowhere to keep anything.
func openCache() *cache.Cache {
	dir, err := cache.Folder()
	if err != nil {
		return nil
	}
	c, err := cache.Open(dir)
	if err != nil {
		return nil
	}
	return c
}

// designs are the recipes that are kept, for a facility that leaves its own to the program.
func (s *simulationFlags) designs() *cache.Designs {
	if c := s.cache(); c != nil {
		return c.Designs()
	}
	return cache.MemoryOnly()
}

// keep lets a study read the tables of courses and the runs that are kept.
func (s *simulationFlags) keep(made *study.Study) {
	if s.cache() == nil {
		return
	}
	made.Keep(s.kept.Keep)
	if !s.noRuns {
		made.KeepRuns(s.kept.Runs())
	}
}

// answered keeps the tables and runs of a command that has shown its answer, if it has.
// That they cannot be kept is no error: the next command makes them again.
func (s *simulationFlags) answered(err error) error {
	switch {
	case s.kept == nil:
	case err == nil:
		_ = s.kept.Save()
	default:
		s.kept.Discard()
	}
	return err
}
