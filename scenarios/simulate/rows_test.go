package simulate_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/simulate/internal/sample"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// Every CSV file has a row for each record, or in a long one for each of its figures, and
// every column but the keys and what names figures holds plain numbers in both systems.
func TestCSVRows(t *testing.T) {
	a := sample.Answer(3)
	spent := slices.DeleteFunc(slices.Clone(a.Occupancy.Stays), func(s simulate.Stay) bool { return s.Phase == plant.StandsEmpty })
	want := map[string]struct{ rows, keys int }{
		"years.csv":     {3, 2},
		"months.csv":    {36, 2},
		"waits.csv":     {36, 2},
		"tools.csv":     {2 * 3, 2},
		"capacity.csv":  {5 * 3, 2},
		"triggered.csv": {len(a.Triggered), 2},
		"dryness.csv":   {12, 1},
		"flows.csv":     {len(a.Flows), 3},
		"balance.csv":   {len(a.Balance.Components), 1},

		"vessel-loads.csv": {len(spent), 6},
	}
	for _, sys := range rendertest.Systems {
		got := tables(t, a, sys)
		if len(got) != len(want) {
			t.Fatalf("%d files", len(got))
		}
		for name, rows := range got {
			keys, records := want[name].keys, len(rows)-1
			long := slices.Index(rows[0], "figure")
			if long >= 0 {
				keys = long + 2
				records = len(slices.CompactFunc(rows[1:], func(a, b []string) bool { return slices.Equal(a[:long], b[:long]) }))
			}
			if records != want[name].rows {
				t.Errorf("%s: %d rows, want %d", name, records, want[name].rows)
			}
			for _, row := range rows[1:] {
				if long >= 0 && (row == nil || row[long] == "from") {
					continue // a day
				}
				for i, cell := range row[keys:] {
					if long >= 0 && i > 0 && cell == "" {
						continue // a single figure has no quantiles
					}
					if _, err := strconv.ParseFloat(cell, 64); err != nil {
						t.Errorf("%s, %s: %v", name, rows[0][i+keys], err)
					}
				}
			}
		}
	}
}

// A change that never came about has no date.
func TestTriggeredDates(t *testing.T) {
	a := sample.Answer(1)
	a.Triggered = []simulate.Triggered{{Change: "a", Share: 0.25, Decided: calendar.Date{Year: 2030, Month: 2, Day: 3}}, {Change: "b"}}
	rows := tables(t, a, units.US)["triggered.csv"]
	for i, want := range [][]string{{"change", "decided_median", "runs_percent"}, {"a", "2030-02-03", "25"}, {"b", "", "0"}} {
		if !slices.Equal(rows[i], want) {
			t.Errorf("got %q, want %q", rows[i], want)
		}
	}
	if whole, want := string(rendertest.JSON(t, a.Document(), units.US)), `{"change":"b","decided_median":null,"runs_percent":0}`; !strings.Contains(whole, want) {
		t.Errorf("JSON does not hold %s", want)
	}
}
