package simulate_test

import (
	"math"
	"slices"
	"testing"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/simulate/internal/sample"
)

// What comes from two sources into one store is one band of their sum.
func TestSourcesAreOneBand(t *testing.T) {
	inflows := func(double bool) []doc.Stream {
		a := sample.Answer(3)
		if double {
			a.Flows = append(a.Flows, a.Flows[0])
		}
		figures := a.Document().Figures
		i := slices.IndexFunc(figures, func(f doc.Figure) bool { return f.Flow != nil })
		return slices.DeleteFunc(figures[i].Flow.Streams, func(s doc.Stream) bool { return s.From != "" })
	}
	one, two := inflows(false), inflows(true)
	if len(one) == 0 || len(two) != len(one) || math.Abs(two[0].Value-2*one[0].Value) > 1e-9*one[0].Value || two[0].Name != "brought in" {
		t.Errorf("%+v, and with another source %+v", one, two)
	}
}
