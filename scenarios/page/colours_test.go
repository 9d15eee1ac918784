package page

import (
	"regexp"
	"strings"
	"testing"

	"loamcast/scenarios/render/rendertest"
)

// Words stand out from what they stand on, 4.5 times, and the edges of fields, which only
// show where something may be typed, 3 times (WCAG 2.1, from memory), by day and by night.
func TestColoursStandOut(t *testing.T) {
	sheet, err := files.ReadFile("assets/page.css")
	if err != nil {
		t.Fatal(err)
	}
	variable := regexp.MustCompile(`--([a-z]+): (#[0-9a-f]+);`)
	schemes := regexp.MustCompile(`:root \{[^}]*\}`).FindAllString(string(sheet), -1)
	if len(schemes) != 2 {
		t.Fatalf("%d schemes of colours", len(schemes))
	}
	for _, scheme := range schemes {
		colour := map[string]string{}
		for _, m := range variable.FindAllStringSubmatch(scheme, -1) {
			colour[m[1]] = m[2]
		}
		for _, pair := range []struct {
			on, words string
			least     float64
		}{
			{"paper", "ink faded warn bad link earth", 4.5}, {"ground", "ink faded warn", 4.5}, {"earth", "paper", 4.5}, {"bad", "paper", 4.5},
			{"paper", "field", 3},
		} {
			for _, word := range strings.Fields(pair.words) {
				if colour[word] == "" || colour[pair.on] == "" {
					t.Fatalf("%q has no colour %s or %s", scheme, word, pair.on)
				}
				if c := rendertest.Contrast(colour[word], colour[pair.on]); c < pair.least {
					t.Errorf("%s on %s, %s on %s: %.2f", word, pair.on, colour[word], colour[pair.on], c)
				}
			}
		}
	}
}
