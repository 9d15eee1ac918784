package main

import (
	"fmt"
	"os"
	"strings"
)

// fault is one entry of the list.
type fault struct {
	name    string
	line    int    // of the list
	file    string // from the root of the project
	tests   string // the packages whose tests should notice
	run     string // of these, the tests alone that match; all if empty
	allowed string // why it may survive; empty if it may not
	text    string // what is replaced, in the file exactly once
	by      string
}

// parse reads a list. Its errors begin with the line.
func parse(list string) ([]fault, error) {
	var faults []fault
	for i, line := range strings.Split(list, "\n") {
		line, number := strings.TrimSuffix(line, "\r"), i+1
		if name, isNew := strings.CutPrefix(line, "= "); isNew {
			faults = append(faults, fault{name: name, line: number})
			continue
		}
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if len(faults) == 0 {
			return nil, fmt.Errorf("%d: a fault begins with a line \"= name\"", number)
		}
		if err := faults[len(faults)-1].read(line); err != nil {
			return nil, fmt.Errorf("%d: %w", number, err)
		}
	}
	for _, f := range faults {
		if f.file == "" || f.tests == "" || f.text == "" || f.text == f.by {
			return nil, fmt.Errorf("%d: %s needs a file, tests, and a text that changes", f.line, f.name)
		}
	}
	return faults, nil
}

// read takes one line of an entry.
func (f *fault) read(line string) error {
	for start, field := range map[string]*string{"file: ": &f.file, "tests: ": &f.tests, "run: ": &f.run, "allowed: ": &f.allowed} {
		if value, ok := strings.CutPrefix(line, start); ok {
			*field = value
			return nil
		}
	}
	for start, field := range map[string]*string{"-": &f.text, "+": &f.by} {
		if rest, ok := strings.CutPrefix(line, start); ok {
			if *field != "" {
				*field += "\n"
			}
			*field += strings.TrimPrefix(rest, " ")
			return nil
		}
	}
	return fmt.Errorf("cannot read %q", line)
}

// planted returns the file with the fault in it.
func (f fault) planted() (string, error) {
	text, err := os.ReadFile(f.file)
	if err != nil {
		return "", err
	}
	if n := strings.Count(string(text), f.text); n != 1 {
		return "", fmt.Errorf("its text is %d times in %s, not once", n, f.file)
	}
	return strings.Replace(string(text), f.text, f.by, 1), nil
}
