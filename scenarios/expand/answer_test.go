package expand_test

import (
	"testing"

	"loamcast/scenarios/expand"
	"loamcast/sim/stats"
)

// The answer says itself whether the plant keeps the target as it is, which years
// are too near to it to tell, and whether a plan is sure to keep it.
func TestDecisions(t *testing.T) {
	for _, c := range []struct {
		asIs, missed, through int
		asItIs, keeps         bool
		from, to              int // too near to tell; none if from > to
	}{
		{6, 9, 19, false, true, 7, 8},
		{6, 8, 19, false, true, 7, 7},
		{6, 7, 18, false, false, 7, 6},
		{-1, 0, -1, false, false, 0, -1},
		{19, 20, 19, true, true, 20, 19},
	} {
		a := sample()
		a.AsIs, a.AsIsMissed, a.Through = c.asIs, c.missed, c.through
		from, to, some := a.Near()
		if a.AsItIs() != c.asItIs || a.Keeps() != c.keeps || from != c.from || to != c.to || some != (from <= to) {
			t.Errorf("%+v: as it is %v, kept %v, too near to tell from %d to %d: %v", c, a.AsItIs(), a.Keeps(), from, to, some)
		}
	}
	for verdict, sure := range map[stats.Verdict]bool{stats.Below: true, stats.Undecided: false, stats.Above: false} {
		if p := (expand.Plan{Verdict: verdict}); p.Sure() != sure {
			t.Errorf("verdict %v is sure: %v", verdict, p.Sure())
		}
	}
}
