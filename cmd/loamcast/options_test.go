package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// plannedFile is a sound facility file with money and options that runs quickly.
const plannedFile = "../../scenarios/facilityfile/testdata/planning.yaml"

// `options` refuses what makes no sense, and files without money or options, with
// status 2, and says what would be right; no folder is left.
func TestOptionsMistakes(t *testing.T) {
	data, err := os.ReadFile(plannedFile)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	from, to := strings.Index(text, "\noptions:\n"), strings.Index(text, "\ncatalogue:\n")
	if from < 0 || to < from {
		t.Fatal("the file has no options before its catalogue")
	}
	dir := t.TempDir()
	without := filepath.Join(dir, "without.yaml")
	write(t, without, text[:from]+text[to:])
	for _, c := range []struct {
		want string
		args []string
	}{
		{"--replications 1: it must be from 2 to", []string{plannedFile, "--replications", "1"}},
		{"--workers -1: must not be negative", []string{plannedFile, "--workers", "-1"}},
		{`--discount: "4" has no unit`, []string{plannedFile, "--discount", "4"}},
		{"--discount 80 %/year: it must be from -10 %/year to 50 %/year", []string{plannedFile, "--discount", "80 %/year"}},
		{`--units: "metric" is not a system of units`, []string{plannedFile, "--units", "metric"}},
		{"nowhere.yaml: there is no such file", []string{"nowhere.yaml"}},
		{smallFile + ": it has no prices to compare options by; write a group money:", []string{smallFile}},
		{without + ": it has no options to compare with the plant as it is; write options:", []string{without}},
	} {
		out := filepath.Join(dir, "out")
		status, stdout, stderr := program(t.Context(), append([]string{"options", "--out", out}, c.args...)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) || exists(out) {
			t.Errorf("%v: status %d, standard output %q, folder there: %v, got\n%q, want\n%q", c.args, status, stdout, exists(out), stderr, c.want)
		}
	}
}

// The comparison gives the same bytes with 1 and 2 workers, on screen and in every
// file; seed, discount rate and number of replications each change it.
func TestOptionsAreReproducible(t *testing.T) {
	run := func(more ...[]string) (screen string, files map[string]string) {
		return reproduced(t, []string{"options", plannedFile, "--json"}, more...)
	}
	screen, files := run(withWorkers...)
	leaves(t, files, []string{"cautions.txt", "options-cost.png", "options-cost.svg", "options-difference.png", "options-difference.svg",
		"options-growth.csv", "options-years.csv", "options.csv", "options.json", "options.txt"})
	if files["options.json"] != screen {
		t.Error("the answer on screen is not the one in options.json")
	}
	for name, args := range map[string][]string{
		"seed": {"--seed", "7"}, "discount": {"--discount", "9 %/year"}, "replications": {"--replications", "4"}, "units": {"--units", "si"},
	} {
		if other, _ := run(args); other == screen {
			t.Errorf("--%s changes nothing", name)
		}
	}
	var answer struct {
		Headline     string
		Replications int
		Choices      []struct{ Choice string }
	}
	if err := json.Unmarshal([]byte(screen), &answer); err != nil {
		t.Fatal(err)
	}
	if answer.Replications != 2 || len(answer.Choices) != 3 || !strings.HasPrefix(strings.ReplaceAll(files["options.txt"], "\n  ", " "), answer.Headline) {
		t.Errorf("%+v, text begins with %.100q", answer, files["options.txt"])
	}
}

// An interrupted comparison leaves with status 130 and writes nothing.
func TestOptionsInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	dir := filepath.Join(t.TempDir(), "out")
	status, stdout, stderr := program(ctx, "options", plannedFile, "--out", dir)
	if status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted") || exists(dir) {
		t.Errorf("status %d, %q, %q, folder there: %v", status, stdout, stderr, exists(dir))
	}
}
