package render

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// Lines break at plain spaces only, and no word is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}(\x{a0}[a-z]{1,5})?`), 1, 60).Draw(t, "words")
		lines := Usual.Wrap(strings.Join(words, " "), "", "  ")
		for _, line := range lines {
			if utf8.RuneCountInString(line) > Usual.Columns {
				t.Fatalf("too long: %q", line)
			}
		}
		want := document.PlainSpaces(strings.Join(words, " "))
		if got := strings.Join(strings.Fields(strings.Join(lines, " ")), " "); got != want {
			t.Fatalf("%q became %q", want, got)
		}
		for _, word := range words {
			if kept := document.PlainSpaces(word); !strings.Contains(strings.Join(lines, "\n"), kept) {
				t.Fatalf("%q was broken", kept)
			}
		}
	})
}

// A document longer than a screen loses rows by their rank down to the least, and
// only then its empty lines.
func TestTooLong(t *testing.T) {
	lengths := func(paragraphs int) (rows, blanks int) {
		d := document.New("test", answer.Basis{}, document.Words("headline"))
		for range paragraphs {
			d.Para("words")
		}
		d.Add(document.Gap{})
		table := document.TableOf(document.Table{In: document.Screen, Least: 2}, []int{1, 2, 3, 4},
			document.Left([]string{"row"}, func(n *int) any { return "row" }))
		for i := range table.Rows {
			table.Rows[i].Rank = i
		}
		d.Add(table)
		var b bytes.Buffer
		if err := Text(&b, d, units.US); err != nil {
			t.Fatal(err)
		}
		return strings.Count(b.String(), "row\n") - 1, strings.Count(b.String(), "\n\n")
	}
	// Beside the paragraphs: headline, gap, heading, rule and four rows.
	for _, c := range []struct{ paragraphs, rows, blanks int }{{32, 4, 1}, {33, 3, 1}, {34, 2, 1}, {35, 2, 0}} {
		if rows, blanks := lengths(c.paragraphs); rows != c.rows || blanks != c.blanks {
			t.Errorf("%d paragraphs: %d rows and %d empty lines, want %d and %d", c.paragraphs, rows, blanks, c.rows, c.blanks)
		}
	}
}

// Numbers keep six digits and never use separators of thousands.
func TestPlainNumber(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"},
		{math.Copysign(0, -1), "0"},
		{1234567.8, "1234570"},
		{-0.123456789, "-0.123457"},
		{999999.5, "1000000"},
		{3.14159e-14, "3.14159e-14"},
		{2.5e20, "2.5e+20"},
		{math.MaxFloat64, "1.79769e+308"},
		{math.NaN(), ""},
		{math.Inf(-1), ""},
	} {
		if got := plainNumber(c.x); got != c.want {
			t.Errorf("plainNumber(%v) = %q, want %q", c.x, got, c.want)
		}
	}
}
