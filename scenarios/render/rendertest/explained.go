package rendertest

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
)

// masses are the units of masses as labels of columns have them.
var masses = map[string]bool{"short ton": true, "lb": true, "t": true, "kg": true}

// Explained checks that the dictionary among some files says of every column of every
// other CSV file, and of every figure of a long one, what it is, in words of its own, with
// the basis of a mass; and that it speaks of nothing that is not there.
func Explained(t *testing.T, files []outfile.File) {
	t.Helper()
	type place struct{ file, column, figure string }
	told := map[place]bool{}
	for _, r := range rowsOfCSV(t, files, render.DictionaryName)[1:] {
		p, unit, basis, meaning := place{r[0], r[1], r[2]}, r[3], r[4], r[5]
		if told[p] {
			t.Errorf("%v is explained twice", p)
		}
		told[p] = true
		if name := strings.ReplaceAll(p.column+p.figure, "_", " "); len(strings.Fields(meaning)) < 2 || strings.EqualFold(meaning, name) {
			t.Errorf("%v is not explained: %q", p, meaning)
		}
		if strings.HasSuffix(meaning, ": ") {
			t.Errorf("%v is explained by nothing: %q", p, meaning)
		}
		if mass := isMass(unit); mass != (basis != "") {
			t.Errorf("%v, %s, has the basis %q", p, unit, basis)
		}
	}
	seen := map[place]bool{}
	for _, f := range files {
		if !strings.HasSuffix(f.Name, ".csv") {
			continue
		}
		rows := rowsOfCSV(t, files, f.Name)
		figure := -1
		for k, column := range rows[0] {
			seen[place{f.Name, column, ""}] = true
			if column == "figure" && f.Name != render.DictionaryName {
				figure = k
			}
		}
		for _, r := range rows[1:] {
			if figure >= 0 {
				seen[place{f.Name, "value", r[figure]}] = true
			}
		}
	}
	for p := range seen {
		if !told[p] {
			t.Errorf("%v is not in the dictionary", p)
		}
	}
	for p := range told {
		if !seen[p] && p.figure == "" {
			t.Errorf("%v is in the dictionary, and in no file", p)
		}
	}
}

// isMass reports whether a mass is in a unit.
func isMass(unit string) bool {
	for _, part := range strings.FieldsFunc(unit, func(r rune) bool { return r == '/' || r == '·' }) {
		if masses[strings.TrimSpace(part)] {
			return true
		}
	}
	return false
}

// rowsOfCSV reads one of some files, which must be there once.
func rowsOfCSV(t *testing.T, files []outfile.File, name string) [][]string {
	t.Helper()
	var rows [][]string
	for _, f := range files {
		if f.Name != name {
			continue
		}
		if rows != nil {
			t.Errorf("there are two files %s", name)
		}
		var err error
		if rows, err = csv.NewReader(bytes.NewReader(f.Data)).ReadAll(); err != nil {
			t.Fatal(err)
		}
	}
	if rows == nil {
		t.Fatalf("there is no file %s", name)
	}
	return rows
}
