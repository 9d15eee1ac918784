package facilityfile

import (
	"strings"
	"testing"
)

// In a plant of several classes it cannot be told which vessels are in use on the first
// day, and is refused; the stores can be told.
func TestOpeningOfClasses(t *testing.T) {
	text := strings.Replace(editedClasses(t), "warm_up: 1 year\n", "", 1)
	for opening, want := range map[string]string{
		"{vessels_in_use: 3}": "opening.vessels_in_use: of which class the vessels in use are cannot be told",
		"{vessels: [{loaded: 2026-12-20, cake_dry: 2 short ton}]}": "opening.vessels: of which class",
		"{product: 200 yd3}": "",
	} {
		_, err := Parse("classes.yaml", []byte(text+"\nopening: "+opening+"\n"))
		switch {
		case want == "" && err != nil:
			t.Errorf("%s: %v", opening, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "error:") != 1):
			t.Errorf("%s: %v, not %q alone", opening, err, want)
		}
	}
}
