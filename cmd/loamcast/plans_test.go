package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
)

// `mix` and `cycle` refuse what makes no sense with status 2 and say what would
// be right.
func TestPlanMistakes(t *testing.T) {
	for _, c := range []struct {
		want string
		args []string
	}{
		{`--month "foo": write a month such as jan, july or 7`, []string{"mix", "--month", "foo"}},
		{`--month "13": write a month`, []string{"cycle", "--month", "13"}},
		{`--month "ju": write a month`, []string{"cycle", "--month", "ju"}},
		{`--month "all": write a month`, []string{"mix", "--month", "all"}},
		{`--cake-solids: "18" has no unit`, []string{"mix", "--cake-solids", "18"}},
		{"--cake-solids 60 %: it must be from 8 % to 50 %", []string{"mix", "--cake-solids", "60 %"}},
		{"--days: a stay of 0 h is not from 1 hour to 366 days", []string{"cycle", "--days", "0"}},
		{"--hours: a stay of -5 h is not", []string{"cycle", "--hours", "-5"}},
		{"--days and --hours: give one of them", []string{"cycle", "--days", "3", "--hours", "72"}},
		{`--units: "metric" is not a system of units`, []string{"mix", "--units", "metric"}},
		{"nowhere.yaml: there is no such file", []string{"cycle", "nowhere.yaml"}},
	} {
		status, stdout, stderr := program(t.Context(), c.args...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) {
			t.Errorf("%v: status %d, standard output %q, got\n%q, want\n%q", c.args, status, stdout, stderr, c.want)
		}
	}
}

// Each plan prints its answer first, leaves all of its files, and gives the same
// bytes again.
func TestPlansAreReproducible(t *testing.T) {
	for _, c := range []struct {
		args  []string
		first string
		files []string
	}{
		{[]string{"mix", "--month", "jul", "--sweep"}, "Load ",
			[]string{"cautions.txt", "mix-cake-solids.csv", "mix-card.csv", "mix.json", "mix.txt"}},
		{[]string{"cycle", "dunmarrow", "--month", "1"}, "A January load passes 55 °C after ",
			[]string{"cautions.txt", "cycle-air.png", "cycle-air.svg", "cycle-days.csv", "cycle-moisture.png", "cycle-moisture.svg",
				"cycle-samples.csv", "cycle-temperature.png", "cycle-temperature.svg", "cycle.json", "cycle.txt"}},
		{[]string{"cycle", "pellwick", "--month", "All", "--units", "us"}, "Loads of ",
			[]string{"cautions.txt", "cycle-months.csv", "cycle-months.png", "cycle-months.svg", "cycle.json", "cycle.txt"}},
	} {
		stdout, files := reproduced(t, c.args, nil, nil)
		if !strings.HasPrefix(stdout, c.first) {
			t.Errorf("%v: %.300s", c.args, stdout)
		}
		printed, _, found := strings.Cut(stdout, "The answer, its tables and cautions are in")
		if !found || !strings.HasPrefix(files[c.args[0]+".txt"], printed+"\nloamcast ") { // where it says what it was made from
			t.Errorf("%v: the text in the folder is not what was printed", c.args)
		}
		leaves(t, files, c.files)
	}
}

// JSON is the whole of standard output, and has the month that was asked for;
// without one it is the month in which the file starts.
func TestPlanJSON(t *testing.T) {
	for _, c := range []struct {
		args  []string
		month int
	}{
		{[]string{"mix", "--json"}, 1}, {[]string{"mix", "--json", "--month", "September"}, 9},
		{[]string{"cycle", "--json"}, 1}, {[]string{"cycle", "--json", "--month", "jul", "--hours", "480"}, 7},
	} {
		status, stdout, _ := program(t.Context(), c.args...)
		var got struct {
			Month int
			Loads []struct {
				Month int
				Stay  float64 `json:"stay_day"`
			}
		}
		if err := json.Unmarshal([]byte(stdout), &got); status != exitOK || err != nil {
			t.Fatalf("%v: status %d, %v", c.args, status, err)
		}
		if c.args[0] == "cycle" {
			got.Month = got.Loads[0].Month
			if c.month == 7 && got.Loads[0].Stay != 20 {
				t.Errorf("480 hours are a stay of %g days", got.Loads[0].Stay)
			}
		}
		if got.Month != c.month {
			t.Errorf("%v: month %d, want %d", c.args, got.Month, c.month)
		}
	}
}

// An interrupted plan leaves with status 130 and writes nothing.
func TestPlansInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, name := range []string{"mix", "cycle"} {
		dir := filepath.Join(t.TempDir(), "out")
		status, stdout, stderr := program(ctx, name, "--out", dir)
		if status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted") || exists(dir) {
			t.Errorf("%s: status %d, %q, %q, folder there: %v", name, status, stdout, stderr, exists(dir))
		}
	}
}

// The options of a design matter: each change of the file or the command line
// changes the printed answer.
func TestMixOptionsMatter(t *testing.T) {
	demo := string(examples.Data(examples.Demo))
	// Where moisture decides, sawdust may be cheaper than chips.
	wet := strings.Replace(demo, "solids: {at_least: 35 %}", "solids: {at_least: 44 %}", 1)
	ask := func(t *testing.T, text string) string {
		t.Helper()
		path := filepath.Join(t.TempDir(), "plant.yaml")
		write(t, path, text)
		status, stdout, stderr := program(t.Context(), "mix", path, "--month", "jan", "--units", "us")
		if status != exitOK {
			t.Errorf("status %d, %s", status, stderr)
		}
		return stdout
	}
	plain := map[string]string{demo: ask(t, demo), wet: ask(t, wet)}
	for _, c := range []struct{ base, old, text string }{
		{demo, "solids: {at_least: 35 %}", "solids: {at_least: 42 %}"},
		{demo, "solids: {at_least: 35 %}", "solids: {at_least: 35 %, at_most: 36 %}"},
		{demo, "carbon_to_nitrogen: {at_least: 20", "carbon_to_nitrogen: {at_least: 30"},
		{demo, "at_most: 40}", "at_most: 22}"},
		{demo, "free_air_space: 23 %", "free_air_space: 28 %"},
		{demo, "bulk_density: 1,200 lb/yd3", "bulk_density: 950 lb/yd3"},
		{demo, "chips_to_cake: {at_least: 2,", "chips_to_cake: {at_least: 3.5,"},
		{demo, "at_most: 4}", "at_most: 2.5}"},
		{demo, "price: 11 USD/yd3", "price: 12 USD/yd3"},
		{wet, "cost: 16 USD/yd3", "cost: 2 USD/yd3"},
		{demo, "available_per_load: 3 yd3", "available_per_load: 4 yd3"},
	} {
		if !strings.Contains(c.base, c.old) {
			t.Errorf("the demo has no %q", c.old)
			continue
		}
		t.Run(c.text, func(t *testing.T) {
			t.Parallel()
			if ask(t, strings.Replace(c.base, c.old, c.text, 1)) == plain[c.base] {
				t.Error("changes nothing")
			}
		})
	}
}
