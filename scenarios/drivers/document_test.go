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
		a.Kept, a.Begun, a.Unpriced = 0.04, 0.01, true
		a.Median, a.Main, a.Simulated = 10.3*scale, "as expected", 1630
	}
	return a
}

// byRuns is the same for a plant whose years do not stand each for itself.
func byRuns(a *drivers.Answer) *drivers.Answer {
	a.ByRuns, a.Median, a.Main, a.Simulated, a.Begun = "production has pulses on dates", 0, "", 0, 0
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
		{"vessels_by_runs", byRuns(sampleDrivers(drivers.VesselYear, 1))},
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
// order, and the same of them above chance.
func TestRenderingsAgree(t *testing.T) {
	a := sampleDrivers(drivers.VesselYear, 1)
	d := a.Document()
	var order []string
	for _, x := range a.InOrder() {
		order = append(order, x.Title())
	}
	if want := []string{"growth scenario", "cake solids", "chance alone", "chips recovered", "vessel turnaround"}; len(order) != len(want) {
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
			Above bool `json:"above_chance"`
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
			t.Errorf("%s, above chance %v: JSON %+v, table %q, picture %q with blue %v", x.Key, above, whole.Inputs[i], rows[i], bars[i].Name, blue)
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
			"What moves the year from which more than 5 % of the years miss the service target with the 8 vessels most is the growth scenario: over its range it moves it by 11 years."},
		{"two, near to each other", base(func(a *drivers.Answer) {
			a.Drivers = []drivers.Driver{driver("solids.growth", 5, 1, 0), driver(drivers.GrowthKey, 4.9, 1, 0)}
		}), "the growth of solids: over its range it moves it by 5 years; next the growth scenario, 4.9 years. The first two are too near"},
		{"the rest is noise", base(func(*drivers.Answer) {}),
			"; next the solids content of cake, 4.2 years; the rest no more than chance alone, 1.1 years."},
		{"the rest is nothing", base(func(a *drivers.Answer) { a.Drivers = append(a.Drivers[:2], a.Drivers[3]) }),
			"; next the solids content of cake, 4.2 years; the turnaround of a vessel not at all."},
		{"many", base(func(a *drivers.Answer) {
			a.Drivers = []drivers.Driver{driver("chips.moisture", 9, 1, 0), driver("cake.nitrogen", 7, 1, 0), driver("screen.attrition", 5, 1, 0), driver("screen.recovery", 3.14, 1, 0), driver("x.y", 0, 0, 0)}
		}), "9 years; next the nitrogen of the cake, 7 years; the breaking of chips into fines, 5 years; the rest by 3.1 years or less."},
		{"all is noise", base(func(a *drivers.Answer) { a.Drivers = a.Drivers[2:] }),
			"Nothing that is uncertain moves the year from which more than 5 % of the years miss the service target with the 8 vessels more than chance alone does (1.1 years): the most is the recovery of chips by the screen, 0.7 years."},
		{"nothing moves it", base(func(a *drivers.Answer) { a.Drivers = a.Drivers[3:] }),
			"Nothing that is uncertain moves the year from which more than 5 % of the years miss the service target with the 8 vessels."},
		{"never missed", base(func(a *drivers.Answer) { a.Kept, a.Installed, a.Committed = 1, 1, true }),
			"Nothing that is uncertain makes more than 5 % of the years miss the service target with the one vessel and those that the file adds: it is kept through 2046/47 at every set of inputs tried."},
		{"one vessel", base(func(a *drivers.Answer) { a.Installed = 1 }), "miss the service target with the one vessel most"},
		{"by runs", byRuns(base(func(*drivers.Answer) {})), "What moves the mean year in which the 8 vessels first miss the service target most is the growth scenario"},
		{"by runs, one vessel", byRuns(base(func(a *drivers.Answer) { a.Installed = 1 })), "the mean year in which the one vessel first misses the service target"},
		{"by runs, never missed", byRuns(base(func(a *drivers.Answer) { a.Kept, a.Installed, a.Committed = 1, 1, true })),
			"Nothing that is uncertain makes the one vessel and those that the file adds miss the service target: it is kept through 2046/47 in every run."},
		{"money", sampleDrivers(drivers.PresentWorth, 23456), "What moves the present worth of the costs (money of 2027) most is the growth scenario: over its range it moves it by 260,000 USD; next"},
	} {
		if got := c.a.Document().Headline.Plain(units.SI); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s\nhas no %q", c.name, got, c.want)
		}
	}
}

// The screen is never wider or longer than 100 by 40, whatever the names and
// however many the inputs; what is left out is counted.
func TestDriversFitTheScreen(t *testing.T) {
	for _, c := range []struct {
		output drivers.Output
		scale  float64
		rows   int
	}{{drivers.PresentWorth, 1e8, 0}, {drivers.PresentWorth, 1e8, 100}, {drivers.VesselYear, 1, 0}, {drivers.VesselYear, 1, 100}} {
		a := sampleDrivers(c.output, c.scale)
		a.Rows, a.Committed = c.rows, true
		a.Facility, a.Main = strings.Repeat("Plant ", 30), strings.Repeat("slow ", 20)
		a.Drivers[0].LowName, a.Drivers[0].HighName = strings.Repeat("slow ", 20), "fast\x1b[31m"
		for i := range 22 {
			a.Drivers = append(a.Drivers, driver(fmt.Sprintf("group.a_key_that_is_very_long_%d", i), c.scale/300, 1, 0.01))
		}
		text := rendertest.Text(t, a.Document(), units.US)
		rendertest.Fits(t, "many inputs", text)
		if !strings.Contains(text, " more in the tables, ") || strings.Contains(text, "\x1b") {
			t.Errorf("what is left out is not counted, or a name moves the cursor:\n%s", text)
		}
	}
}

// The text says where the year lies with every input at its median, and what bounds it;
// no mean of first misses is told where the plant's years stand each for itself.
func TestDriversContext(t *testing.T) {
	text := func(change func(a *drivers.Answer)) string {
		a := sampleDrivers(drivers.VesselYear, 1)
		change(a)
		return strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.US)), " ")
	}
	for _, c := range []struct {
		name      string
		change    func(a *drivers.Answer)
		want, not string
	}{
		{"as it is", func(*drivers.Answer) {}, "With every uncertain input at its median and growth “as expected”, that is 10.3 years after the start (in 2037/38).", "first miss"},
		{"to the end", func(*drivers.Answer) {}, "In 4 % of them the target is kept to the end", "in use"},
		{"from the start", func(*drivers.Answer) {}, "In 1 % of them it is missed from the first year on", "runs over the horizon"},
		{"one growth", func(a *drivers.Answer) { a.Main, a.Begun = "", 0 }, "at its median, that is 10.3", "missed from the first year on"},
		{"kept at the median", func(a *drivers.Answer) { a.Median = 20 }, "the target is kept to the end of the 20 years. Over", "that is 20"},
		{"changes", func(a *drivers.Answer) { a.Committed = true }, "deliveries, with all that the file adds in use.", "first miss"},
		{"shares", func(a *drivers.Answer) { a.Rows = 100 }, "of that of the year, whose", "one run's"},
		{"by runs", func(a *drivers.Answer) { byRuns(a) }, "not the year of loamcast when, because production has pulses on dates;", "at its median"},
	} {
		got := strings.ReplaceAll(text(c.change), "\u00a0", " ")
		if !strings.Contains(got, c.want) || strings.Contains(got, c.not) {
			t.Errorf("%s: has no %q, or %q:\n%s", c.name, c.want, c.not, got)
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
