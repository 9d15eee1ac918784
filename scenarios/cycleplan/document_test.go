package cycleplan_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/facility/process"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

// sampleLoad is a course with invented figures.
func sampleLoad(month time.Month) cycleplan.Load {
	row := func(hours, temperature, moisture, left, flow, oxygen float64, pad bool) cycleplan.Row {
		return cycleplan.Row{Hours: hours, OnPad: pad, Segment: "hold", Temperature: temperature, Moisture: moisture,
			DryLeft: left, Flow: flow, Oxygen: oxygen, Uptake: 1.2, Water: 20 * hours, Ammonia: hours / 10, Blower: hours / 8}
	}
	stage := cycleplan.Stage{
		DryIn: 6700, DryLoss: 820, Volatile: cycleplan.Destruction{In: 5800, Lost: 820}, Cake: cycleplan.Destruction{In: 1540, Lost: 690},
		Vapour: 7180, Condensate: 378, Leachate: 12, Ammonia: 34,
		Air: 46400, AirMean: 107, AirPeak: 1104, MeanPerDry: 16, PeakPerDry: 165, Blower: 64.5, PeakTemperature: 62, LeastOxygen: 10,
		Energy:         process.Energy{Generated: 23.3e6, Stored: 1.2e6, Wall: 1.9e6, AirDry: 1.8e6, AirLatent: 17.9e6, Carried: 0.5e6},
		EnergyResidual: 5e-16, MassResidual: 1.2e-15, MassResidualIsWorst: "water",
	}
	pad := stage
	pad.DryLoss, pad.Vapour, pad.Condensate, pad.Leachate, pad.Energy = 100, 370, 0, 0, process.Energy{}
	return cycleplan.Load{
		Month: month, CuringMonth: month%12 + 1,
		Wet: 18140, Dry: 6700, Volume: 26.7, CakeDry: 2022, ChipsToCake: 2.5, RecoveredShare: 0.76,
		Moisture: 0.63, FreeAirSpace: 0.42, CarbonToNitrogen: 21.7,
		Passes: cycleplan.Moment{OK: true, Hours: 46},
		Criteria: []cycleplan.Criterion{
			{Criterion: process.PathogenReduction(), Met: cycleplan.Moment{OK: true, Hours: 118}, Longest: 150},
			{Criterion: process.VectorAttractionReduction(), Met: cycleplan.Moment{OK: true, Hours: 371}, Longest: 390},
		},
		Complies: true, Aimed: 432, Stay: 432, Cured: 1080, ReadilyLeft: 0.015, ReadilyAsked: 1, Stable: true,
		MoistureOut: 0.449, MoistureScreened: 0.438, Vessel: stage, Curing: pad,
		Biofilter: cycleplan.Biofilter{Vessels: 8, Mean: 860, Staggered: 1796, AtOnce: 8835, Loading: 75, Depth: 1.2, Area: 23.9, Residence: 57.6},
		Ammonia:   cycleplan.Ammonia{Lost: 0.21, ToBiofilter: 13, Bed: 23.9},
		Segments:  []cycleplan.Segment{{Name: "hold", To: 432, Setpoint: 62}, {Name: "cure", From: 432, To: 1512, Setpoint: math.Inf(1)}},
		Days:      []cycleplan.Row{row(24, 32, 0.63, 0.997, 15, 10, false), row(432, 50, 0.449, 0.878, 25, 18.6, false), row(1512, -0.2, 0.438, 0.862, 5, 20.4, true)},
		Samples:   []cycleplan.Row{row(0.5, 20, 0.63, 1, 15, 12, false), row(1512, -0.2, 0.438, 0.862, 5, 20.4, true)},
	}
}

func sampleCycle(loads ...cycleplan.Load) *cycleplan.Answer {
	a := &cycleplan.Answer{Basis: rendertest.Basis(), Landmark: 55, Loads: loads}
	a.Replications = 0
	return a
}

// failedLoad meets one criterion late, on the pad, and the other not at all, for
// every reason that there is.
func failedLoad() cycleplan.Load {
	l := sampleLoad(time.January)
	l.Complies, l.Stable, l.ReadilyAsked = false, false, 0.01
	l.Passes = cycleplan.Moment{}
	l.Vessel.PeakTemperature = 51
	l.Criteria[0].Met, l.Criteria[0].Longest = cycleplan.Moment{}, 30
	l.Criteria[1].Met, l.Criteria[1].OnPad = cycleplan.Moment{OK: true, Hours: 500}, true
	l.Findings = []process.Finding{
		{Cause: process.HeatLost, Value: 0.62, Limit: 0.5, Gain: 9},
		{Cause: process.AirSpaceBelowMinimum, Value: 0.15, Limit: 0.2, Gain: 4},
		{Cause: process.OxygenLimited, Value: 3, Limit: 5, Gain: 3},
		{Cause: process.TooWet, Value: 0.7, Limit: 0.65, Gain: 2},
		{Cause: process.TooDry, Value: 0.3, Limit: 0.4, Gain: 1},
		{Cause: process.TooLittleDegradable, Value: 400, Limit: 600, Gain: -0.5},
	}
	return l
}

// heldLoad stays longer than aimed at.
func heldLoad() cycleplan.Load {
	l := sampleLoad(time.March)
	l.Aimed, l.HeldFor, l.ReadilyAsked = 240, "vector attraction reduction", 0.02
	return l
}

// The course reads as reviewed in both systems of units: one that complies, one
// that fails, one that is held, and the comparison of months.
func TestReads(t *testing.T) {
	rendertest.Reads(t, "cycle", sampleCycle(sampleLoad(time.July)).Document())
	rendertest.Reads(t, "cycle_failed", sampleCycle(failedLoad()).Document())
	rendertest.Reads(t, "cycle_held", sampleCycle(heldLoad()).Document())
	rendertest.Reads(t, "cycle_months", sampleCycle(failedLoad(), heldLoad(), sampleLoad(time.July)).Document())
}

// The sentence on a load and the titles of its pictures have the article that its
// month asks for: of twelve names three begin with a vowel.
func TestArticleOfMonth(t *testing.T) {
	an := 0
	for month := time.January; month <= time.December; month++ {
		article := "a "
		if strings.ContainsRune("AEIOU", rune(month.String()[0])) {
			article = "an "
			an++
		}
		d := sampleCycle(sampleLoad(month)).Document()
		load := article + month.String() + " load"
		if screen := rendertest.Text(t, d, units.SI); !strings.HasPrefix(screen, "A"+load[1:]+" passes") {
			t.Errorf("the screen begins with %.30q, not with %s", screen, load)
		}
		for _, f := range d.Figures {
			if title := f.Title.In(units.SI); !strings.Contains(title, " "+load) {
				t.Errorf("title %q, want %s", title, load)
			}
		}
	}
	if an != 3 {
		t.Errorf("%d months with an, want 3", an)
	}
}

// The files, the columns of tables and the fields of JSON are part of the output
// format.
func TestLeaves(t *testing.T) {
	rendertest.Leaves(t, "cycle", sampleCycle(failedLoad()).Document())
	rendertest.Leaves(t, "cycle_months", sampleCycle(failedLoad(), heldLoad()).Document())
}

// Screen, JSON, table and picture of one answer say the same of each month: whether
// it complies, and when it meets what.
func TestRenderingsAgree(t *testing.T) {
	a := sampleCycle(failedLoad(), heldLoad())
	d := a.Document()
	if screen := rendertest.Text(t, d, units.SI); !strings.HasPrefix(screen, "Loads of January do not meet every criterion.") {
		t.Errorf("it begins with %.80q", screen)
	}
	var whole struct {
		Headline string
		Loads    []struct {
			Complies bool
			Criteria []struct {
				Met  bool
				Hour *float64
			}
		}
	}
	if err := json.Unmarshal(rendertest.JSON(t, d, units.SI), &whole); err != nil {
		t.Fatal(err)
	}
	if whole.Headline != "Loads of January do not meet every criterion." {
		t.Errorf("JSON says %q", whole.Headline)
	}
	series := d.Figures[0].Panels[0].Series
	for i, l := range a.Loads {
		if whole.Loads[i].Complies != l.Complies || math.IsNaN(series[1].Values[i]) == l.Complies {
			t.Errorf("%s complies: %v; JSON %v, picture %v", l.Month, l.Complies, whole.Loads[i].Complies, series[1].Values[i])
		}
		for k, x := range l.Criteria {
			c, drawn := whole.Loads[i].Criteria[k], series[2+k].Values[i]
			if c.Met != x.Met.OK || x.Met.OK && (*c.Hour != x.Met.Hours || drawn != x.Met.Hours/24) || !x.Met.OK && (c.Hour != nil || !math.IsNaN(drawn)) {
				t.Errorf("%s, %s: %+v; JSON %+v, picture %v", l.Month, x.Name, x.Met, c, drawn)
			}
		}
	}
}

// The pictures say in words what they show, in the units asked for.
func TestDraws(t *testing.T) {
	one, several := sampleCycle(sampleLoad(time.July)).Document(), sampleCycle(sampleLoad(time.July), heldLoad()).Document()
	rendertest.Draws(t, one, units.US, []string{"131 °F, pathogen", "setpoint", "to the pad", "113 °F, mean", "invented data", "dry solids left", "air flow, cfm", "oxygen, % by volume"}, nil)
	rendertest.Draws(t, one, units.SI, []string{"55 °C, pathogen", "45 °C, mean", "air flow, m3/h"}, []string{"°F"})
	rendertest.Draws(t, several, units.US, []string{"first 131 °F", "leaves the vessel"}, nil)
}

// A criterion that is not met is an empty cell in the table of months, and not
// hour 0.
func TestCycleMonthsCSV(t *testing.T) {
	files, err := render.CSV(sampleCycle(failedLoad(), heldLoad()).Document(), units.SI)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Name != "cycle-months.csv" {
			continue
		}
		var met []string
		for line := range strings.Lines(string(f.Data)) {
			if _, of, found := strings.Cut(line, ",criterion_1_met,day,"); found {
				met = append(met, strings.TrimSpace(of))
			}
		}
		if len(met) < 2 || met[0] != "" || met[1] != "4.91667" {
			t.Errorf("the first criterion is met on %q", met)
		}
		return
	}
	t.Error("no table of months")
}
