package main

import (
	"os"
	"strings"
	"testing"
)

// What is possible but strange in operations and planning is warned of once, in
// the words of its golden file, and the plant is sound all the same.
func TestOperationsWarnings(t *testing.T) {
	warnOfAll(t, yardFile, []spoilt{
		{"blowers below one vessel", []string{"blowers: 400 cfm", "blowers: 300 cfm"}},
		{"biofilter overloaded", []string{"loading: 4 cfm/ft2", "loading: 12 cfm/ft2"}},
		{"biofilter media soon", []string{"replaced_every: 3 year", "replaced_every: 6 month"}},
		{"high pile", []string{"height: 1.5 m, width: 4 m", "height: 8 m, width: 20 m"}},
		{"pulse too early", []string{"from: 2027-04-01", "from: 2026-04-01"}},
		{"change too late", []string{"date: 2027-05-01\n    lead_time: 2 month", "date: 2027-05-01\n    lead_time: 9 month"}},
		{"production passed already", []string{"held_above: 60 %, for: 10 day", "production: 80 kg/day"}},
		{"dewatering too slow for the feed", []string{"rate_dry: 150 kg/h", "rate_dry: 20 kg/h"}},
	})
}

func TestPlanningWarnings(t *testing.T) {
	warnOfAll(t, planningFile, []spoilt{
		{"mixer of unknown power", []string{"  power: 60 kW\n", ""}},
		{"option that costs nothing", []string{`cost: "90,000 USD", life: 15 year, salvage: 10 %, upkeep: 3 %/year, running: "-2,000 USD/year"`, "lead_time: 6 month"}},
		{"option too late", []string{"{date: 2029-01-01, cake", "{date: 2039-01-01, cake"}},
		{"discount high", []string{"discount: 5 %/year", "discount: 15 %/year"}},
		{"many solids per person", []string{"per_person: 0.05 kg/day", "per_person: 0.2 kg/day"}},
		{"spread away from the file", []string{"triangular: [77 %, 79 %, 80 %]", "triangular: [75 %, 77 %, 78 %]"}},
		{"spread beyond its range", []string{"pert: [70 %, 78 %, 84 %]", "normal: {mean: 90 %, sd: 10 %}"}},
	})
}

// warnOfAll asserts that every edited file is sound with the one warning of its
// golden file.
func warnOfAll(t *testing.T, path string, cases []spoilt) {
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "warnings", c.name)
			text := string(data)
			for i := 0; i < len(c.edits); i += 2 {
				text = replaced(t, text, c.edits[i], c.edits[i+1])
			}
			t.Chdir(t.TempDir())
			write(t, "plant.yaml", text)
			status, stdout, stderr := program(t.Context(), "check", "plant.yaml")
			if status != exitOK || !strings.Contains(stdout, "The file can be used (1 warning)") {
				t.Errorf("status %d, %q", status, stdout)
			}
			compare(t, golden, stderr)
		})
	}
}
