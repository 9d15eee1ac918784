package process

import (
	"testing"
	"time"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// TestTradeExpectations shows that a change of load or plant moves a course the
// way the trade expects, from any working starting point.
func TestTradeExpectations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		month := time.Month(rapid.IntRange(1, 12).Draw(t, "month"))
		cake, chips := cakeSpec(), chipSpec()
		cake.Moisture = rapid.Float64Range(0.76, 0.82).Draw(t, "cake moisture")
		ratio := rapid.Float64Range(2.3, 3).Draw(t, "ratio")
		kg := rapid.Float64Range(15000, 18000).Draw(t, "kg")
		run := func(m *Model, p material.Parcel) *Course {
			c, err := m.Course(p, month, 480)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		base := run(DefaultVesselModel(), mix(cake, chips, ratio, kg))

		thin := cake
		thin.Moisture += 0.03
		c := run(DefaultVesselModel(), mix(thin, chips, ratio, kg))
		slower(t, "thinner cake", base, c)
		wetter(t, "thinner cake", base, c)

		c = run(DefaultVesselModel(), mix(cake, chips.WithMoisture(0.48), ratio, kg))
		slower(t, "wetter chips", base, c)
		wetter(t, "wetter chips", base, c)

		cold := DefaultVesselModel()
		for i := range cold.Site.Temperature {
			cold.Site.Temperature[i] -= 8
		}
		c = run(cold, base.Initial)
		slower(t, "colder air", base, c)
		wetter(t, "colder air", base, c)

		bare := DefaultVesselModel()
		bare.Enclosure.Conductance = 2
		slower(t, "no insulation", base, run(bare, base.Initial))

		short := base.Samples[len(base.Samples)/2]
		if short.Parcel.Dry() <= base.Final().Parcel.Dry() || short.Parcel.Water <= base.Final().Parcel.Water {
			t.Error("a shorter stay loses as much")
		}

		if !base.Met[0].OK { // too cold to work: less air would even help it
			return
		}
		starved := DefaultVesselModel()
		starved.Blower.Capacity = 6
		c = run(starved, base.Initial)
		if c.Final().Exchange.O2 >= base.Final().Exchange.O2 || c.Final().Air >= base.Final().Air {
			t.Error("a starved load takes up as much oxygen")
		}
		wetter(t, "less air", base, c)
	})
}

func slower(t *rapid.T, what string, base, c *Course) {
	if c.reached(50) <= base.reached(50) && base.reached(50) > 0 {
		t.Errorf("%s: 50 °C on day %.2f, base %.2f", what, c.reached(50), base.reached(50))
	}
}

func wetter(t *rapid.T, what string, base, c *Course) {
	if c.Final().Parcel.Moisture() <= base.Final().Parcel.Moisture() {
		t.Errorf("%s: leaves at %.3f, base %.3f", what, c.Final().Parcel.Moisture(), base.Final().Parcel.Moisture())
	}
}
