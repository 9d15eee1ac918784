package drivers_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"loamcast/scenarios/document"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/sensitivity"
	"loamcast/sim/stats"
)

// driver is an input with invented effects and shares in the proportions 4 : 5 : 6
// of low end, estimate and high end.
func driver(key string, effect, sign, share float64) drivers.Driver {
	interval := func(v float64) stats.Interval {
		return stats.Interval{Low: 0.8 * v, Estimate: v, High: 1.2 * v, Level: 0.95}
	}
	return drivers.Driver{
		Key: key, Dimension: units.Fraction, Low: -0.01, High: 0.012,
		Effect: sensitivity.Effect{MuStar: interval(effect), Mu: sign * effect, Sigma: effect / 3},
		Share:  sensitivity.Share{First: interval(0.8 * share), Total: interval(share)},
	}
}

// sampleDrivers is an answer with invented figures, in years times scale.
func sampleDrivers(o drivers.Output, scale float64) *drivers.Answer {
	sign := 1.0
	if o == drivers.VesselYear {
		sign = -1
	}
	a := &drivers.Answer{
		Basis: rendertest.Basis(), Installed: 8, Output: o,
		Drivers: []drivers.Driver{
			driver(drivers.GrowthKey, 11*scale, sign, 0.8), driver("solids.cake_solids", 4.2*scale, -0.95*sign, 0.15),
			driver("screen.recovery", 0.7*scale, 0.1, 0.01), driver("vessels.turnaround", 0, 0, 0),
		},
		Noise: driver(drivers.NoiseKey, 1.1*scale, 0.2, 0.02), Least: 3.4 * scale, Mean: 11.2 * scale, Most: 20 * scale,
		Correlated: true, Trajectories: 10, Points: 6, RunsAPoint: 2, Runs: 120,
	}
	a.Start, a.Horizon, a.Replications = calendar.Date{Year: 2027, Month: 7, Day: 1}, 20, 0
	a.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	a.Drivers[0].Dimension, a.Drivers[0].LowName, a.Drivers[0].HighName = units.Dimensionless, "slow", "fast"
	a.Drivers[3].Dimension, a.Drivers[3].Low, a.Drivers[3].High = units.Duration, 30*3600, 48*3600
	if o == drivers.VesselYear {
		a.Kept, a.Unpriced = 0.04, true
	}
	return a
}

// The text reads as reviewed for every answer, with and without shares of the
// variance.
func TestDriversGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		a    *drivers.Answer
	}{
		{"vessels", sampleDrivers(drivers.VesselYear, 1)},
		{"chips", sampleDrivers(drivers.ChipsBought, 31)},
		{"cost", sampleDrivers(drivers.PresentWorth, 23456)},
	} {
		if c.name == "cost" {
			c.a.Rows, c.a.SD, c.a.Runs = 100, 61234, 720
		}
		rendertest.Reads(t, "drivers_"+c.name, c.a.Document())
	}
}

// JSON and tables, with the units of their fields.
func TestDriversLeave(t *testing.T) {
	a := sampleDrivers(drivers.ChipsBought, 31)
	a.Rows, a.SD = 100, 77
	rendertest.Leaves(t, "drivers", a.Document())
}

// Screen, JSON, table and picture of one answer name the same inputs in the same
// order, and the same of them above luck.
func TestRenderingsAgree(t *testing.T) {
	a := sampleDrivers(drivers.VesselYear, 1)
	d := a.Document()
	var order []string
	for _, x := range a.InOrder() {
		order = append(order, x.Title())
	}
	if want := []string{"growth scenario", "cake solids", "luck alone", "chips recovered", "vessel turnaround"}; len(order) != len(want) {
		t.Fatalf("%q", order)
	}
	screen, at := rendertest.Text(t, d, units.US), 0
	for _, name := range order {
		next := strings.Index(screen[at:], "\n"+name)
		if next < 0 {
			t.Fatalf("%q is not in its place on the screen:\n%s", name, screen)
		}
		at += next + 1
	}
	var whole struct {
		Inputs []struct {
			Input string
			Above bool `json:"above_luck"`
		}
	}
	if err := json.Unmarshal(rendertest.JSON(t, d, units.US), &whole); err != nil {
		t.Fatal(err)
	}
	files, err := render.CSV(d, units.US)
	if err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(strings.TrimSpace(string(files[0].Data)), "\n")[1:]
	bars := d.Figures[0].Ladder.Rows
	for i, x := range a.InOrder() {
		above := a.Above(&x)
		blue := bars[i].Bars[0].Ink == document.Blue
		if whole.Inputs[i].Input != x.Key || whole.Inputs[i].Above != above || !strings.HasPrefix(rows[i], fmt.Sprintf("%s,%v,", x.Key, above)) ||
			bars[i].Name != x.Title() || blue != above {
			t.Errorf("%s, above luck %v: JSON %+v, table %q, picture %q with blue %v", x.Key, above, whole.Inputs[i], rows[i], bars[i].Name, blue)
		}
	}
}

// The first sentence says what there is to say, whatever was found.
func TestDriversHeadline(t *testing.T) {
	base := func(change func(a *drivers.Answer)) *drivers.Answer {
		a := sampleDrivers(drivers.VesselYear, 1)
		change(a)
		return a
	}
	for _, c := range []struct {
		name string
		a    *drivers.Answer
		want string
	}{
		{"one input", base(func(a *drivers.Answer) { a.Drivers = a.Drivers[:1] }),
			"What moves the mean year in which the 8 vessels first miss the service target most is the growth scenario: over its range it moves it by 11 years."},
		{"two, near to each other", base(func(a *drivers.Answer) {
			a.Drivers = []drivers.Driver{driver("solids.growth", 5, 1, 0), driver(drivers.GrowthKey, 4.9, 1, 0)}
		}), "the growth of solids: over its range it moves it by 5 years; next the growth scenario, 4.9 years. The first two are too near"},
		{"the rest is noise", base(func(*drivers.Answer) {}),
			"; next the solids content of cake, 4.2 years; the rest no more than luck alone, 1.1 years."},
		{"the rest is nothing", base(func(a *drivers.Answer) { a.Drivers = append(a.Drivers[:2], a.Drivers[3]) }),
			"; next the solids content of cake, 4.2 years; the turnaround of a vessel not at all."},
		{"many", base(func(a *drivers.Answer) {
			a.Drivers = []drivers.Driver{driver("chips.moisture", 9, 1, 0), driver("cake.nitrogen", 7, 1, 0), driver("screen.attrition", 5, 1, 0), driver("screen.recovery", 3.14, 1, 0), driver("x.y", 0, 0, 0)}
		}), "9 years; next the nitrogen of the cake, 7 years; the breaking of chips into fines, 5 years; the rest by 3.1 years or less."},
		{"all is noise", base(func(a *drivers.Answer) { a.Drivers = a.Drivers[2:] }),
			"Nothing that is uncertain moves the mean year in which the 8 vessels first miss the service target more than luck alone does (1.1 years): the most is the recovery of chips by the screen, 0.7 years."},
		{"nothing moves it", base(func(a *drivers.Answer) { a.Drivers = a.Drivers[3:] }),
			"Nothing that is uncertain moves the mean year in which the 8 vessels first miss the service target."},
		{"never missed", base(func(a *drivers.Answer) { a.Kept, a.Installed, a.Committed = 1, 1, true }),
			"Nothing that is uncertain makes the one vessel and those that the file adds miss the service target: it is kept through 2046/47 in every run."},
		{"one vessel", base(func(a *drivers.Answer) { a.Installed = 1 }), "the mean year in which the one vessel first misses the service target"},
		{"money", sampleDrivers(drivers.PresentWorth, 23456), "What moves the present worth of the costs most is the growth scenario: over its range it moves it by 260,000 USD; next"},
	} {
		if got := c.a.Document().Headline.Plain(units.SI); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s\nhas no %q", c.name, got, c.want)
		}
	}
}

// The screen is never wider or longer than 100 by 40, whatever the names and
// however many the inputs; what is left out is counted.
func TestDriversFitTheScreen(t *testing.T) {
	a := sampleDrivers(drivers.PresentWorth, 1e8)
	a.Facility = strings.Repeat("Plant ", 30)
	a.Drivers[0].LowName, a.Drivers[0].HighName = strings.Repeat("slow ", 20), "fast\x1b[31m"
	for i := range 22 {
		a.Drivers = append(a.Drivers, driver(fmt.Sprintf("group.a_key_that_is_very_long_%d", i), 3e5, 1, 0.01))
	}
	for _, rows := range []int{0, 100} {
		a.Rows = rows
		text := rendertest.Text(t, a.Document(), units.US)
		rendertest.Fits(t, "many inputs", text)
		if !strings.Contains(text, "rows more, ") || strings.Contains(text, "\x1b") {
			t.Errorf("what is left out is not counted, or a name moves the cursor:\n%s", text)
		}
	}
}

// Only so many inputs are drawn as there is room for, and drawing survives effects
// of nothing.
func TestDriversDraw(t *testing.T) {
	a := sampleDrivers(drivers.VesselYear, 1)
	for range 13 {
		a.Drivers = append(a.Drivers, driver("chips.moisture", 0, 0, 0))
	}
	a.Rows = 10
	rendertest.Draws(t, a.Document(), units.US, []string{"growth scenario", "the first 14 of 18 inputs", "invented data", "years", "% of the variance"}, []string{"NaN"})
}
