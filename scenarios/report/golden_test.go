package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/units"
)

// One switch renews all golden files: go test ./scenarios/report -update.
var update = flag.Bool("update", false, "write the golden files of this package anew")

var systems = []units.System{units.US, units.SI}

// golden compares text with the file of that name in testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; got:\n%s", path, got)
	}
}

// keyPaths lists the paths of all fields in order, those of a list once.
func keyPaths(t *testing.T, r io.Reader) string {
	dec := json.NewDecoder(r)
	seen := map[string]bool{}
	var list []string
	var walk func(prefix string)
	walk = func(prefix string) {
		token, err := dec.Token()
		if err != nil {
			t.Fatal(err)
		}
		switch token {
		case json.Delim('['):
			for dec.More() {
				walk(prefix + "[]")
			}
			dec.Token() // the closing bracket
		case json.Delim('{'):
			for dec.More() {
				key, err := dec.Token()
				if err != nil {
					t.Fatal(err)
				}
				path := prefix + "." + key.(string)
				if !seen[path] {
					seen[path] = true
					list = append(list, path)
				}
				walk(path)
			}
			dec.Token()
		}
	}
	walk("")
	return strings.Join(list, "\n") + "\n"
}
