package cycleplan

import (
	"testing"
	"time"
)

// The slowest month is the one whose last criterion is met last; the first of several.
func TestSlowestMonth(t *testing.T) {
	of := func(month time.Month, hours ...float64) Load {
		l := Load{Month: month}
		for _, h := range hours {
			l.Criteria = append(l.Criteria, Criterion{Met: Moment{OK: true, Hours: h}})
		}
		return l
	}
	a := &Answer{Loads: []Load{of(time.January, 400, 300), of(time.February, 100, 410), of(time.March, 410, 10), of(time.July, 90, 350)}}
	if got := a.Slowest().Month; got != time.February {
		t.Errorf("the slowest month is %v, want February", got)
	}
}
