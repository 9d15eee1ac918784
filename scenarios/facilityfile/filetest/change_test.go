package filetest

import (
	"errors"
	"flag"
	"fmt"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/random"
)

// changes is how many files TestChangedFiles makes: run with -changes 1500 for more.
var changes = flag.Int("changes", 150, "changed files that are read")

// A file of which keys were changed within their bounds is read without a panic: it
// gives a plant that can be built, and that can be drawn, or errors that have their
// places and say each thing once.
func TestChangedFiles(t *testing.T) {
	n, taken, names := *changes, 0, examples.Names()
	for seed := range n {
		text, done, err := Change(string(examples.Data(names[seed%len(names)])), uint64(seed))
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		good, err := sound(text)
		if err != nil {
			t.Errorf("seed %d of %s: %s: %v", seed, names[seed%len(names)], strings.Join(done, "; "), err)
		}
		if good {
			taken++
		}
	}
	t.Logf("%d of %d changed files are plants", taken, n)
	if taken < n/4 || taken == n {
		t.Errorf("%d of %d changed files are plants", taken, n)
	}
}

// sound reads a file and reports whether it is a plant.
func sound(text string) (good bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v", r)
		}
	}()
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		return false, placed(err)
	}
	if _, err := plant.New(f.Model); err != nil {
		return false, fmt.Errorf("no plant: %w", err)
	}
	for replication := range 3 {
		m, _ := f.Planning.Draw(f.Model, random.Key{Replication: replication})
		if err := m.Validate(); err != nil {
			return false, fmt.Errorf("draw %d is no plant: %w", replication, err)
		}
	}
	return true, nil
}

// placed returns what is wrong with an error of the reader.
func placed(err error) error {
	var problems *yamlfile.Problems
	if !errors.As(err, &problems) {
		return fmt.Errorf("an error without a place: %w", err)
	}
	seen := map[string]bool{}
	for _, d := range problems.Diagnostics {
		if d.Line < 1 || d.Column < 1 || d.Message == "" || seen[d.String()] {
			return fmt.Errorf("a complaint without a place, or made twice: %v", d)
		}
		seen[d.String()] = true
	}
	return nil
}

// The same seed makes the same file, and Valid one that the reader takes.
func TestValid(t *testing.T) {
	demo := string(examples.Data(examples.Demo))
	for seed := range uint64(5) {
		text, done, f, err := Valid(demo, seed)
		if err != nil {
			t.Fatal(err)
		}
		again, _, _, err := Valid(demo, seed)
		if err != nil || again != text || text == demo || len(done) == 0 || f == nil {
			t.Errorf("seed %d: %v, %v", seed, done, err)
		}
	}
}

// A short file is the same plant for two years.
func TestShort(t *testing.T) {
	for _, name := range examples.Names() {
		text, err := Short(string(examples.Data(name)))
		if err != nil {
			t.Fatal(err)
		}
		f, err := facilityfile.Parse(name, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if f.Model.Years != 2 || f.Model.WarmUp != 0 || f.Replications != 2 {
			t.Errorf("%s: %d years after %d, %d runs", name, f.Model.Years, f.Model.WarmUp, f.Replications)
		}
	}
}
