package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// A report goes to a folder, whole, the same bytes however many work at it, and says
// where it is.
func TestReport(t *testing.T) {
	stdout, files := reproduced(t, []string{"report", "pellwick", "--only", "check,cycle"}, withWorkers...)
	if want := "The report is in DIR: report.html, report.pdf and report.xlsx\n"; stdout != want {
		t.Errorf("it prints %q", stdout)
	}
	leaves(t, files, []string{"report.html", "report.pdf", "report.xlsx", "cycle-days.csv", "cycle-samples.csv", "stages.csv", "years.csv"})
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
