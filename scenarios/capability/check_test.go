package capability

import "testing"

// Once as many runs have been made as agree, the others contradict in no case, and one run
// earlier they might: of 24 runs, where a twentieth may miss, five contradict, so that 20 of
// which none misses are enough.
func TestAgreedRunsCannotContradict(t *testing.T) {
	if n := Agreed(0, Checks, 0.05); n != 20 {
		t.Errorf("%d runs of which none misses are enough, by hand 20", n)
	}
	for _, limit := range []float64{0, 0.02, 0.05, 0.2, 0.5, 1} {
		for missed := range Checks + 1 {
			n := Agreed(missed, Checks, limit)
			if worst := missed + Checks - n; n < Checks && Contradict(worst, Checks, limit) {
				t.Errorf("limit %g: after %d runs with %d missed, %d of all may miss, which contradicts", limit, n, missed, worst)
			}
			if n > 0 && !Contradict(missed+Checks-(n-1), Checks, limit) {
				t.Errorf("limit %g: with %d missed, %d runs would be enough", limit, missed, n-1)
			}
		}
	}
}
