package rendertest

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"slices"
	"testing"

	"loamcast/scenarios/outfile"
)

// aMonth is a month of the calendar, or of any year by its number.
var aMonth = regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])$|^([1-9]|1[0-2])$`)

// tellsDatesAlike checks that all CSV files date their rows in one way: by month in one
// column, "2027-07"; by years of a budget in fiscal_year, whatever the month in which they
// begin, so that a column has one name for all files; and by years of the horizon in year.
func tellsDatesAlike(t *testing.T, f outfile.File) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	dated := 0
	for _, name := range []string{"year", "fiscal_year", "month"} {
		if slices.Contains(rows[0], name) {
			dated++
		}
	}
	if dated > 1 {
		t.Errorf("%s is dated in several columns: %v", f.Name, rows[0])
	}
	if i := slices.Index(rows[0], "month"); i >= 0 {
		for _, row := range rows[1:] {
			if !aMonth.MatchString(row[i]) {
				t.Errorf("%s has a month %q", f.Name, row[i])
			}
		}
	}
}
