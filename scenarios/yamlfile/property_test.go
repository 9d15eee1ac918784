package yamlfile

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// knownKeys are all keys that readPlant knows in the groups below.
var knownKeys = []string{"name", "start", "month_factor", "humidity", "week_factor", "holidays", "tip_fee", "vessel",
	"crew", "useful_volume", "payload", "solids", "wait", "count", "policy", "sizes"}

// A file with one unknown key, wherever it stands and however it is spelled,
// has exactly one error: at this key.
func TestOneUnknownKey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		top := []string{"name: Fennick Valley", "start: 2027-07-01", "tip_fee: 55 USD/t", "holidays: []"}
		vessel := []string{"useful_volume: 40 yd3", "payload: 18 t", "wait: 3 h", "count: 6"}
		key := rapid.StringMatching(`[A-Za-z][a-z_0-9]{0,14}`).
			Filter(func(s string) bool { return !slices.Contains(knownKeys, s) && s != "null" && s != "Null" }).Draw(t, "key")
		line := key + ": 1"
		if rapid.Bool().Draw(t, "inside") {
			vessel = slices.Insert(vessel, rapid.IntRange(0, len(vessel)).Draw(t, "at"), line)
		} else {
			top = slices.Insert(top, rapid.IntRange(0, len(top)).Draw(t, "at"), line)
		}
		text := strings.Join(top, "\n") + "\nvessel:\n  " + strings.Join(vessel, "\n  ") + "\n"

		doc, err := Parse("plant.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		readPlant(doc)
		var problems *Problems
		if !errors.As(doc.Err(), &problems) || len(problems.Diagnostics) != 1 || problems.More != 0 {
			t.Fatalf("not exactly one error in\n%s\n%v", text, doc.Err())
		}
		d := problems.Diagnostics[0]
		lines := strings.Split(text, "\n")
		if got := strings.TrimSpace(lines[d.Line-1]); got != line || !strings.HasPrefix(lines[d.Line-1][d.Column-1:], key) {
			t.Fatalf("the error is at %q, column %d, not at %q", got, d.Column, line)
		}
		if !strings.Contains(d.Message, key+" is not a known key") {
			t.Fatalf("message %q", d.Message)
		}
	})
}

// Leaving out required keys gives one error for each, and no other.
func TestMissingKeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := []string{"useful_volume: 40 yd3", "payload: 18 t"}
		kept := rapid.SliceOfDistinct(rapid.SampledFrom(all), rapid.ID).Draw(t, "kept")
		doc, err := Parse("plant.yaml", []byte("name: x\nvessel:\n  count: 6\n  "+strings.Join(kept, "\n  ")+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		readPlant(doc)
		doc.Root().Map("vessel").Done()
		list := doc.Diagnostics()
		if len(list) != len(all)-len(kept) {
			t.Fatalf("%d errors with %q kept", len(list), kept)
		}
		for _, d := range list {
			if d.Line != 2 || !strings.HasPrefix(d.Message, "vessel needs the key ") {
				t.Fatalf("unexpected: %v", d)
			}
		}
	})
}

// Errors come in order of position, at most MaxShown are listed, and none is
// lost from the count.
func TestOrderAndCap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc, err := Parse("plant.yaml", []byte(strings.Repeat("# line\n", 50)+"a: 1\n"))
		if err != nil {
			t.Fatal(err)
		}
		doc.Root().Has("a")
		lines := rapid.SliceOfN(rapid.IntRange(1, 50), 1, 60).Draw(t, "lines")
		for i, line := range lines {
			doc.ErrorAt(Position{line, 1}, fmt.Sprint(i), "")
		}
		var p *Problems
		if !errors.As(doc.Err(), &p) {
			t.Fatal("no error")
		}
		if len(p.Diagnostics) > MaxShown || len(p.Diagnostics)+p.More != len(lines) {
			t.Fatalf("%d shown, %d more, of %d", len(p.Diagnostics), p.More, len(lines))
		}
		slices.Sort(lines)
		for i, d := range p.Diagnostics {
			if d.Line != lines[i] {
				t.Fatalf("error %d is on line %d, want %d", i, d.Line, lines[i])
			}
		}
	})
}

// Whatever a file holds, reading it does not panic, and every complaint has a
// place inside the file and a message.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"name: Fennick Valley\nvessel: {useful_volume: 40 yd3, payload: 18 t}\n",
		"a: &a [*a]\n", "a:\n\tb: 1\n", "? [a]\n: b\n", "a: \"\\q\"\n", "%YAML 1.2\n---\na: 1\n", "a: |\n  x\n", "\xff", "\ufeff", "a: 1\r\rb: 2\r\n",
		"humidity: {jan: 80 %}\nmonth_factor: [1,100 kg]\ncrew: [{starts: 07:00}, x]\n", "---\n---\n", "<<: {a: 1}\n", "\"\": 1\n", "\"\\e[31m\": 1\n", "start: \"\\e[31m\"\n", "a: !<%1b> 1\n", "vessel: !!map {}\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var list []Diagnostic
		doc, err := Parse("plant.yaml", data)
		if err == nil {
			readPlant(doc)
			err = doc.Err()
			list = doc.Diagnostics()
		} else {
			var p *Problems
			if !errors.As(err, &p) {
				t.Fatalf("a %T: %v", err, err)
			}
			list = p.Diagnostics
		}
		if (err != nil) != slices.ContainsFunc(list, func(d Diagnostic) bool { return d.Severity == Error }) {
			t.Fatalf("error %v, list %v", err, list)
		}
		lines := len(splitLines(string(data)))
		for _, d := range list {
			if d.Line < 1 || d.Line > lines || d.Column < 1 || d.Message == "" || d.String() == "" {
				t.Errorf("%+v in a file of %d lines", d, lines)
			}
			if strings.ContainsFunc(d.String(), func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }) {
				t.Errorf("%q would put control characters on a terminal", d.String())
			}
		}
	})
}
