package render_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// ranked is a document with two tables of the same rows, of which row i has rank
// ranks[i], and a paragraph for each of them.
func ranked(ranks []int, least int) *document.Document {
	d := &document.Document{Headline: document.Words("The answer.")}
	for _, name := range []string{"a", "b"} {
		rows := make([]int, len(ranks))
		for i := range rows {
			rows[i] = i
		}
		t := document.TableOf(document.Table{In: document.Screen, Least: least, Title: document.Words("Table " + name), More: "; %d more"}, rows,
			document.Left([]string{""}, func(i *int) any { return fmt.Sprintf("%s-%d-", name, *i) }))
		for i, rank := range ranks {
			t.Rows[i].Rank = rank
		}
		d.Add(t)
	}
	for i, rank := range ranks {
		d.Add(document.Paragraph{Text: document.Say("p-%d-", i), Rank: rank})
	}
	return d
}

// Where a text is longer than a screen, what has the highest ranks is left out of
// both tables and of the paragraphs, as little as will do; rank 0 and the least of
// a table stay; and each table says how much is left out.
func TestLeftOutByRank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ranks := rapid.SliceOfN(rapid.IntRange(0, 9), 1, 20).Draw(t, "ranks")
		least := rapid.IntRange(0, 4).Draw(t, "least")
		var b bytes.Buffer
		if err := render.Text(&b, ranked(ranks, least), units.US); err != nil {
			t.Fatal(err)
		}
		text, highest := b.String(), -1
		for i, rank := range ranks {
			if strings.Contains(text, fmt.Sprintf("p-%d-", i)) {
				highest = max(highest, rank)
			}
		}
		shown := 0
		for i, rank := range ranks {
			a, b := strings.Contains(text, fmt.Sprintf("a-%d-", i)), strings.Contains(text, fmt.Sprintf("b-%d-", i))
			p := strings.Contains(text, fmt.Sprintf("p-%d-", i))
			if a != b || p != (rank <= max(highest, 0)) || p && !a {
				t.Fatalf("of rank %d, where %d is shown: %v, %v, %v in\n%s", rank, highest, a, b, p, text)
			}
			if a {
				shown++
			}
		}
		if shown < min(least, len(ranks)) {
			t.Fatalf("%d rows, not %d", shown, least)
		}
		left := len(ranks) - shown
		if more := fmt.Sprintf("Table b; %d more\n", left); strings.Contains(text, more) != (left > 0) {
			t.Fatalf("%d are left out:\n%s", left, text)
		}
		lines, next := strings.Count(text, "\n"), 0
		for _, rank := range ranks {
			if highest < rank && (next == 0 || rank < next) {
				next = rank
			}
		}
		const screen = 40
		if lines > screen && highest > 0 {
			t.Fatalf("%d lines, with what has rank %d", lines, highest)
		}
		more := 0 // lines that the next rank would take
		for _, rank := range ranks {
			if rank == next {
				more += 3
			}
		}
		if next > 0 && lines+more <= screen {
			t.Fatalf("%d lines: there is room for rank %d, which takes %d", lines, next, more)
		}
	})
}
