package render_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// On a screen that is too short without what has a rank and without empty lines, what may
// be spared goes, the highest first: paragraphs, and columns that stand below the others
// on a narrow screen. On a wide one columns take no lines and stay.
func TestSpared(t *testing.T) {
	build := func(fillers int) *document.Document {
		d := &document.Document{Headline: document.Words("The answer.")}
		for i := range fillers {
			d.Add(document.Paragraph{Text: document.Say("filler-%d", i)})
		}
		d.Add(document.Paragraph{Text: document.Words("has a rank"), Rank: 1}, document.Gap{})
		d.Spared(1, "Label", "low %s", "spare")
		d.Spared(3, "", "high spare")
		wide := func(name string) document.Col[int] {
			return document.Txt("", []string{strings.Repeat(name, 30)}, document.Count, func(i *int) any { return *i })
		}
		d.Add(document.TableOf(document.Table{In: document.Screen}, []int{1, 2},
			document.Left([]string{"row"}, func(i *int) any { return fmt.Sprint(*i) }), wide("a"), document.Spared(2, wide("b"))))
		return d
	}
	narrow, broad := render.Screen{Columns: 60, Lines: 14}, render.Screen{Columns: 98, Lines: 14}
	for _, c := range []struct {
		screen  render.Screen
		fillers int
		gone    string // of "has a rank", the empty line, "high spare", the column, "low spare"
	}{
		// Narrow: headline, two tables of 4 lines and an empty one between, 4 lines of text.
		{narrow, 0, ""}, {narrow, 1, "rank"}, {narrow, 2, "rank, gap"}, {narrow, 4, "rank, gap, high"},
		{narrow, 5, "rank, gap, high, column"}, {narrow, 8, "rank, gap, high, column"}, {narrow, 9, "rank, gap, high, column, low"}, {narrow, 20, "rank, gap, high, column, low"},
		// Broad: one table of 4 lines.
		{broad, 5, ""}, {broad, 6, "rank"}, {broad, 7, "rank, gap"}, {broad, 8, "rank, gap, high"}, {broad, 9, "rank, gap, high, low"},
	} {
		var b bytes.Buffer
		if err := c.screen.Text(&b, build(c.fillers), units.US); err != nil {
			t.Fatal(err)
		}
		var gone []string
		for _, part := range []struct{ name, sign string }{
			{"rank", "has a rank"}, {"gap", "\n\n"}, {"high", "high spare"}, {"column", strings.Repeat("b", 30)}, {"low", "low spare"},
		} {
			if !strings.Contains(b.String(), part.sign) {
				gone = append(gone, part.name)
			}
		}
		if got := strings.Join(gone, ", "); got != c.gone {
			t.Errorf("%d columns, %d lines of text: without %q, want %q:\n%s", c.screen.Columns, c.fillers, got, c.gone, b.String())
		}
	}
}
