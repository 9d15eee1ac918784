package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile/filetest"
)

// changedFiles is how many files changed by chance each command is asked of.
var changedFiles = flag.Int("changed", 0, "files changed by chance that each command is tried with, for each built-in facility; 0 for one of one facility")

// quickly are arguments with which a command does as little as it may.
var quickly = map[string][]string{
	"run":     {"--replications", "1"},
	"when":    {"--wrong", "25 %"},
	"chips":   {"--years", "1", "--replications", "2"},
	"product": {"--years", "1", "--replications", "2"},
	"options": {},
	"expand":  {"--plans", "2"},
	"drivers": {"--paths", "2", "--replications", "1"},
	"setback": {"--replications", "10"},
	"plan":    {},
	"mix":     {},
	"cycle":   {"--month", "all"},
}

// Whatever values the keys of a file have within their bounds, every command
// answers, or says what is wrong with the file, in reasonable time: nothing
// panics, no figure is what no figure can be, and no share of a whole passes it.
// Ten thousand files: go test ./cmd/loamcast -run ChangedFiles -changed 3334.
func TestChangedFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("runs every command several times; the round without -short has it")
	}
	for i, name := range slices.Sorted(maps.Keys(quickly)) {
		t.Run(name, func(t *testing.T) {
			for k, example := range examples.Names() {
				if *changedFiles == 0 && i%len(examples.Names()) != k {
					continue
				}
				text, err := filetest.Short(string(examples.Data(example)))
				if err != nil {
					t.Fatal(err)
				}
				for seed := range uint64(max(1, *changedFiles)) {
					askChanged(t, name, example, text, seed)
				}
			}
		})
	}
}

// askChanged asks a command of one changed file.
func askChanged(t *testing.T, name, example, text string, seed uint64) {
	t.Helper()
	changed, done, _, err := filetest.Valid(text, seed)
	if err != nil {
		t.Fatal(err)
	}
	what := fmt.Sprintf("%s of %s, seed %d, %s", name, example, seed, strings.Join(done, "; "))
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, []byte(changed), 0o644); err != nil {
		t.Fatal(err)
	}
	const patience = 5 * time.Minute // on a slow machine under the race detector
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	status, stdout, stderr := program(ctx, slices.Concat([]string{name, path, "--json"}, quickly[name])...)
	switch {
	case ctx.Err() != nil:
		t.Errorf("%s: not done after %v", what, patience)
	case status == exitBadInput && strings.Contains(stderr, "plant.yaml"):
	case status != exitOK:
		t.Errorf("%s: status %d, %s", what, status, stderr)
	default:
		var whole any
		if err := json.Unmarshal([]byte(stdout), &whole); err != nil {
			t.Fatalf("%s: %v in %.300s", what, err, stdout)
		}
		for _, fault := range impossible("", whole) {
			t.Errorf("%s: %s", what, fault)
		}
	}
}

// mayPass are percents that are no share of a whole: rates, differences, ratios of
// unlike things.
var mayPass = []string{"per_year", "headroom", "variation", "nearest", "p5_percent", "p95_percent", "margin", "variance", "carry_over"}

// impossible lists what cannot be in an answer: words that stand for no number, and
// shares of a whole below nothing or above all.
func impossible(path string, v any) []string {
	var faults []string
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			faults = append(faults, impossible(path+"."+key, inner)...)
		}
	case []any:
		for _, inner := range v {
			faults = append(faults, impossible(path+"[]", inner)...)
		}
	case string:
		for _, word := range []string{"NaN", "n/a", "infinite", "%!"} {
			if strings.Contains(v, word) {
				faults = append(faults, fmt.Sprintf("%s says %q", path, v))
			}
		}
	case float64:
		part := strings.Contains(path, "percent") && !slices.ContainsFunc(mayPass, func(m string) bool { return strings.Contains(path, m) })
		if part && !(v >= -1e-6 && v <= 100+1e-6) {
			faults = append(faults, fmt.Sprintf("%s is %g", path, v))
		}
	}
	return faults
}
