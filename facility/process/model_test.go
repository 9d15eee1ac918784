package process

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
)

// TestDefaultsAreValid shows that the defaults pass their own checks.
func TestDefaultsAreValid(t *testing.T) {
	for _, m := range []*Model{DefaultVesselModel(), DefaultCuringModel()} {
		if err := m.Validate(); err != nil {
			t.Errorf("%s: %v", m.Enclosure.Name, err)
		}
	}
	for _, c := range []Criterion{PathogenReduction(), VectorAttractionReduction(), significantReduction(), TimeTemperature(), TimeTemperatureThin()} {
		if err := c.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// TestValidateRefuses shows that every impossible setting is refused, NaN among
// them.
func TestValidateRefuses(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*Model){
		"no program":            func(m *Model) { m.Program = nil },
		"step of zero":          func(m *Model) { m.Step = 0 },
		"step above an hour":    func(m *Model) { m.Step = 1.5 },
		"heat of oxygen":        func(m *Model) { m.HeatOfOxygen = nan },
		"rate":                  func(m *Model) { m.Kinetics.Readily = nan },
		"infinite rate":         func(m *Model) { m.Kinetics.Slowly = math.Inf(1) },
		"rate too fast to step": func(m *Model) { m.Kinetics.Readily = 3 },
		"coarse factor":         func(m *Model) { m.Kinetics.CoarseFactor = 1.1 },
		"curve":                 func(m *Model) { m.Kinetics.Curve.Fall = 1.01 },
		"moisture factor":       func(m *Model) { m.Kinetics.Dryness.Slope = 0 },
		"half oxygen":           func(m *Model) { m.Kinetics.HalfOxygen = 0 },
		"heat capacity":         func(m *Model) { m.Heat.Solids = nan },
		"area":                  func(m *Model) { m.Enclosure.Area = -1 },
		"exhaust":               func(m *Model) { m.Enclosure.Exhaust = 0 },
		"returned":              func(m *Model) { m.Enclosure.Returned = 1 },
		"holding":               func(m *Model) { m.Enclosure.Holding = 0 },
		"no blower":             func(m *Model) { m.Blower.Capacity, m.Blower.PerDry = 0, 0 },
		"efficiency":            func(m *Model) { m.Blower.Efficiency = 0 },
		"least oxygen":          func(m *Model) { m.Blower.LeastOxygen = 21 },
		"segment without time":  func(m *Model) { m.Program[1].Hours = 0 },
		"setpoint":              func(m *Model) { m.Program[0].Setpoint = nan },
		"least flow":            func(m *Model) { m.Program[0].MinFlow = -1 },
		"altitude":              func(m *Model) { m.Site.Altitude = 9000 },
		"site temperature":      func(m *Model) { m.Site.Temperature[3] = nan },
		"site humidity":         func(m *Model) { m.Site.Humidity[3] = 60 },
		"loading":               func(m *Model) { m.Loading.Fine = 95 },
		"limits":                func(m *Model) { m.Limits.Wet = 0.3 },
		"criterion name":        func(m *Model) { m.Criteria[0].Name = "" },
		"criterion kind":        func(m *Model) { m.Criteria[0].Kind = 9 },
		"criterion place":       func(m *Model) { m.Criteria[0].Where = 9 },
		"criterion hours":       func(m *Model) { m.Criteria[0].Hours = nan },
		"criterion mean":        func(m *Model) { m.Criteria[1].Mean = 30 },
	} {
		m := DefaultVesselModel()
		spoil(m)
		if m.Validate() == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}

// TestDiagnosis shows that the tool names the cause for which a load was spoilt,
// and that nothing is found wrong with the standard load in summer.
func TestDiagnosis(t *testing.T) {
	sound, err := DefaultVesselModel().Diagnose(standardLoad(), time.July, residence)
	if err != nil || len(sound) > 0 {
		t.Errorf("standard load: %+v, %v", sound, err)
	}
	spent := cakeSpec()
	spent.Readily, spent.Slowly = 0.05, 0.05
	dry := cakeSpec()
	dry.Moisture = 0.30
	bare := DefaultVesselModel()
	bare.Enclosure.Conductance, bare.Site.Temperature[0] = 6, -20
	starved := DefaultVesselModel()
	starved.Blower.Capacity = 0.5
	for _, row := range []struct {
		name  string
		m     *Model
		cake  material.Spec
		chips material.Spec
		ratio float64
		want  Cause
		month time.Month
	}{
		{"no chips", DefaultVesselModel(), cakeSpec(), chipSpec(), 0.1, AirSpaceBelowMinimum, time.May},
		{"spent cake", DefaultVesselModel(), spent, chipSpec(), 2.5, TooLittleDegradable, time.May},
		{"dry", DefaultVesselModel(), dry, chipSpec().WithMoisture(0.1), 2.5, TooDry, time.May},
		{"bare vessel in frost", bare, cakeSpec(), chipSpec(), 2.5, HeatLost, time.January},
		{"hardly any air", starved, cakeSpec(), chipSpec(), 2.5, OxygenLimited, time.July},
	} {
		found, err := row.m.Diagnose(mix(row.cake, row.chips, row.ratio, 16000), row.month, residence)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %+v", row.name, found)
		if len(found) == 0 || found[0].Cause != row.want || found[0].Gain < 3 {
			t.Errorf("%s: %+v, want cause %d first", row.name, found, row.want)
		}
	}
}
