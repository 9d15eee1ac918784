package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Two files side by side leave the answer, its table and both files as they were read,
// the same bytes however many work at it.
func TestCompare(t *testing.T) {
	data, err := os.ReadFile("../../scenarios/facilityfile/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	first, second := filepath.Join(dir, "first.yaml"), filepath.Join(dir, "second.yaml")
	write(t, first, string(data))
	write(t, second, strings.Replace(string(data), "batch_time: 25 min", "batch_time: 40 min", 1))
	stdout, files := reproduced(t, []string{"compare", first, second, "--replications", "2"}, withWorkers...)
	if !strings.Contains(stdout, "mix.batch_time  25 min  40 min") {
		t.Errorf("it prints\n%s", stdout)
	}
	delete(files, "as-read.yaml")
	if files[secondAsRead] == "" || !strings.Contains(files[secondAsRead], "40 min") {
		t.Error("the second file is not kept")
	}
	if !strings.HasPrefix(files["compare.csv"], "key,first,second,meaning\nmix.batch_time,25 min,40 min,") {
		t.Errorf("the table is\n%s", files["compare.csv"])
	}
}

// One file, one run, or a file that there is not, is a mistake.
func TestCompareMistakes(t *testing.T) {
	for _, c := range []struct {
		want string
		args []string
	}{
		{"accepts 2 arg(s), received 1 (see loamcast compare --help)", []string{"pellwick"}},
		{"--replications 1: it must be from 2 to 100000", []string{"pellwick", "dunmarrow", "--replications", "1"}},
		{"nowhere.yaml: there is no such file", []string{"pellwick", "nowhere.yaml"}},
	} {
		status, stdout, stderr := program(t.Context(), append([]string{"compare"}, c.args...)...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) {
			t.Errorf("%v: status %d, %q, %q", c.args, status, stdout, stderr)
		}
	}
}
