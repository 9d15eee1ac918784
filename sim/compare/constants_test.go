package compare

import (
	"math"
	"testing"
)

// Shows the constant for P* = 0.95 and 20 first replications to four digits
// (derived from the equation by hand).
func TestConstants(t *testing.T) {
	for k, want := range map[int]float64{2: 5.211, 5: 9.015, 10: 11.511} {
		if got := KimNelsonConstant(k, 20, 0.95); math.Abs(got-want) > 0.0006 {
			t.Errorf("%d options: %.4f, want %v", k, got, want)
		}
	}
}

// Shows that more options, more confidence or fewer first replications ask for
// more.
func TestConstantsGrow(t *testing.T) {
	middle := KimNelsonConstant(4, 15, 0.9)
	for _, more := range []float64{KimNelsonConstant(5, 15, 0.9), KimNelsonConstant(4, 14, 0.9), KimNelsonConstant(4, 15, 0.91)} {
		if more <= middle {
			t.Errorf("%v is not above %v", more, middle)
		}
	}
}
