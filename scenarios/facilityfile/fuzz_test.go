package facilityfile

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/random"
)

// sound asserts what must hold of any text whatever: it gives either a plant
// that can run, or errors of which each has a place in the text.
func sound(t *testing.T, text string) {
	t.Helper()
	f, err := Parse("any.yaml", []byte(text))
	if err == nil {
		if _, err := plant.New(f.Model); err != nil {
			t.Fatalf("a file that was read holds an impossible plant: %v", err)
		}
		for replication := range 3 {
			m, _ := f.Planning.Draw(f.Model, random.Key{Replication: replication})
			if err := m.Validate(); err != nil {
				t.Fatalf("a file that was read draws an impossible plant: %v", err)
			}
		}
		if f.Replications < 1 || f.Replications > MaxReplications {
			t.Fatalf("%d replications", f.Replications)
		}
		return
	}
	var bad *Error
	var problems *yamlfile.Problems
	if f != nil || !errors.As(err, &bad) || !errors.As(err, &problems) {
		t.Fatalf("an error without a place: %v", err)
	}
	lines := strings.Count(text, "\n") + strings.Count(text, "\r") + 1
	for _, d := range problems.Diagnostics {
		if d.Line < 1 || d.Line > lines || d.Column < 1 || d.Message == "" || d.Severity != yamlfile.Error {
			t.Fatalf("a complaint without a place: %+v", d)
		}
	}
	seen := map[string]bool{}
	for _, d := range problems.Diagnostics {
		if seen[d.String()] {
			t.Fatalf("said twice: %v", d)
		}
		seen[d.String()] = true
	}
}

// No text makes the reader panic, gives an error without a place, or gives a
// plant that cannot run.
func FuzzParse(f *testing.F) {
	small := readSmall(f)
	f.Add("")
	f.Add(small)
	f.Add(strings.Replace(small, "aeration: {setpoint: 45 °C, least_air: 1 m3/t·h, most_air: 30 m3/t·h}", "aeration: {most_air: 0 m3/t·h}", 1))
	f.Add(strings.Replace(small, "compound: 2.2 %/year", "by_year: [1, 2, 3]", 1))
	f.Add(readPlanning(f))
	f.Add(strings.Replace(small, "at_least: 55 °C, for: 3 day", "equation: solids below 7 %", 1))
	f.Fuzz(sound)
}

// Every value of the file replaced by each of many others, every line left out
// and every line written twice gives a sound answer: what FuzzParse asks,
// without chance.
func TestEveryValueSpoilt(t *testing.T) {
	small := readSmall(t)
	from := strings.Index(small, "hours:\n")
	hours := small[from : from+strings.Index(small[from:], "\n\n")+1]
	// The rest is read without the hours, whose calendar of 100 years takes
	// most of the time.
	rest := strings.Replace(small, hours, "", 1)
	spoilt := spoil(rest, rest, func(text string) { sound(t, text) }) +
		spoil(small, hours, func(text string) { sound(t, text) })
	if spoilt < 1000 {
		t.Errorf("only %d values were tried", spoilt)
	}
}

// The same of what planning needs.
func TestEveryPlanningValueSpoilt(t *testing.T) {
	text := readPlanning(t)
	growth := text[strings.Index(text, "solids:\n"):strings.Index(text, "  cake_solids: 20 %\n")]
	sections := text[strings.Index(text, "target:\n"):]
	try := func(text string) { sound(t, text) }
	if spoilt := spoil(text, growth, try) + spoil(text, sections, try); spoilt < 1000 {
		t.Errorf("only %d values were tried", spoilt)
	}
}

// spoil tries a text with each line of a part of it spoilt in many ways, and
// returns how many values were replaced.
func spoil(text, part string, try func(string)) int {
	values := 0
	for line := range strings.Lines(part) {
		line = strings.TrimSuffix(line, "\n")
		with := func(instead string) { try(strings.Replace(text, line+"\n", instead, 1)) }
		with("")
		with(line + "\n" + line + "\n")
		key, value, found := strings.Cut(line, ": ")
		if !found || strings.HasPrefix(line, "#") {
			continue
		}
		unit := strings.TrimLeft(value, "0123456789.,")
		for _, v := range []string{"", "0", "-1", "0" + unit, "-1" + unit, "0.001" + unit, "1" + unit, "1e9" + unit, "1e300" + unit, "NaN" + unit,
			"7", "[]", "{}", "null", "true", "x", "[1, 2]", "{a: 1}", "2027-06-01"} {
			values++
			with(key + ": " + v + "\n")
		}
	}
	return values
}

// Any two groups may be missing or wrong at once without one complaint being
// made twice.
func TestGroupsMissing(t *testing.T) {
	small := readSmall(t)
	groups := []string{"site", "solids", "cake", "holding", "chips", "mix", "vessels", "curing", "screen", "product", "hours", "criteria", "aeration"}
	for _, a := range groups {
		for _, b := range groups {
			for _, instead := range []string{"", "%s: 5\n", "%s: []\n", "%s: {}\n", "%s:\n"} {
				text := small
				for _, name := range []string{a, b} {
					replacement := instead
					if strings.Contains(instead, "%s") {
						replacement = fmt.Sprintf(instead, name)
					}
					text = replaceGroup(text, name, replacement)
				}
				sound(t, text)
			}
		}
	}
}

// replaceGroup replaces a group of a file, from its key to the next empty line.
func replaceGroup(text, name, replacement string) string {
	from := strings.Index(text, "\n"+name+":") + 1
	if from == 0 {
		return text
	}
	to := strings.Index(text[from:], "\n\n")
	if to < 0 {
		return text[:from] + replacement
	}
	return text[:from] + replacement + text[from+to+1:]
}
