package plaintext

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"io"
	"strings"
	"testing"
	"unicode"
)

// What each place gets of words that could do harm there; harmless words, in
// any script, stay as they are.
func TestPlaces(t *testing.T) {
	for _, c := range []struct{ in, terminal, xml, cell string }{
		{"", "", "", ""},
		{"Cañon's <b> & 木屑", "Cañon's <b> & 木屑", "Cañon's <b> & 木屑", "Cañon's <b> & 木屑"},
		{"a\x1b[31mred", "a[31mred", "a[31mred", "a[31mred"},
		{"nul\x00 and del\x7f", "nul and del", "nul and del", "nul and del"},
		{"left\u202eright\u2066", "leftright", "leftright", "leftright"},
		{"zero\u200bwidth\ufeff", "zerowidth", "zerowidth", "zerowidth"},
		{"no\uffffne\ufffe", "none", "none", "none"},
		{"bad\xff byte", "bad byte", "bad byte", "bad byte"},
		{"two\nlines", "twolines", "two\nlines", "two\nlines"},
		{"=1+1", "=1+1", "=1+1", "'=1+1"},
		{"+cmd", "+cmd", "+cmd", "'+cmd"},
		{"-cmd", "-cmd", "-cmd", "'-cmd"},
		{"@SUM(A1)", "@SUM(A1)", "@SUM(A1)", "'@SUM(A1)"},
		{"\t=1", "=1", "\t=1", "'=1"},
		{"\r=1", "=1", "=1", "'=1"},
		{"\u200b=1", "=1", "=1", "'=1"},
		{"＝1", "＝1", "＝1", "'＝1"},
		{"-12.5e3", "-12.5e3", "-12.5e3", "-12.5e3"},
		{"a=b", "a=b", "a=b", "a=b"},
	} {
		if got := Terminal(c.in); got != c.terminal {
			t.Errorf("Terminal(%q) = %q, want %q", c.in, got, c.terminal)
		}
		if got := XML(c.in); got != c.xml {
			t.Errorf("XML(%q) = %q, want %q", c.in, got, c.xml)
		}
		if got := Cell(c.in); got != c.cell {
			t.Errorf("Cell(%q) = %q, want %q", c.in, got, c.cell)
		}
	}
}

// Whatever the words: a terminal gets printed characters only, XML parses and
// says the same words, no cell begins like a formula, and each function changes
// nothing the second time.
func FuzzPlaces(f *testing.F) {
	for _, s := range []string{"", "plant", "=1", "\x1b[2J", "\u202e", "\xff", "'=", "-1", "--1", "\t\r\n@"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, r := range Terminal(s) {
			if !unicode.IsPrint(r) {
				t.Errorf("Terminal(%q) holds %U", s, r)
			}
		}
		for name, g := range map[string]func(string) string{"Terminal": Terminal, "XML": XML, "Cell": Cell} {
			if once := g(s); g(once) != once {
				t.Errorf("%s(%q) = %q, and again %q", name, s, once, g(once))
			}
		}
		var escaped bytes.Buffer
		if err := xml.EscapeText(&escaped, []byte(XML(s))); err != nil {
			t.Fatal(err)
		}
		var back string
		if err := xml.NewDecoder(strings.NewReader("<t>" + escaped.String() + "</t>")).Decode(&back); err != nil || back != XML(s) {
			t.Errorf("XML(%q) reads back as %q (%v)", s, back, err)
		}
		var b bytes.Buffer
		if err := WriteCSV(&b, [][]string{{"x", s}}); err != nil {
			t.Fatal(err)
		}
		row, err := csv.NewReader(&b).Read()
		if err != nil && err != io.EOF || len(row) != 2 || row[1] != Cell(s) {
			t.Errorf("a cell of %q reads back as %q (%v)", s, row, err)
		}
	})
}
