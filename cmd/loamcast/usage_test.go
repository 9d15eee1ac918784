package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
)

// Mistakes on the command line give status 2, nothing on standard output, and
// a message that says what would be right.
func TestUsageMistakes(t *testing.T) {
	for _, c := range []struct {
		name, want string
		args       []string
	}{
		{"unknown flag", "unknown flag: --foo (see loamcast run --help)", []string{"run", "--foo"}},
		{"unknown command", `there is no command "rum"; did you mean run? (see loamcast --help)`, []string{"rum"}},
		{"nothing like a command", `there is no command "compost" (see loamcast --help)`, []string{"compost"}},
		{"two files", "accepts at most 1 arg(s), received 2 (see loamcast run --help)", []string{"run", "a", "b"}},
		{"new without a folder", "accepts 1 arg(s), received 0 (see loamcast new --help)", []string{"new"}},
		{"unknown units", `--units: "foo" is not a system of units; write us or si`, []string{"run", "--units", "foo"}},
		{"no replications", "--replications 0: it must be from 1 to 100000", []string{"run", "--replications", "0"}},
		{"too many replications", "--replications 1000000: it must be from 1 to 100000", []string{"run", "--replications", "1000000"}},
		{"half a replication", `--replications "2.5": write a whole number`, []string{"run", "--replications", "2.5"}},
		{"negative workers", "--workers -1: must not be negative", []string{"run", "--workers", "-1"}},
		{"negative seed", `invalid argument "-1" for "--seed" flag`, []string{"run", "--seed", "-1"}},
		{"new into a file", "new writes plant.yaml into a folder: give the name of the folder, not mine.yaml", []string{"new", "mine.yaml"}},
		{"unknown example", "--example foo: there is no such example", []string{"new", t.TempDir(), "--example", "foo"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, stdout, stderr := program(t.Context(), c.args...)
			if status != exitBadInput || stdout != "" {
				t.Errorf("status %d, want %d; standard output %q", status, exitBadInput, stdout)
			}
			if !strings.HasPrefix(stderr, "loamcast: "+c.want) {
				t.Errorf("got  %q\nwant %q", stderr, "loamcast: "+c.want)
			}
		})
	}
}

// `new` writes the starter file, which is sound and has no warnings, and
// refuses to overwrite it.
func TestNew(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plans", "2027")
	path := filepath.Join(dir, starterName)
	status, stdout, stderr := program(t.Context(), "new", dir)
	if status != exitOK || stderr != "" || !strings.Contains(stdout, path) {
		t.Fatalf("status %d, %q, %q", status, stdout, stderr)
	}
	status, stdout, stderr = program(t.Context(), "check", path)
	if status != exitOK || stderr != "" || !strings.Contains(stdout, "The file can be used (no warnings)") {
		t.Errorf("status %d, %q, %q", status, stdout, stderr)
	}
	write(t, path, "mine")
	status, stdout, stderr = program(t.Context(), "new", dir, "--example", "dunmarrow")
	if want := "loamcast: " + path + " is already there and is not overwritten\n"; status != exitBadInput || stdout != "" || stderr != want {
		t.Errorf("status %d, %q, %q", status, stdout, stderr)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "mine" {
		t.Errorf("the file now holds %q (%v)", data, err)
	}
}

// `schema` prints what `new` writes, in either system of units, and refuses others.
func TestSchema(t *testing.T) {
	dir := t.TempDir()
	if status, _, stderr := program(t.Context(), "new", dir, "--example", "dunmarrow"); status != exitOK {
		t.Fatalf("status %d, %q", status, stderr)
	}
	written, err := os.ReadFile(filepath.Join(dir, schemaName))
	if err != nil {
		t.Fatal(err)
	}
	status, stdout, stderr := program(t.Context(), "schema", "--units", "si") // those of Dunmarrow
	if status != exitOK || stderr != "" || stdout != string(written) {
		t.Errorf("status %d, %q; the schema differs from the one written", status, stderr)
	}
	if _, us, _ := program(t.Context(), "schema"); us == stdout || !json.Valid([]byte(us)) {
		t.Error("the schema in US units is not another one")
	}
	if status, stdout, _ := program(t.Context(), "schema", "--units", "cubits"); status != exitBadInput || stdout != "" {
		t.Errorf("units that are none: status %d, %q", status, stdout)
	}
}

// `new --example` writes each of the built-in facilities with comments and beside it
// the schema that its first line names, `check` finds nothing in it, and its name
// alone does the same without a file.
func TestNewFromEveryExample(t *testing.T) {
	for _, name := range examples.Names() {
		dir := t.TempDir()
		if status, _, stderr := program(t.Context(), "new", dir, "--example", name); status != exitOK {
			t.Fatalf("%s: status %d, %q", name, status, stderr)
		}
		path := filepath.Join(dir, starterName)
		data, err := os.ReadFile(path)
		if err != nil || !bytes.Contains(data, []byte("invented")) {
			t.Errorf("%s: the file does not say that it is invented (%v)", name, err)
		}
		first, _, _ := strings.Cut(string(data), "\n")
		schema, err := os.ReadFile(filepath.Join(dir, strings.TrimPrefix(first, "# yaml-language-server: $schema=")))
		if err != nil || !json.Valid(schema) {
			t.Errorf("%s: the first line %q names no schema (%v)", name, first, err)
		}
		for _, argument := range []string{path, name} {
			status, stdout, stderr := program(t.Context(), "check", argument)
			if status != exitOK || stderr != "" || !strings.Contains(stdout, "The file can be used (no warnings)") {
				t.Errorf("check %s: status %d, %q, %q", argument, status, stdout, stderr)
			}
		}
	}
}

// Without a command the program explains itself, and so does every command;
// help names the exit statuses.
func TestHelp(t *testing.T) {
	for _, args := range [][]string{{}, {"--help"}, {"run", "--help"}, {"check", "--help"}, {"new", "--help"}} {
		status, stdout, stderr := program(t.Context(), args...)
		if status != exitOK || stderr != "" || !strings.Contains(stdout, "Usage:") {
			t.Errorf("%v: status %d, %q", args, status, stderr)
		}
		if len(args) == 2 && !strings.Contains(stdout, "Exit status: 0 done; 1 the run failed; 2 bad file or command line") {
			t.Errorf("%v: the exit statuses are missing:\n%s", args, stdout)
		}
	}
}

// The version that results carry is the one that `version` prints.
func TestVersion(t *testing.T) {
	status, stdout, _ := program(t.Context(), "version")
	if status != exitOK || !strings.HasPrefix(stdout, "loamcast "+version+" (go") {
		t.Errorf("status %d, %q", status, stdout)
	}
}

// Shells get their completion.
func TestCompletion(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish"} {
		status, stdout, stderr := program(t.Context(), "completion", shell)
		if status != exitOK || stderr != "" || !strings.Contains(stdout, "loamcast") {
			t.Errorf("%s: status %d, %d bytes, %q", shell, status, len(stdout), stderr)
		}
	}
}

// A value outside its published range is warned of, with the range and its
// source, and the plant is simulated all the same.
func TestWarnings(t *testing.T) {
	small := readSmall(t)
	for _, c := range []struct{ name, old, new string }{
		{"wet cake", "cake_solids: 20 %", "cake_solids: 12 %"},
		{"few chips", "chips_to_cake: 2.5", "chips_to_cake: 1.8"},
		{"no air between", "structure: {account: all air}", "structure: {vessel_depth: 2 m}"},
		{"light chips", "bulk_density: 490 lb/yd3", "bulk_density: 250 lb/yd3"},
		{"nitrogen", "nitrogen: 0.20 %", "nitrogen: 0.40 %"},
		{"short residence", "  residence: 12 day\n  shortest_residence: 11 day", "  residence: 9 day\n  shortest_residence: 9 day"},
		{"screen", "recovery: 80 %", "recovery: 95 %"},
		{"growth", "compound: 2.2 %/year", "compound: 9 %/year"},
		{"vessels too late", "date: 2027-10-01", "date: 2028-01-01"},
	} {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "warnings", c.name)
			t.Chdir(t.TempDir())
			write(t, "plant.yaml", replaced(t, small, c.old, c.new))
			status, stdout, stderr := program(t.Context(), "check", "plant.yaml")
			if status != exitOK || !strings.Contains(stdout, "The file can be used (1 warning)") {
				t.Errorf("status %d, %q", status, stdout)
			}
			compare(t, golden, stderr)
		})
	}
	t.Run("run", func(t *testing.T) {
		golden := goldenPath(t, "warnings", "few chips")
		t.Chdir(t.TempDir())
		write(t, "plant.yaml", replaced(t, small, "chips_to_cake: 2.5", "chips_to_cake: 1.8"))
		status, stdout, stderr := program(t.Context(), "run", "plant.yaml", "--replications", "1", "--json")
		if status != exitOK || !strings.HasPrefix(stdout, "{") {
			t.Errorf("status %d, %d bytes", status, len(stdout))
		}
		compare(t, golden, stderr)
	})
}
