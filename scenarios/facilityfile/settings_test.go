package facilityfile

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"loamcast/scenarios/examples"
)

// Shows that the list of settings has every value that a file writes once, with its line,
// of all built-in plants and of the files that hold every key; and that no path is there
// twice.
func TestSettingsHoldWhatIsWritten(t *testing.T) {
	texts := map[string][]byte{}
	for _, name := range examples.Names() {
		texts[name] = examples.Data(name)
	}
	for _, name := range []string{"small.yaml", "yard.yaml", "planning.yaml"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = data
	}
	for name, data := range texts {
		f, err := Parse(name, data)
		if err != nil {
			t.Fatal(err)
		}
		listed := map[string]Setting{}
		for _, s := range f.Settings() {
			if _, twice := listed[s.Path]; twice {
				t.Errorf("%s: %s is listed twice", name, s.Path)
			}
			listed[s.Path] = s
		}
		for _, w := range f.written {
			if s := listed[w.Path]; s.Line != w.Line || s.Used != w.Text {
				t.Errorf("%s: %s is %q on line %d, listed as %q on line %d", name, w.Path, w.Text, w.Line, s.Used, s.Line)
			}
		}
		if len(listed) < len(f.written)+20 {
			t.Errorf("%s: %d settings, %d of them written", name, len(listed), len(f.written))
		}
	}
}

// Shows what is said of keys that a file leaves out (by the table of keys): a default, one
// that other keys decide, a group that is not there, a key of a list's entry.
func TestSettingsLeftOut(t *testing.T) {
	f, err := Parse("demo", examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	settings := f.Settings()
	for path, want := range map[string]string{
		"chips.readily_degradable":          "0 %",
		"curing.longest_time":               "90 day", // twice the time
		"cake.carbon":                       "volatile solids / 1.8",
		"yard":                              "nothing is short",
		"decay.best_temperature":            "135 °F",
		"growth_scenarios[1].source":        "not said",
		"aeration.program[3].least_air":     "that of the built-in program",
		"aeration.program[1].ramp_per_hour": "1.8 °F",
	} {
		i := slices.IndexFunc(settings, func(s Setting) bool { return s.Path == path })
		if i < 0 {
			t.Errorf("%s is not listed", path)
			continue
		}
		if s := settings[i]; s.Used != want || s.Line != 0 {
			t.Errorf("%s: %q on line %d, want %q", path, s.Used, s.Line, want)
		}
	}
	for _, path := range []string{"yard.trucks", "decay", "options[1].steps[1].pad"} {
		if slices.ContainsFunc(settings, func(s Setting) bool { return s.Path == path }) {
			t.Errorf("%s is listed", path)
		}
	}
}
