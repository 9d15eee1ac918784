package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/inputs"
)

// A folder of results holds the facility file byte for byte, a list of the values used with
// those that it leaves out, and in its text what it takes to have the same again; and it is
// not written over the file that it was made from.
func TestFolderHoldsItsInputs(t *testing.T) {
	dir := t.TempDir()
	plant, out := filepath.Join(dir, "plant.yaml"), filepath.Join(dir, "out")
	text := readSmall(t)
	write(t, plant, text)
	if status, _, stderr := program(t.Context(), "check", plant, "--out", out); status != exitOK {
		t.Fatalf("status %d, %s", status, stderr)
	}
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	if read(inputs.AsRead) != text {
		t.Error("the file is not as it was read")
	}
	for _, want := range []string{"\nvessels.installed,", "\ndecay.coarse,0.25,,0.25,", "\nstructure.account,all air,"} {
		if !strings.Contains(read("inputs.csv"), want) {
			t.Errorf("no row %q in inputs.csv", want)
		}
	}
	if !strings.Contains(read("check.txt"), "seed 1, facility file of SHA-256\n") {
		t.Error("the text does not say what it was made from")
	}
	again := filepath.Join(out, inputs.AsRead)
	if status, _, stderr := program(t.Context(), "check", again, "--out", out); status != exitBadInput || !strings.Contains(stderr, inputs.AsRead) {
		t.Errorf("over its own file: status %d, %q", status, stderr)
	}
}
