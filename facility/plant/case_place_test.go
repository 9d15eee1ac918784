package plant

import (
	"testing"

	"loamcast/sim"
)

// Maintenance of aerated places. A load is full every 20 h, at 20k + 0.5 h, and
// stands for 240 h: twelve places are just enough.
//
// Each place is due every 1,200 days; the first time is spread over them, so that
// in the year of 365 days one is due on day 100, one on day 200 and one on day 300,
// at 2,400, 4,800 and 7,200 h. All are taken then, so that each goes out of use
// when the next load leaves, half an hour later, and for 10 days.
//
// In these 240 h the other eleven take eleven loads, while twelve come: one more
// load waits from 2,400.5 h to the end of the year, since nothing is left over to
// catch up with it, a second from 4,800.5 h, a third from 7,200.5 h.
//
//	waited  2,000 kg · (6,359.5 + 3,959.5 + 1,559.5) h = 989,875 kg·d
//
// With thirteen places, or without maintenance, no load waits for one.
func TestCasePlaceMaintenance(t *testing.T) {
	for _, c := range []struct {
		name    string
		places  int
		service Maintenance
		waited  float64
	}{
		{"just enough", 12, Maintenance{Every: 1200 * sim.Day, Takes: 10 * sim.Day}, loadCake * (6359.5 + 3959.5 + 1559.5) / 24},
		{"one more", 13, Maintenance{Every: 1300 * sim.Day, Takes: 10 * sim.Day}, 0},
		{"never serviced", 12, Maintenance{}, 0},
	} {
		m := paper()
		m.Yard.Places, m.Yard.PlaceService = c.places, c.service
		rec, d := follow(t, m, caseKey)
		near(t, c.name+": waited for a place, kg·d", total(rec, func(m *Month) float64 { return m.Waits[NoPlace] }), c.waited, 0.1)
		if c.waited > 0 {
			// At the end each load is unloaded three times 20 h late, and a second at
			// the most for the alarm.
			out := d.on("compost unloaded")
			last := out[len(out)-1]
			near(t, c.name+": the last load is late, h", hourOf(last.At)-(20*float64(last.Load)+0.5+residenceHours), 60, 1.1/3600)
		}
	}
}
