package rendertest

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

var update = flag.Bool("update", false, "write the golden files of this package anew")

// Systems are both systems of units.
var Systems = []units.System{units.US, units.SI}

// The screen of golden files: a terminal of 40 lines by 100 columns; and others on which
// every document must fit across.
const (
	screenLines   = 40
	screenColumns = 98
)

var otherTerminals = []int{80, 120}

// Golden compares text with the file of that name in testdata.
func Golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
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

// Text returns a document as it stands on the screen.
func Text(t *testing.T, d *document.Document, sys units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := render.Text(&b, d, sys); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// JSON returns a document as one object.
func JSON(t *testing.T, d *document.Document, sys units.System) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := render.JSON(&b, d, sys); err != nil {
		t.Fatal(err)
	}
	if !json.Valid(b.Bytes()) {
		t.Fatalf("not JSON: %s", b.Bytes())
	}
	return b.Bytes()
}

// Reads holds the text of a document, in both systems of units, against golden
// files named after it, and checks that it fits the screen.
func Reads(t *testing.T, name string, d *document.Document) {
	t.Helper()
	for _, sys := range Systems {
		text := Text(t, d, sys)
		Golden(t, name+"_"+sys.String()+".txt", []byte(text))
		if d.Sheet {
			fitsAcross(t, name, text)
		} else {
			Fits(t, name, text)
		}
		for _, columns := range otherTerminals {
			var b bytes.Buffer
			if err := render.OfTerminal(columns).Text(&b, d, sys); err != nil {
				t.Fatal(err)
			}
			across(t, fmt.Sprintf("%s on a terminal of %d columns", name, columns), b.String(), columns-2)
		}
	}
}

// Fits checks that a text fits the screen.
func Fits(t *testing.T, name, text string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) > screenLines {
		t.Errorf("%s: %d lines", name, len(lines))
	}
	fitsAcross(t, name, text)
}

// fitsAcross checks that no line of a text is wider than the screen.
func fitsAcross(t *testing.T, name, text string) {
	t.Helper()
	across(t, name, text, screenColumns)
}

func across(t *testing.T, name, text string, most int) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if n := utf8.RuneCountInString(line); n > most {
			t.Errorf("%s: %d columns: %q", name, n, line)
		}
	}
}

// Leaves holds the names of the files that an answer leaves, the columns of its
// tables and the members of its JSON, which are part of the output format, against
// golden files named after it, and that every column is explained.
func Leaves(t *testing.T, name string, d *document.Document) {
	t.Helper()
	for _, sys := range Systems {
		files, err := render.Files(d, sys)
		if err != nil {
			t.Fatal(err)
		}
		Explained(t, files)
		var b strings.Builder
		for _, f := range files {
			b.WriteString(f.Name + "\n")
			switch {
			case strings.HasSuffix(f.Name, ".csv"):
				header, _, _ := strings.Cut(string(f.Data), "\n")
				tellsRowsApart(t, f)
				tellsDatesAlike(t, f)
				b.WriteString("  " + strings.ReplaceAll(header, ",", "\n  ") + "\n")
			case strings.HasSuffix(f.Name, ".json"):
				b.WriteString("  " + strings.ReplaceAll(strings.TrimSpace(keyPaths(t, bytes.NewReader(f.Data))), "\n", "\n  ") + "\n")
			}
		}
		Golden(t, name+"_files_"+sys.String()+".txt", []byte(b.String()))
	}
}

// tellsRowsApart checks that no two rows of a long file are of the same figure of the same
// thing.
func tellsRowsApart(t *testing.T, f outfile.File) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	figure := slices.Index(rows[0], "figure")
	if figure < 0 {
		return
	}
	seen := map[string]bool{}
	for _, row := range rows {
		key := strings.Join(row[:figure+1], "\n")
		if seen[key] {
			t.Errorf("%s has two rows of %q", f.Name, row[:figure+1])
		}
		seen[key] = true
	}
}

// keyPaths lists the paths of all members in order, those of a list once.
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

// Draws checks that the figures of a document hold some words and not others,
// in a system of units, and come out the same twice.
func Draws(t *testing.T, d *document.Document, sys units.System, words, not []string) {
	t.Helper()
	drawings, err := render.Pictures(d, sys)
	if err != nil {
		t.Fatal(err)
	}
	again, err := render.Pictures(d, sys)
	if err != nil {
		t.Fatal(err)
	}
	var svg []byte
	for i, f := range drawings {
		if !bytes.Equal(f.Data, again[i].Data) {
			t.Errorf("%s differs when drawn again", f.Name)
		}
		switch {
		case strings.HasSuffix(f.Name, ".svg"):
			svg = append(svg, f.Data...)
		case !bytes.HasPrefix(f.Data, []byte("\x89PNG")):
			t.Errorf("%s is no PNG", f.Name)
		}
	}
	for _, w := range words {
		if !bytes.Contains(svg, []byte(w)) {
			t.Errorf("in %v the pictures lack %q", sys, w)
		}
	}
	for _, w := range not {
		if bytes.Contains(svg, []byte(w)) {
			t.Errorf("in %v the pictures hold %q", sys, w)
		}
	}
}

// Basis is an invented head.
func Basis() answer.Basis {
	return answer.Basis{
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Invented: true, Version: "0",
		Seed: 1, Replications: 100, Level: answer.Deciles, PricesOf: 2027,
	}
}

// Around is an invented spread around a value.
func Around(v float64) answer.Spread {
	return answer.Spread{Mean: v, P10: 0.9 * v, P50: 0.99 * v, P90: 1.1 * v}
}

// Seen is an invented chance with its interval.
func Seen(estimate float64) stats.Interval {
	return stats.Interval{Estimate: estimate, Low: max(0, estimate-0.04), High: min(1, estimate+0.04), Level: 0.95}
}

// TenthAbout is an invented estimate with an interval of a tenth about it.
func TenthAbout(v float64) stats.Interval {
	half := max(v, -v) / 10
	return stats.Interval{Estimate: v, Low: v - half, High: v + half, Level: 0.95}
}

// Without is [Reads] and [Leaves] of a document whose text and JSON hold none of some words.
func Without(t *testing.T, name string, d *document.Document, words ...string) {
	t.Helper()
	Reads(t, name, d)
	Leaves(t, name, d)
	text := Text(t, d, units.US) + string(JSON(t, d, units.SI))
	for _, word := range words {
		if strings.Contains(text, word) {
			t.Errorf("%s is still in it", word)
		}
	}
}
