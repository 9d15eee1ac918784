package facilityfile

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/units"
)

// numeric are the kinds of keys that hold quantities, which have a range.
var numeric = []Kind{Quantity, Count, Months, Weekdays, Quantities, Years}

// Every key is there once, says what it is, and every number has a range with two
// finite ends, in which its default and its usual values lie.
func TestKeysAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Keys() {
		if seen[k.Path] {
			t.Errorf("%s is there twice", k.Path)
		}
		seen[k.Path] = true
		if k.Words == "" || strings.HasSuffix(k.Words, ".") || k.Default != nil && !k.Default.Known && k.Default.Words == "" {
			t.Errorf("%s: its words %q, its default %+v", k.Path, k.Words, k.Default)
		}
		if k.Default != nil && k.When != "" {
			t.Errorf("%s: needed %s and with a default", k.Path, k.When)
		}
		if k.Kind == Choice && k.Path != "uncertain[].input" && len(k.Choices) < 2 {
			t.Errorf("%s: choices %q", k.Path, k.Choices)
		}
		if group := k.Path[:max(0, strings.LastIndexByte(k.Path, '.'))]; group != "" && k.Kind != Unwritten && !seen[strings.TrimSuffix(group, "[]")] {
			t.Errorf("%s: its group is not a key before it", k.Path)
		}
		if !slices.Contains(numeric, k.Kind) {
			continue
		}
		finite := !math.IsInf(k.Low, 0) && !math.IsInf(k.High, 0) && !math.IsNaN(k.Low) && !math.IsNaN(k.High)
		if !finite || k.Low >= k.High && k.Path != "format" {
			t.Errorf("%s: from %g to %g", k.Path, k.Low, k.High)
		}
		if d := k.Default; d != nil && d.Known && (d.Value < k.Low || d.Value > k.High) {
			t.Errorf("%s: the default %g does not lie in %g to %g", k.Path, d.Value, k.Low, k.High)
		}
		if u := k.Usual; u != nil && (u.Low >= u.High || u.High < k.Low || u.Low > k.High || u.Source == "") {
			t.Errorf("%s: usually from %g to %g, %q", k.Path, u.Low, u.High, u.Source)
		}
	}
	if len(seen) < 250 {
		t.Errorf("only %d keys", len(seen))
	}
}

// Every input has a name of its own, a finite range and something that it sets,
// and an input that takes the place of a key's value has that key's range.
func TestInputsAreComplete(t *testing.T) {
	names := map[string]bool{}
	for _, in := range inputs {
		if in.Name == "" || names[in.Title()] || in.Set == nil || !(in.Low < in.High) || math.IsInf(in.High-in.Low, 0) {
			t.Errorf("%s: %q, from %g to %g", in.Key, in.Name, in.Low, in.High)
		}
		names[in.Title()] = true
		if in.How == Instead && in.Dimension == units.Dimensionless {
			t.Errorf("%s has no dimension", in.Key)
		}
	}
	if len(inputs) < 20 {
		t.Errorf("only %d inputs", len(inputs))
	}
}

// A key sets the value that it gets: of each, a value within its range is got again
// after it was set, to the whole second where it is a duration of the model.
func TestKeysGetAndSet(t *testing.T) {
	f, err := Parse("planning.yaml", []byte(readPlanning(t)))
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, k := range Keys() {
		if k.Get == nil {
			continue
		}
		tried++
		for _, part := range []float64{0, 1.0 / 3, 1} {
			want := k.Low + (k.High-k.Low)*part
			if k.Kind == Count {
				want = math.Round(want)
			}
			k.Set(f.Parts(), want)
			got := k.Get(f.Parts())
			if off := math.Abs(got - want); off > 1e-9*math.Abs(want) && (k.Dimension != units.Duration || off > 0.5) {
				t.Errorf("%s: set to %g, got %g", k.Path, want, got)
			}
		}
	}
	if tried < 80 {
		t.Errorf("only %d keys were tried", tried)
	}
}
