package plant

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/process"
)

// Shows at what temperature a lot begins to cure: after one handling, after two where it
// goes through the screen first, and at the model's where none is given (derived: of
// 40 K above the air half is left, then a quarter).
func TestPadStart(t *testing.T) {
	m := model()
	pile := *m.Pile
	pile.Site.Temperature[time.March-1] = 10
	m.Pile = &pile
	if got := m.PadStart(50, time.March); !math.IsNaN(got) {
		t.Errorf("without handling: %g °C", got)
	}
	pile.Tipped = &process.Handling{Share: 0.5}
	if got := m.PadStart(50, time.March); got != 30 {
		t.Errorf("handled once: %g °C, want 30", got)
	}
	m.Screening.First = true
	if got := m.PadStart(50, time.March); got != 20 {
		t.Errorf("handled twice: %g °C, want 20", got)
	}
}
