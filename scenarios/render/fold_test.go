package render

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A table that fits the screen stays whole. One that does not is folded: each strip fits if
// its key and one column do, each column but those of the key stands in one of them, in
// order, and every strip begins with the key, which tells the rows apart where it can.
func TestFold(t *testing.T) {
	folded, whole := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		screen := Screen{Columns: rapid.IntRange(20, 60).Draw(t, "columns"), Lines: 40}
		rows := rapid.IntRange(1, 4).Draw(t, "rows")
		var table []column
		for i := range rapid.IntRange(1, 12).Draw(t, "number") {
			c := column{headings: []string{fmt.Sprintf("c%d", i)}, words: rapid.Float64().Draw(t, "words") < 0.2}
			if group := rapid.IntRange(0, 6).Draw(t, "group"); group > 0 {
				c.group = strings.Repeat("g", group)
			}
			for range rows {
				c.cells = append(c.cells, strings.Repeat("x", rapid.IntRange(1, 15).Draw(t, "cell")))
			}
			table = append(table, c)
		}
		strips := screen.fold(table)
		name := func(c column) string { return c.headings[0] }
		keys := len(table)
		if len(strips) == 1 {
			whole++
		} else {
			folded++
			keys = screen.keys(table)
		}
		var seen []string
		for i, strip := range strips {
			for k := range strip[:keys] {
				if name(strip[k]) != name(table[k]) {
					t.Fatalf("strip %d begins with %s", i, name(strip[k]))
				}
			}
			if i == 0 {
				seen = append(seen, name(strip[0]))
				strip = strip[1:]
				for _, c := range strip[:keys-1] {
					seen = append(seen, name(c))
				}
				strip = strip[keys-1:]
			} else {
				strip = strip[keys:]
			}
			for _, c := range strip {
				seen = append(seen, name(c))
			}
			if n := width(layOut(strips[i], screen.Columns)); n > screen.Columns && len(strip) > 1 {
				t.Fatalf("strip %d of %d columns is %d wide of %d", i, len(strip), n, screen.Columns)
			}
		}
		want := make([]string, len(table))
		for i := range table {
			want[i] = name(table[i])
		}
		if !slices.Equal(seen, want) {
			t.Fatalf("the columns are %v", seen)
		}
		if fits := width(layOut(table, screen.Columns)) <= screen.Columns; fits && len(strips) > 1 {
			t.Fatal("folded where it fits")
		}
	})
	if folded == 0 || whole == 0 {
		t.Errorf("%d tables were folded, %d not", folded, whole)
	}
}

// Rows that are told apart by two columns keep both: growth and number of vessels.
func TestKeysTellRowsApart(t *testing.T) {
	table := []column{
		{headings: []string{"Growth"}, cells: []string{"all", "", "", "slow"}, words: true},
		{headings: []string{"vessels"}, cells: []string{"8", "9", "10", "8"}},
		{headings: []string{"kept"}, cells: []string{"2033", "2035", "2038", "2040"}},
	}
	if n := (Screen{Columns: 60}).keys(table); n != 2 {
		t.Errorf("%d columns tell rows apart, want 2", n)
	}
	table[0].cells[1], table[0].cells[2] = "fast", "none"
	if n := (Screen{Columns: 60}).keys(table); n != 1 {
		t.Errorf("%d columns tell rows apart that the first does, want 1", n)
	}
}
