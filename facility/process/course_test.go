package process

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
)

func course(t testing.TB, m *Model, p material.Parcel, month time.Month, hours float64) *Course {
	t.Helper()
	if err := m.Validate(); err != nil {
		t.Fatal(err)
	}
	c, err := m.Course(p, month, hours)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// reached returns the day on which the load first gets to a temperature, +Inf
// if never.
func (c *Course) reached(temperature float64) float64 {
	for _, s := range c.Samples {
		if s.Temperature >= temperature {
			return s.Hours / hoursPerDay
		}
	}
	return math.Inf(1)
}

func (c *Course) dryLoss() float64 { return 1 - c.Final().Parcel.Dry()/c.Initial.Dry() }

const residence = 18 * hoursPerDay

// TestStandardLoad shows that 20 short tons of 1 volume of cake with 2.5 of chips
// do what practice expects of them in an insulated vessel of some 31 m3 (common
// practice, no source, unless noted).
func TestStandardLoad(t *testing.T) {
	m, p := DefaultVesselModel(), standardLoad()
	perTonne := 1000 / p.Dry()
	for _, row := range []struct {
		month             time.Month
		vector            bool
		moistest, dryness float64
	}{
		{time.April, true, 0.57, 0.45},
		{time.July, true, 0.57, 0.45},
		{time.October, true, 0.57, 0.45},
		{time.January, false, 0.60, 0.45},
	} {
		c := course(t, m, p, row.month, residence)
		f := c.Final()
		pathogen, vector := c.Met[0], c.Met[1]
		t.Logf("%s: 55 °C on day %.1f, pathogens %.1f d, vectors %.1f d (%v), dry loss %.1f %%, moisture %.1f %%, air %.0f mean %.0f peak m3/h per dry t, %.0f kWh",
			row.month, c.reached(55), pathogen.Hours/24, vector.Hours/24, vector.OK, 100*c.dryLoss(), 100*f.Parcel.Moisture(),
			c.MeanFlow()*perTonne, c.PeakFlow()*perTonne, f.Blower)
		checks := []struct {
			name           string
			got, low, high float64
		}{
			{"day of 55 °C", c.reached(55), 2, 5.1},
			{"pathogen reduction, d", pathogen.Hours / 24, 5, 8.1},
			{"dry loss", c.dryLoss(), 0.10, 0.20},
			{"final moisture", f.Parcel.Moisture(), row.dryness, row.moistest},
			{"mean air, m3/h per dry t", c.MeanFlow() * perTonne, 10, 25},
			{"peak air, m3/h per dry t", c.PeakFlow() * perTonne, 100, 200},
		}
		for _, check := range checks {
			if !(check.got >= check.low && check.got <= check.high) {
				t.Errorf("%s: %s %.3g, want %g to %g", row.month, check.name, check.got, check.low, check.high)
			}
		}
		if !pathogen.OK {
			t.Errorf("%s: no pathogen reduction", row.month)
		}
		if row.vector && !(vector.OK && vector.Hours <= residence) {
			t.Errorf("%s: vector attraction %+v, want it within 18 days", row.month, vector)
		}
	}
}

// TestWinterCold shows that a load at −10 °C works, but more slowly, and leaves
// wetter than in summer.
func TestWinterCold(t *testing.T) {
	m, p := DefaultVesselModel(), standardLoad()
	summer := course(t, m, p, time.July, residence)
	m.Site.Temperature[0] = -10
	winter := course(t, m, p, time.January, residence)
	t.Logf("55 °C on day %.1f against %.1f, moisture %.3f against %.3f", winter.reached(55), summer.reached(55),
		winter.Final().Parcel.Moisture(), summer.Final().Parcel.Moisture())
	if !(winter.reached(55) < 9 && winter.reached(55) > summer.reached(55)+1) {
		t.Errorf("55 °C on day %.1f in winter, %.1f in summer", winter.reached(55), summer.reached(55))
	}
	if winter.Final().Parcel.Moisture() < summer.Final().Parcel.Moisture()+0.02 {
		t.Error("a winter load does not leave wetter")
	}
}

// TestCuring shows that a pile goes on with the same kinetics at its own
// conditions: it loses a few percent more and becomes more stable, on gentle air as
// well as passively and without a setpoint.
func TestCuring(t *testing.T) {
	vessel := course(t, DefaultVesselModel(), standardLoad(), time.July, residence)
	passive := DefaultCuringModel()
	passive.Blower = Blower{PerDry: 2, Efficiency: 1, LeastOxygen: 5}
	passive.Program = []Segment{{Name: "cure", Hours: 1, Setpoint: math.Inf(1), MinFlow: 1}}
	for _, m := range []*Model{DefaultCuringModel(), passive} {
		p := vessel.Final().Parcel
		c := course(t, m, p, time.August, 40*hoursPerDay)
		before := uptakeRate(m.Kinetics, p, m.Chemistry, 35)
		after := uptakeRate(m.Kinetics, c.Final().Parcel, m.Chemistry, 35)
		t.Logf("peak %.1f °C, dry loss %.1f %%, moisture %.3f to %.3f, uptake %.2f to %.2f mg/(g·h), %.0f kWh", c.PeakTemperature(), 100*c.dryLoss(),
			p.Moisture(), c.Final().Parcel.Moisture(), before, after, c.Final().Blower)
		if !(c.dryLoss() > 0.002 && c.dryLoss() < 0.08) {
			t.Errorf("dry loss in curing %.3f", c.dryLoss())
		}
		if !(after < 0.9*before) {
			t.Errorf("uptake falls from %.3f to %.3f only", before, after)
		}
	}
}

// TestWetMixFails shows that a mix with too little chips to keep its pores open
// stays cold, and that the diagnosis names the free air space.
func TestWetMixFails(t *testing.T) {
	m := DefaultVesselModel()
	p := mix(cakeSpec().WithMoisture(0.84), chipSpec(), 0.1, 18144)
	c := course(t, m, p, time.May, residence)
	if c.PeakTemperature() >= 40 || c.Met[0].OK {
		t.Errorf("peak %.1f °C, met %v: want it cold", c.PeakTemperature(), c.Met)
	}
	found, err := m.Diagnose(p, time.May, residence)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("peak %.1f °C, findings %+v", c.PeakTemperature(), found)
	if len(found) == 0 || found[0].Cause != AirSpaceBelowMinimum || found[0].Gain < 10 {
		t.Errorf("findings %+v, want free air space first, and worth 10 °C", found)
	}
}

// TestCourseOfNoTime shows that a stay of no time, as on the pad of a plant that
// does not cure, leaves a load as it came, on no air, and meets nothing.
func TestCourseOfNoTime(t *testing.T) {
	m := DefaultCuringModel()
	c, err := m.Course(standardLoad(), time.May, 0)
	if err != nil {
		t.Fatal(err)
	}
	if end := c.Final(); end.Hours != 0 || end.Parcel != standardLoad() || end.Temperature != c.Start || c.MeanFlow() != 0 {
		t.Errorf("it ends with %+v after a start at %g °C, on %g m3/h", end, c.Start, c.MeanFlow())
	}
	for i, met := range c.Met {
		if met.OK {
			t.Errorf("criterion %d is met", i)
		}
	}
}

// TestBadRequests shows that impossible loads and durations are refused.
func TestBadRequests(t *testing.T) {
	m, good := DefaultVesselModel(), standardLoad()
	negative, nothing, infinite := good, good, good
	negative.Fine.Slowly = -1
	nothing.Fine, nothing.Coarse = material.Solids{}, material.Solids{}
	infinite.Water = math.NaN()
	for _, row := range []struct {
		p     material.Parcel
		month time.Month
		hours float64
	}{
		{negative, time.May, 10}, {nothing, time.May, 10}, {infinite, time.May, 10},
		{good, 0, 10}, {good, 13, 10}, {good, time.May, -1}, {good, time.May, math.Inf(1)},
	} {
		if _, err := m.Course(row.p, row.month, row.hours); err == nil {
			t.Errorf("month %d, %g h, %+v: no error", row.month, row.hours, row.p)
		}
	}
	if _, err := NewResponses(m, 480).of(negative, time.May); err == nil {
		t.Error("the table takes a negative mass")
	}
}
