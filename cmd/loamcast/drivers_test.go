package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// `drivers` refuses what makes no sense, and what its file cannot answer, with
// status 2, says what to write, and leaves no folder.
func TestDriversMistakes(t *testing.T) {
	for _, c := range []struct {
		want string
		args []string
	}{
		{`loamcast: --answer: "money" is not an answer; write vessels, chips or cost`, []string{"--answer", "money"}},
		{"loamcast: --paths 1: it must be from 2 to 10000", []string{"--paths", "1"}},
		{"loamcast: --replications 0: it must be from 1 to", []string{"--replications", "0"}},
		{"loamcast: --rows 1: it must be from 2", []string{"--shares", "--rows", "1"}},
		{"loamcast: --rows 50: it counts only with --shares", []string{"--rows", "50"}},
		{"loamcast: --workers -1: must not be negative", []string{"--workers", "-1"}},
		{"loamcast: dunmarrow.yaml (built in): nothing in it is uncertain, so that nothing can move the answer.\n" +
			"  Add growth_scenarios, or a list such as\n    uncertain:\n      - {input: solids.dry_per_day, uniform: [", []string{"dunmarrow"}},
	} {
		dir := filepath.Join(t.TempDir(), "out")
		status, stdout, stderr := program(t.Context(), slices.Concat([]string{"drivers", "--out", dir}, c.args)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, c.want) || exists(dir) {
			t.Errorf("%v: status %d, standard output %q, folder there: %v, got\n%q, want\n%q", c.args, status, stdout, exists(dir), stderr, c.want)
		}
	}
}

// shortFile returns the plant of the hand-worked figures with a horizon of 2 years.
func shortFile(t *testing.T) string {
	t.Helper()
	whole, err := os.ReadFile("../../scenarios/drivers/testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "plant.yaml")
	write(t, path, strings.Replace(string(whole), "horizon: 12 year", "horizon: 2 year", 1))
	return path
}

// The answer comes first, the folder holds all of it, and 1 and 2 workers give the
// same bytes.
func TestDriversAreReproducible(t *testing.T) {
	file := shortFile(t)
	stdout, files := reproduced(t, []string{"drivers", file, "--answer", "chips",
		"--shares", "--paths", "2", "--replications", "1", "--rows", "2"}, withWorkers...)
	if !strings.HasPrefix(stdout, "What moves the fresh chips bought a year most is ") {
		t.Errorf("%.300s", stdout)
	}
	leaves(t, files, []string{"cautions.txt", "drivers-variance.png", "drivers-variance.svg", "drivers.csv", "drivers.json", "drivers.png", "drivers.svg", "drivers.txt"})
	var got struct {
		Answer string
		Inputs []struct{ Input string }
	}
	if err := json.Unmarshal([]byte(files["drivers.json"]), &got); err != nil || got.Answer != "chips" || len(got.Inputs) != 5 {
		t.Errorf("JSON: %+v, %v", got, err)
	}
}

// Each flag changes what is found.
func TestDriversFlagsMatter(t *testing.T) {
	file := shortFile(t)
	run := func(args ...string) string {
		all := append([]string{"drivers", file, "--answer", "chips", "--paths", "2", "--replications", "1"}, args...)
		status, stdout, stderr := program(t.Context(), all...)
		if status != exitOK {
			t.Fatalf("%v: status %d, %s", args, status, stderr)
		}
		return stdout
	}
	seen := map[string]bool{run(): true}
	for _, args := range [][]string{{"--seed", "5"}, {"--paths", "3"}, {"--answer", "vessels"}, {"--answer", "cost"}, {"--units", "si"}, {"--json"}, {"--shares", "--rows", "3"}, {"--replications", "2"}} {
		out := run(args...)
		if seen[out] {
			t.Errorf("%v changes nothing", args)
		}
		seen[out] = true
	}
}

// An interrupted search leaves with status 130 and writes nothing.
func TestDriversInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	dir := filepath.Join(t.TempDir(), "out")
	if status, stdout, stderr := program(ctx, "drivers", "--out", dir); status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted") || exists(dir) {
		t.Errorf("status %d, %q, %q, folder there: %v", status, stdout, stderr, exists(dir))
	}
}
