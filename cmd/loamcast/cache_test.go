package main

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/cache"
)

// Three plants and three questions take some minutes.
var allTables = flag.Bool("tables", false, "compare answers with and without kept tables for run, when and plan of three plants")

// An answer is the same to the byte where nothing is kept, where its tables are kept, and
// where they are read; and they are read in earnest: the second command keeps nothing more.
func TestKeptTablesMoveNothing(t *testing.T) {
	commands := [][]string{{"run", "fennick-valley", "--replications", "2"}}
	if *allTables {
		commands = nil
		for _, plant := range []string{"fennick-valley", "pellwick", "dunmarrow"} {
			commands = append(commands, []string{"run", plant}, []string{"when", plant}, []string{"plan", plant})
		}
	}
	for _, args := range commands {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "cache")
			t.Setenv(cache.Variable, dir)
			printed := func(more ...string) (string, map[string]string) {
				t.Helper()
				out := filepath.Join(t.TempDir(), "out")
				status, stdout, stderr := program(t.Context(), slices.Concat(args, more, []string{"--out", out})...)
				if status != exitOK || stderr != "" {
					t.Fatalf("status %d, %q", status, stderr)
				}
				return strings.ReplaceAll(stdout, out, "DIR"), contents(t, out)
			}
			want, files := printed("--no-cache")
			if count, _ := cache.Size(dir); count != 0 {
				t.Errorf("with --no-cache %d files of tables are kept", count)
			}
			kept := int64(0)
			for _, name := range []string{"cold", "warm"} {
				got, left := printed()
				if got != want || !maps.Equal(left, files) {
					t.Errorf("%s: it prints\n%s\nand without tables\n%s", name, got, want)
				}
				count, bytes := cache.Size(dir)
				if count == 0 || name == "warm" && bytes != kept {
					t.Errorf("%s: %d files of %d bytes are kept, and before %d bytes", name, count, bytes, kept)
				}
				kept = bytes
			}
		})
	}
}

// Where tables cannot be kept, a command answers without a word about it.
func TestNowhereToKeepTables(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv(cache.Variable, filepath.Join(file, "below"))
	if status, stdout, stderr := program(t.Context(), "run", "--replications", "1"); status != exitOK || stderr != "" || stdout == "" {
		t.Errorf("status %d, %q", status, stderr)
	}
}

// `cache show` says where tables are and how large, and `cache clear` removes them.
func TestCacheCommands(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "tables")
	t.Setenv(cache.Variable, dir)
	says := func(want string, args ...string) {
		t.Helper()
		status, stdout, stderr := program(t.Context(), args...)
		if status != exitOK || stderr != "" || !strings.HasPrefix(stdout, want) {
			t.Errorf("%v: status %d, %q, %q, not %q", args, status, stdout, stderr, want)
		}
	}
	says(dir+": no tables\n", "cache", "show")
	says("", "run", "--replications", "1")
	says(dir+": 2 files of tables, ", "cache", "show")
	says(dir+": removed 2 files of tables, ", "cache", "clear")
	says(dir+": no tables\n", "cache", "show")
	t.Setenv(cache.Variable, "")
	t.Setenv("XDG_CACHE_HOME", "")
	t.Setenv("HOME", "")
	says("Nothing is kept: ", "cache", "show")
	says("Nothing is kept: ", "cache", "clear")
}
