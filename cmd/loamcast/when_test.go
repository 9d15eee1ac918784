package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// `when` and `plan` refuse what makes no sense with status 2 and say what would be
// right.
func TestWhenMistakes(t *testing.T) {
	for _, c := range []struct {
		want string
		args []string
	}{
		{"--replications 20: it must be from 32, the fewest that can tell", []string{"when", "--replications", "20"}},
		{"--wrong 0.01 %: it must be from 0.1 % to 25 %", []string{"when", "--wrong", "0.01 %"}},
		{`--wrong: "5" has no unit`, []string{"when", "--wrong", "5"}},
		{"--vessels 7: it must be from the 8 installed to", []string{"when", "--vessels", "7"}},
		{"--workers -1: must not be negative", []string{"when", "--workers", "-1"}},
		{"--units: ", []string{"when", "--units", "metric"}},
		{"--workers -1: must not be negative", []string{"plan", "--workers", "-1"}},
		{"--units: ", []string{"plan", "--units", "metric"}},
		{"nowhere.yaml: there is no such file", []string{"plan", "nowhere.yaml"}},
	} {
		dir := filepath.Join(t.TempDir(), "out")
		status, stdout, stderr := program(t.Context(), append(c.args, "--out", dir)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) {
			t.Errorf("%v: status %d, standard output %q, got\n%q, want\n%q", c.args, status, stdout, stderr, c.want)
		}
		if _, err := os.Stat(dir); !os.IsNotExist(err) {
			t.Errorf("%v leaves a folder", c.args)
		}
	}
}

// Both answer in their first lines, leave all of their files, and give the same
// bytes with another number of workers.
func TestWhenAndPlan(t *testing.T) {
	whenFiles := []string{"when-limits.csv", "when-years.csv", "when.csv", "when.json", "when.png", "when.svg", "when.txt"}
	for _, c := range []struct {
		args  []string
		first string
		files []string
	}{
		{[]string{"when", planningFile, "--vessels", "4"}, "2 vessels keep the service target", whenFiles},
		{[]string{"plan", planningFile}, "Vessels\n2 vessels keep", append(whenFiles, "plan.txt", "plan.json", "chips-years.csv", "product-years.csv", "options.csv")},
	} {
		stdout, files := reproduced(t, c.args, withWorkers...)
		if !strings.HasPrefix(stdout, c.first) {
			t.Errorf("%v: %.300s", c.args, stdout)
		}
		for _, name := range c.files {
			if files[name] == "" {
				t.Errorf("%v leaves no %s", c.args, name)
			}
		}
	}
}

// The JSON of `plan` holds the answers of the parts, and their sentences are those
// of the screen.
func TestPlanHoldsItsParts(t *testing.T) {
	status, stdout, stderr := program(t.Context(), "plan", planningFile, "--json")
	if status != exitOK {
		t.Fatalf("status %d, %s", status, stderr)
	}
	var a map[string]json.RawMessage
	if err := json.Unmarshal([]byte(stdout), &a); err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"vessels", "chips", "product", "options"} {
		var p struct{ Headline string }
		if err := json.Unmarshal(a[part], &p); err != nil || len(p.Headline) < 20 {
			t.Errorf("%s: headline %q (%v)", part, p.Headline, err)
		}
	}
	if !slices.Contains([]string{`"us"`, `"si"`}, string(a["units"])) {
		t.Errorf("units %s", a["units"])
	}
}

// `plan` says of the vessels what `when` says.
func TestPlanAgreesWithWhen(t *testing.T) {
	answer := func(args ...string) string {
		status, stdout, stderr := program(t.Context(), append(args, planningFile, "--seed", "3")...)
		if status != exitOK {
			t.Fatalf("%v: status %d, %s", args, status, stderr)
		}
		first, _, _ := strings.Cut(strings.TrimPrefix(stdout, "Vessels\n"), ".")
		return first
	}
	if when, plan := answer("when"), answer("plan"); when != plan {
		t.Errorf("when: %s\nplan: %s", when, plan)
	}
}
