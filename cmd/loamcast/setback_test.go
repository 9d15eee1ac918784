package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// smallWithSetbacks writes the small plant of the file's tests with two setbacks, and more years.
func smallWithSetbacks(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../scenarios/facilityfile/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "plant.yaml")
	write(t, path, string(data)+"setbacks:\n  - {name: vessel out, vessels_out: 1, for: 6 week}\n  - {name: wet spring, from: 03-01, for: 2 month, cake_solids: -2 %}\n")
	return path
}

// `setback` refuses what makes no sense with status 2, says what there is, and leaves no
// folder.
func TestSetbackMistakes(t *testing.T) {
	file := smallWithSetbacks(t)
	for _, c := range []struct {
		want string
		args []string
	}{
		{`loamcast: --name "flood": there are "vessel out", "wet spring"`, []string{"--name", "flood"}},
		{`loamcast: --year "1999": the horizon is 2027 to 2027`, []string{"--year", "1999"}},
		{"loamcast: --replications 3: it must be from 10 to", []string{"--replications", "3"}},
		{"loamcast: --wrong 50 %: it must be from 0.1 % to 25 %", []string{"--wrong", "50 %"}},
	} {
		dir := filepath.Join(t.TempDir(), "out")
		status, stdout, stderr := program(t.Context(), slices.Concat([]string{"setback", file, "--out", dir}, c.args)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, c.want) || exists(dir) {
			t.Errorf("%v: status %d, standard output %q, folder there: %v, got\n%q, want\n%q", c.args, status, stdout, exists(dir), stderr, c.want)
		}
	}
}

// The answer comes first, the folder holds all of it, 1 and 2 workers give the same bytes,
// and --name and --year ask of one setback and of one year.
func TestSetbackIsReproducible(t *testing.T) {
	if testing.Short() {
		t.Skip("asks a question of half a minute twice; the round without -short has it")
	}
	stdout, files := reproduced(t, []string{"setback", smallWithSetbacks(t), "--year", "2027", "--name", "vessel out", "--replications", "10"}, withWorkers...)
	if !strings.HasPrefix(stdout, "One vessel out for 6 weeks in 2027") || strings.Contains(stdout, "wet spring") {
		t.Errorf("%.300s", stdout)
	}
	leaves(t, files, []string{"cautions.txt", "setback-decisions.csv", "setback-months.png", "setback-months.svg", "setback.json", "setback.txt", "setbacks.csv"})
	var got struct {
		Decisions []struct{ Name, Year string }
		Setbacks  []struct{ Begins string }
	}
	if err := json.Unmarshal([]byte(files["setback.json"]), &got); err != nil || len(got.Decisions) != 1 || len(got.Setbacks) != 12 {
		t.Errorf("JSON: %+v, %v", got, err)
	}
}
