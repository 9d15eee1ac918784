package cycleplan_test

import (
	"strings"
	"testing"
	"time"

	"loamcast/facility/recycle"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

// A load that goes to and fro is told of with both times on the screen of its month
// and marked in the table of months; one that does not is not.
func TestSwingIsTold(t *testing.T) {
	for _, swing := range []recycle.Swing{{}, {Shortest: 9 * 24, Longest: 11.75 * 24}} {
		l := sampleLoad(time.July)
		l.StaySwing = swing
		one := rendertest.Text(t, sampleCycle(l).Document(), units.SI)
		all := rendertest.Text(t, sampleCycle(sampleLoad(time.June), l).Document(), units.SI)
		if told := strings.Contains(strings.Join(strings.Fields(one), " "), "goes to and fro between 9 days and 11.8 days"); told != swing.Some() {
			t.Errorf("told %v of %+v:\n%s", told, swing, one)
		}
		if marked := strings.Contains(all, "Jul~") && strings.Contains(all, "~: no load"); marked != swing.Some() || strings.Contains(all, "Jun~") {
			t.Errorf("marked %v of %+v:\n%s", marked, swing, all)
		}
	}
}
