package facilityfile

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Each growth scenario has its weight's share of the first replications, however many
// these are, to within one less than there are scenarios; what a replication has does
// not depend on how many follow; and one of no weight has none.
func TestShareOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.IntRange(0, 20), 1, 6).Draw(t, "parts")
		parts[0]++ // some weight
		total := 0
		for _, part := range parts {
			total += part
		}
		weights, seen := make([]float64, len(parts)), make([]int, len(parts))
		for i, part := range parts {
			weights[i] = float64(part) / float64(total)
		}
		n := rapid.IntRange(1, 200).Draw(t, "replications")
		all := shareOut(weights, n)
		for rep, scenario := range all {
			seen[scenario]++
			for i, w := range weights {
				if off := math.Abs(float64(seen[i]) - w*float64(rep+1)); off > max(1, float64(len(weights)-1))+1e-9 {
					t.Fatalf("scenario %d has %d of %d replications, %g off its share", i, seen[i], rep+1, off)
				}
				if w == 0 && seen[i] > 0 {
					t.Fatalf("scenario %d has no weight and %d replications", i, seen[i])
				}
			}
		}
		if fewer := shareOut(weights, n/2); !slices.Equal(fewer, all[:n/2]) {
			t.Fatalf("of %d: %v; of %d: %v", n, all, n/2, fewer)
		}
	})
}

// By hand: a quarter, a half and a quarter. The half is furthest behind at first, then
// the first quarter, at last the second; a file without scenarios has growth 0.
func TestShareOutByHand(t *testing.T) {
	p := Planning{Growths: []GrowthScenario{{Weight: 0.25}, {Weight: 0.5}, {Weight: 0.25}}}
	if got, want := p.ShareOut(6), []int{1, 0, 2, 1, 1, 0}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := new(Planning).ShareOut(2); !slices.Equal(got, []int{0, 0}) {
		t.Errorf("%v without scenarios", got)
	}
}
