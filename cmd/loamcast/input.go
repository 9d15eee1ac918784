package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// source is where a facility comes from.
type source struct {
	*facilityfile.File
	label    string
	invented bool
}

// load reads the file named by args, or the built-in example of that name, or
// the demo if there is no argument. A file in the way of an example's name
// wins.
func load(args []string) (*source, error) {
	if len(args) == 0 {
		return builtIn(examples.Demo)
	}
	if _, err := os.Stat(args[0]); errors.Is(err, fs.ErrNotExist) {
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
}

// unitsFlag returns the system that --units names, or the file's.
func (s *source) unitsFlag(name string) (units.System, error) {
	if name == "" {
		return s.Units, nil
	}
	system, err := units.ParseSystem(name)
	if err != nil {
		return 0, usageError{fmt.Errorf("--units: %w", err)}
	}
	return system, nil
}
