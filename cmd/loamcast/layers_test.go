package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// layers lists the layers from the top down; imports go down only.
var layers = []string{"cmd", "scenarios", "facility", "sim"}

// onlyIn names packages of others that one part of the program alone may use.
var onlyIn = map[string]string{
	"github.com/fschuetz04/simgo":  "loamcast/sim",
	"github.com/spf13/cobra":       "loamcast/cmd/loamcast",
	"go.yaml.in/yaml/v4":           "loamcast/scenarios/yamlfile",
	"github.com/fxamacker/cbor/v2": "loamcast/scenarios/shards",
}

// notBelowScenarios are what facility and sim know nothing of: files, screens
// and formats.
var notBelowScenarios = []string{"os", "io/fs", "path/filepath", "embed", "net", "net/http", "encoding/json", "encoding/csv", "html/template", "text/template", "flag", "log"}

type listed struct {
	ImportPath string
	Standard   bool
	Imports    []string
}

// packages asks the go command for all packages of the module and of what they
// import.
func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", "list", "-pgo=off", "-deps", "-json=ImportPath,Standard,Imports", "loamcast/...")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var list []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		switch err := d.Decode(&p); {
		case errors.Is(err, io.EOF):
			return list
		case err != nil:
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

// layer returns the number of a package's layer, or −1 for packages of others.
func layer(path string) int {
	rest, ours := strings.CutPrefix(path, "loamcast/")
	if !ours {
		return -1
	}
	name, _, _ := strings.Cut(rest, "/")
	return slices.Index(layers, name)
}

// Imports go down only, cmd → scenarios → facility → sim; the engine is behind
// sim alone, and facility and sim know nothing of files and screens.
func TestLayers(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range packages(t) {
		if p.Standard || !strings.HasPrefix(p.ImportPath, "loamcast/") {
			continue
		}
		from := layer(p.ImportPath)
		if from < 0 {
			t.Errorf("%s is in none of the layers %v", p.ImportPath, layers)
			continue
		}
		seen[layers[from]] = true
		for _, imported := range p.Imports {
			if to := layer(imported); to >= 0 && to < from {
				t.Errorf("%s imports %s, which is above it", p.ImportPath, imported)
			}
			if only, limited := onlyIn[imported]; limited && p.ImportPath != only {
				t.Errorf("%s imports %s, which only %s may", p.ImportPath, imported, only)
			}
			if from > slices.Index(layers, "scenarios") && slices.Contains(notBelowScenarios, imported) {
				t.Errorf("%s imports %s, of which %s knows nothing", p.ImportPath, imported, layers[from])
			}
		}
	}
	for _, name := range layers {
		if !seen[name] {
			t.Errorf("no package of layer %s was seen", name)
		}
	}
}
