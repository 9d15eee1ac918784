package plant

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
)

// Shows at what temperature a lot begins to cure: after one handling, after two where it
// goes through the screen first, and at the model's where none is given (derived: of
// 40 K above the air half is left, then a quarter); and with water by the heats of lot and
// water: 1,000 kg dry with 500 of water and 500 more of 10 °C,
//
//	30 − 20·500·4.186/(1,000·1.25 + 1,000·4.186) = 22.2995 °C
func TestPadStart(t *testing.T) {
	m := model()
	lot := material.Parcel{Water: 1000, Fine: material.Solids{Fixed: 1000}}
	pile := *m.Pile
	pile.Site.Temperature[time.March-1] = 10
	m.Pile = &pile
	if got := m.PadStart(50, lot, 0, time.March); !math.IsNaN(got) {
		t.Errorf("without handling: %g °C", got)
	}
	pile.Tipped = &process.Handling{Share: 0.5}
	if got := m.PadStart(50, lot, 0, time.March); got != 30 {
		t.Errorf("handled once: %g °C, want 30", got)
	}
	if got := m.PadStart(50, lot, 500, time.March); math.Abs(got-22.2995) > 1e-4 {
		t.Errorf("handled and wetted: %g °C, want 22.2995", got)
	}
	if got := m.PadStart(-4, lot, 500, time.March); got != -4 {
		t.Errorf("frozen and wetted: %g °C, want -4", got)
	}
	pile.Heat.Fusion = process.FusionHeat
	if got := m.PadStart(0, lot, 0, time.March); !(got < 0 && got > -1e-3) {
		t.Errorf("tipped half frozen: %g °C, want ice all through", got)
	}
	m.Curing.Handling = &process.Handling{Share: 0.75}
	if got := m.PadStart(50, lot, 0, time.March); got != 20 {
		t.Errorf("handled with a loss of its own: %g °C, want 20", got)
	}
	m.Curing.Handling = nil
	m.Screening.First = true
	if got := m.PadStart(50, lot, 0, time.March); got != 20 {
		t.Errorf("handled twice: %g °C, want 20", got)
	}
}
