package simulate_test

import (
	"bytes"
	"strings"
	"testing"

	"loamcast/scenarios/render"
	"loamcast/scenarios/simulate/internal/sample"
	"loamcast/scenarios/units"
)

// On a terminal of 80 columns and 40 lines the answer is still whole: the headline, what
// the last year takes and brings, the years, what solids wait for, and the cautions.
func TestNarrowScreen(t *testing.T) {
	a := sample.Answer(20)
	var b bytes.Buffer
	if err := render.OfTerminal(80).Text(&b, a.Document(), units.US); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if n := strings.Count(text, "\n"); n > 40 {
		t.Errorf("%d lines:\n%s", n, text)
	}
	last := a.Years[len(a.Years)-1].Label
	for _, part := range []string{"miss the service target", "Service target:", last + " in", last + " out", "Installed", "Waiting", "Capacity", "! A plan"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), part) {
			t.Errorf("no %q in\n%s", part, text)
		}
	}
}
