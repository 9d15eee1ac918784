package main

import (
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
)

// withWorkers are arguments that must not alter an answer.
var withWorkers = [][]string{{"--workers", "1"}, {"--workers", "2"}}

// reproduced runs the program with args and each list of more, every time into a folder of
// its own and, if there are several, without what is kept from one command to the next. It
// returns what it printed and left. It must succeed, without a word on standard error unless
// a file is warned of, leave no empty file, and print and leave the same bytes every time.
func reproduced(t *testing.T, args []string, more ...[]string) (stdout string, files map[string]string) {
	t.Helper()
	if cmd, _, err := newRoot().Find(args); len(more) > 1 && err == nil && cmd.Flags().Lookup("no-cache") != nil {
		args = append(slices.Clone(args), "--no-cache") // every time anew
	}
	for i, extra := range more {
		dir := filepath.Join(t.TempDir(), "out")
		all := slices.Concat(args, extra, []string{"--out", dir})
		status, printed, stderr := program(t.Context(), all...)
		if status != exitOK || stderr != "" && !warned(args) {
			t.Fatalf("%v: status %d, %q\n%.300s", all, status, stderr, printed)
		}
		printed = strings.ReplaceAll(printed, dir, "DIR")
		left := contents(t, dir)
		for name, text := range left {
			if text == "" {
				t.Errorf("%v: %s is empty", all, name)
			}
		}
		if i == 0 {
			stdout, files = printed, left
			continue
		}
		if printed != stdout {
			t.Errorf("%v prints\n%s\nand before\n%s", all, printed, stdout)
		}
		if !maps.Equal(left, files) {
			t.Errorf("%v: other files than before, or other bytes in one of %v", all, slices.Sorted(maps.Keys(left)))
		}
	}
	return stdout, files
}

// warned reports whether a file is named that may be warned of; the built-in
// examples are not.
func warned(args []string) bool {
	return slices.ContainsFunc(args, func(a string) bool { return strings.HasSuffix(a, ".yaml") })
}

// leaves checks the names of the files in a folder, in order, beside the list of
// what is ours.
func leaves(t *testing.T, files map[string]string, want []string) {
	t.Helper()
	want = slices.Sorted(slices.Values(append(want, outfile.ListName, inputs.AsRead, "inputs.csv", render.DictionaryName)))
	if names := slices.Sorted(maps.Keys(files)); !slices.Equal(names, want) {
		t.Errorf("it leaves %v, not %v", names, want)
	}
}
