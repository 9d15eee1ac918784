package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"loamcast/scenarios/cache"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/infile"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/units"
	"loamcast/scenarios/warmup"
)

// source is where a facility comes from.
type source struct {
	*facilityfile.File
	label    string
	invented bool
	found    string // what was found out about it, if anything
	recipe   string // what was designed, if anything
}

// load reads a facility and makes it ready to be asked about.
func load(ctx context.Context, args []string, known *cache.Designs) (*source, error) {
	s, err := read(args)
	if err != nil {
		return nil, err
	}
	return s, s.prepare(ctx, known)
}

// prepare designs the recipe of a facility and finds its warm-up, if the file leaves that
// to the program. Recipes that are known are not designed again.
func (s *source) prepare(ctx context.Context, known *cache.Designs) error {
	recipe, err := mixplan.Apply(ctx, s.File, 0, known)
	if err != nil {
		return err
	}
	s.recipe = recipeText(s.label, recipe)
	detect := s.Planning.DetectWarmUp
	found, err := warmup.Apply(ctx, s.File)
	switch {
	case err != nil:
		return err
	case detect && !found.Settled:
		s.found = fmt.Sprintf("%s: warm_up: the plant does not settle; %s are simulated before the start", s.label, yearsText(found.Years))
	case detect:
		s.found = fmt.Sprintf("%s: warm_up: %s, as detected", s.label, yearsText(found.Years))
	}
	return nil
}

// recipeText says what was designed, empty if nothing was.
func recipeText(label string, r *mixplan.Recipe) string {
	if r == nil {
		return ""
	}
	text := fmt.Sprintf("%s: mix.recipe: designed, from %.2f to %.2f of chips for the cake, by month", label, slices.Min(r.Chips[:]), slices.Max(r.Chips[:]))
	if len(r.Missed) > 0 {
		text += fmt.Sprintf("; in %s no mix meets all targets: the nearest is mixed", monthsText(r.Missed))
	}
	if len(r.Open) > 0 {
		text += fmt.Sprintf("; in %s the search for the mix does not come to rest: the nearest that it found is mixed", monthsText(r.Open))
	}
	return text
}

func monthsText(months []time.Month) string {
	if len(months) == 1 {
		return months[0].String()
	}
	return fmt.Sprintf("%d months, %s the first,", len(months), months[0])
}

func yearsText(n int) string {
	if n == 1 {
		return "1 year"
	}
	return fmt.Sprintf("%d years", n)
}

// read reads the file named by args, or the built-in example of that name, or the
// demo if there is no argument. A file in the way of an example's name wins.
func read(args []string) (*source, error) {
	if len(args) == 0 {
		return builtIn(examples.Demo)
	}
	if _, err := os.Stat(args[0]); errors.Is(err, fs.ErrNotExist) && args[0] != infile.Standard {
		if examples.Has(args[0]) {
			return builtIn(args[0])
		}
		return nil, &facilityfile.Error{Err: fmt.Errorf("%s: there is no such file, and no built-in example of that name (%s)",
			args[0], strings.Join(examples.Names(), ", "))}
	}
	f, err := facilityfile.Open(args[0])
	if err != nil {
		return nil, err
	}
	return &source{File: f, label: args[0]}, nil
}

func builtIn(name string) (*source, error) {
	f, err := facilityfile.Parse(name+".yaml (built in)", examples.Data(name))
	if err != nil {
		return nil, err
	}
	return &source{File: f, label: "built-in example " + name, invented: true}, nil
}

// warn prints what the file was warned of.
func (s *source) warn(w io.Writer) {
	for _, d := range s.Warnings {
		fmt.Fprintln(w, d)
	}
	if s.recipe != "" {
		fmt.Fprintln(w, s.recipe)
	}
	if s.found != "" {
		fmt.Fprintln(w, s.found)
	}
}

// unitsFlag returns the system that --units names, or the file's.
func (s *source) unitsFlag(name string) (units.System, error) {
	if name == "" {
		return s.Units, nil
	}
	system, err := units.ParseSystem(name)
	if err != nil {
		return system, usageError{fmt.Errorf("--units: %w", err)}
	}
	return system, nil
}
