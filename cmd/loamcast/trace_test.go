package main

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// The trace is a table that can be followed by hand: rows in order of time,
// every batch mixed of chips and cake that weigh what is then loaded, in the
// unit that the header names; and it changes nothing that is shown.
func TestTraceCanBeFollowed(t *testing.T) {
	small := readSmall(t)
	t.Chdir(t.TempDir())
	write(t, "plant.yaml", small)
	_, plain, _ := program(t.Context(), "run", "plant.yaml", "--units", "si")
	status, screen, stderr := program(t.Context(), "run", "plant.yaml", "--units", "si", "--trace", "out/trace.csv")
	if status != exitOK || screen != plain {
		t.Fatalf("status %d, screen changed: %v, %s", status, screen != plain, stderr)
	}
	f, err := os.Open("out/trace.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	mixed, loaded, batches := 0.0, 0.0, 0
	for i, row := range rows[1:] {
		if i > 0 && row[0] < rows[i][0] {
			t.Fatalf("row %d, %s, is before the row above", i+2, row[0])
		}
		kg, err := strconv.ParseFloat(row[column["total_kg"]], 64)
		if err != nil {
			t.Fatalf("row %d: %v", i+2, err)
		}
		switch row[column["what"]] {
		case "chips mixed", "cake mixed":
			mixed += kg
		case "mix loaded":
			loaded += kg
			batches++
			if d := mixed - loaded; d > 1e-4*mixed || d < -1e-4*mixed {
				t.Fatalf("batch %d: %g kg went into the mixer so far, %g came out", batches, mixed, loaded)
			}
		}
	}
	if batches < 10 {
		t.Errorf("only %d batches in the trace", batches)
	}
}

// A trace that cannot be written is refused before anything is computed or shown.
func TestTraceIntoNowhere(t *testing.T) {
	small := readSmall(t)
	t.Chdir(t.TempDir())
	write(t, "plant.yaml", small)
	write(t, "file", "")
	status, screen, stderr := program(t.Context(), "run", "plant.yaml", "--trace", "file/trace.csv")
	if status != exitBadInput || screen != "" || !strings.Contains(stderr, "it is not a folder") {
		t.Errorf("status %d, %q, %s", status, screen, stderr)
	}
}
