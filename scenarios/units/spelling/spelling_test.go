package spelling

import (
	"testing"

	"pgregory.net/rapid"
)

// A slip of one to three keys finds the word; an unrelated word finds none.
func TestNearest(t *testing.T) {
	known := []string{"useful_volume", "payload", "turnaround", "yd3", "t", "d"}
	for _, c := range []struct{ word, want string }{
		{"usefull_volume", "useful_volume"},
		{"Useful_Volume", "useful_volume"},
		{"useful-volume", "useful_volume"},
		{"paylaod", "payload"},
		{"turn_around", "turnaround"},
		{"dy3", "yd3"}, // one mistake of a short word: letters that changed places
		{"yrd3", "yd3"},
		{"T", "t"},
		{"x", ""},
		{"colour", ""},
		{"", ""},
	} {
		got, ok := Nearest(c.word, known)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Nearest(%q) = %q, %v; want %q", c.word, got, ok, c.want)
		}
	}
}

// Of two words at the same distance the one listed first is suggested, so
// that messages do not change from run to run.
func TestNearestTie(t *testing.T) {
	if got, _ := Nearest("bat", []string{"cat", "hat"}); got != "cat" {
		t.Errorf("got %q, want the first of the tied words", got)
	}
}

// A known word is always its own nearest, whatever else is known.
func TestNearestFindsExact(t *testing.T) {
	word := rapid.StringMatching(`[a-z_]{1,12}`)
	rapid.Check(t, func(t *rapid.T) {
		known := rapid.SliceOfN(word, 1, 10).Draw(t, "known")
		pick := rapid.SampledFrom(known).Draw(t, "pick")
		if got, ok := Nearest(pick, known); !ok || got != pick {
			t.Fatalf("Nearest(%q, %q) = %q, %v", pick, known, got, ok)
		}
	})
}
