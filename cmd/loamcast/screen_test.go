package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"loamcast/scenarios/questions"
)

// Help and an answer fit a terminal as wide as the environment says, and an answer uses
// what there is: of 120 columns more than of 80.
func TestFitsTheTerminal(t *testing.T) {
	widest := func(columns string, args ...string) int {
		t.Setenv("COLUMNS", columns)
		status, stdout, stderr := program(t.Context(), args...)
		if status != exitOK || stderr != "" {
			t.Fatalf("%v: status %d, %q", args, status, stderr)
		}
		most := 0
		for line := range strings.Lines(stdout) {
			most = max(most, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")))
		}
		return most
	}
	commands := [][]string{{"--help"}, {"new", "--help"}, {"schema", "--help"}, {"version", "--help"}, {"check"}, {"mix"}}
	for _, q := range questions.All {
		commands = append(commands, []string{q.Name, "--help"})
	}
	for _, args := range commands {
		if n := widest("80", args...); n > 80 {
			t.Errorf("%v: %d columns on a terminal of 80", args, n)
		}
	}
	if narrow, wide := widest("80", "mix"), widest("120", "mix"); wide <= narrow || wide > 120 {
		t.Errorf("mix: %d columns on a terminal of 80, %d on one of 120", narrow, wide)
	}
}
