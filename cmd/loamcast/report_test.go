package main

import (
	"errors"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/outfile"
)

// A report goes to a folder, whole, the same bytes however many work at it, and says
// where it is.
func TestReport(t *testing.T) {
	stdout, files := reproduced(t, []string{"report", "pellwick", "--only", "check,cycle"}, withWorkers...)
	if want := "The report is in DIR: report.html, report.pdf and report.xlsx\n"; stdout != want {
		t.Errorf("it prints %q", stdout)
	}
	leaves(t, files, []string{"report.html", "report.pdf", "report.xlsx", "check-years.csv", "cycle-days.csv", "cycle-samples.csv", "stages.csv"})
	for _, want := range []string{"<title>Pellwick", "INVENTED DATA", "One load", "Assumptions and equations"} {
		if !strings.Contains(files["report.html"], want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	book, err := excelize.OpenReader(strings.NewReader(files["report.xlsx"]))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if got, want := book.GetSheetList(), []string{"summary", "inputs"}; !slices.Equal(got, want) {
		t.Errorf("the sheets are %v", got)
	}
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		said := 0
		for _, row := range rows {
			for _, cell := range row {
				said += strings.Count(cell, "INVENTED DATA")
			}
		}
		if said != 1 {
			t.Errorf("the sheet %q says %d times that its data is invented", sheet, said)
		}
	}
}

// Without a folder, with a part that there is not, and where somebody else's file would
// be replaced, nothing is computed or written.
func TestReportMistakes(t *testing.T) {
	taken := t.TempDir()
	write(t, filepath.Join(taken, "report.html"), "mine")
	out := filepath.Join(t.TempDir(), "out")
	for _, c := range []struct {
		want string
		args []string
	}{
		{"a report goes to a folder: name one with --out (see loamcast report --help)", nil},
		{`--only "all": no part of a report has that name; there are when, options, expand, `, []string{"--only", "all", "--out", out}},
		{"", []string{"--only", "check", "--out", taken}},
	} {
		status, stdout, stderr := program(t.Context(), append([]string{"report"}, c.args...)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) {
			t.Errorf("%v: status %d, %q, %q", c.args, status, stdout, stderr)
		}
	}
	if _, err := os.Stat(out); !os.IsNotExist(err) {
		t.Errorf("it left something: %v", err)
	}
	if got := contents(t, taken)["report.html"]; got != "mine" {
		t.Errorf("there is %q", got)
	}
}

// Killed at ten moments from its start to its end, a report leaves the files of the one
// before, or its own, and not some of each; the last is let go on to its end.
func TestReportKilled(t *testing.T) {
	if err := exchangeable(t); err != nil {
		t.Skipf("folders cannot be exchanged here: %v", err)
	}
	parent := t.TempDir()
	dir := filepath.Join(parent, "board")
	args := func(system string) []string {
		return []string{"report", absolute(t, "../../scenarios/facilityfile/testdata/small.yaml"), "--only", "check", "--units", system, "--out", dir}
	}
	whole := map[string]map[string]string{}
	var takes time.Duration
	for _, system := range []string{"si", "us", "si"} {
		begun := time.Now()
		if status, _, stderr := process(t, parent, args(system)...); status != exitOK {
			t.Fatal(stderr)
		}
		takes = time.Since(begun)
		whole[system] = contents(t, dir)
	}
	if whole["si"]["report.html"] == whole["us"]["report.html"] {
		t.Fatal("the reports do not differ")
	}
	const moments = 10
	for i := range moments {
		cmd := exec.Command(binary, args("us")...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(takes * time.Duration(i) / (moments - 1))
		cmd.Process.Kill()
		cmd.Wait() // its error says that it was killed, if it was
		left := contents(t, dir)
		switch {
		case maps.Equal(left, whole["us"]):
			if status, _, stderr := process(t, parent, args("si")...); status != exitOK {
				t.Fatal(stderr)
			}
		case !maps.Equal(left, whole["si"]):
			t.Errorf("killed at moment %d, it leaves neither the old files nor the new ones: %v", i, slices.Sorted(maps.Keys(left)))
		}
	}
	if status, _, stderr := process(t, parent, args("us")...); status != exitOK {
		t.Fatal(stderr)
	}
	if !maps.Equal(contents(t, parent), within("board", whole["us"])) {
		t.Error("the next report leaves something else than its files")
	}
}

// exchangeable tries whether a folder that is written again is another one.
func exchangeable(t *testing.T) error {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "out")
	var numbers [2]os.FileInfo
	for i := range numbers {
		if err := (outfile.Policy{}).WriteFolder(t.Context(), dir, nil); err != nil {
			t.Fatal(err)
		}
		var err error
		if numbers[i], err = os.Stat(dir); err != nil {
			t.Fatal(err)
		}
	}
	if os.SameFile(numbers[0], numbers[1]) {
		return errors.ErrUnsupported
	}
	return nil
}

// absolute is a path from anywhere.
func absolute(t *testing.T, path string) string {
	t.Helper()
	path, err := filepath.Abs(path)
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// within names files as they are called from the folder above theirs.
func within(folder string, files map[string]string) map[string]string {
	out := map[string]string{}
	for name, data := range files {
		out[filepath.Join(folder, name)] = data
	}
	return out
}
