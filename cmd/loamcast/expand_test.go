package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// catalogueFile is a sound facility file with money and a small catalogue.
const catalogueFile = "../../scenarios/expand/testdata/small.yaml"

// `expand` refuses what makes no sense, and files without money or catalogue, with
// status 2, and says what would be right; no folder is left.
func TestExpandMistakes(t *testing.T) {
	data, err := os.ReadFile(catalogueFile)
	if err != nil {
		t.Fatal(err)
	}
	before, _, found := strings.Cut(string(data), "\ncatalogue:\n")
	if !found {
		t.Fatal("the file has no catalogue")
	}
	dir := t.TempDir()
	without := filepath.Join(dir, "without.yaml")
	write(t, without, before+"\n")
	for _, c := range []struct {
		want string
		args []string
	}{
		{"--replications 3: it must be from 6, the fewest that can tell", []string{catalogueFile, "--replications", "3"}},
		{"--plans 0: it must be from 1 to 20", []string{catalogueFile, "--plans", "0"}},
		{"--workers -1: must not be negative", []string{catalogueFile, "--workers", "-1"}},
		{catalogueFile + `: there is no growth scenario "tenfold"; it has "as expected"`, []string{catalogueFile, "--growth", "tenfold"}},
		{`--units: "metric" is not a system of units`, []string{catalogueFile, "--units", "metric"}},
		{"nowhere.yaml: there is no such file", []string{"nowhere.yaml"}},
		{smallFile + ": it has no prices to choose by; write a group money:", []string{smallFile}},
		{without + ": it has no catalogue of what may be built; write catalogue:", []string{without}},
	} {
		out := filepath.Join(dir, "out")
		status, stdout, stderr := program(t.Context(), append([]string{"expand", "--out", out}, c.args...)...)
		if status != exitBadInput || stdout != "" || !strings.Contains(stderr, "loamcast: "+c.want) || exists(out) {
			t.Errorf("%v: status %d, standard output %q, folder there: %v, got\n%q, want\n%q", c.args, status, stdout, exists(out), stderr, c.want)
		}
	}
}

// The search gives the same bytes with 1 and 2 workers, on screen and in every
// file, and each of its flags changes it; text and JSON begin with the answer.
func TestExpandIsReproducible(t *testing.T) {
	run := func(more ...[]string) (screen string, files map[string]string) {
		return reproduced(t, []string{"expand", catalogueFile, "--json"}, more...)
	}
	screen, files := run(withWorkers...)
	leaves(t, files, []string{"cautions.txt", "expand-cost.png", "expand-cost.svg", "expand-signs.csv", "expand-steps.csv", "expand-when.png", "expand-when.svg",
		"expand-years.csv", "expand.csv", "expand.json", "expand.txt"})
	const answer = "The cheapest plan that keeps the service target in every year through 2030 is “thicker cake” in 2029, and “one vessel” in 2030: "
	if files["expand.json"] != screen || !strings.Contains(screen, answer) || !strings.HasPrefix(strings.ReplaceAll(files["expand.txt"], "\n  ", " "), answer) {
		t.Errorf("the text begins with %.150q", files["expand.txt"])
	}
	for name, args := range map[string][]string{
		"seed": {"--seed", "7"}, "plans": {"--plans", "1"}, "replications": {"--replications", "9"}, "units": {"--units", "si"},
	} {
		if other, _ := run(args); other == screen {
			t.Errorf("--%s changes nothing", name)
		}
	}
}

// An interrupted search leaves with status 130 and writes nothing.
func TestExpandInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	dir := filepath.Join(t.TempDir(), "out")
	status, stdout, stderr := program(ctx, "expand", catalogueFile, "--out", dir)
	if status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted") || exists(dir) {
		t.Errorf("status %d, %q, %q, folder there: %v", status, stdout, stderr, exists(dir))
	}
}
