package cycleplan

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/process"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

func file(t testing.TB, name string) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Parse(name, examples.Data(name))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func follow1(t testing.TB, f *facilityfile.File, month time.Month, stay float64) (*Answer, *Load) {
	t.Helper()
	a, err := ask(t, f, Options{Months: []time.Month{month}, Stay: stay})
	if err != nil {
		t.Fatal(err)
	}
	return a, &a.Loads[0]
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// Shows for every example that the accounts of heat and mass close, that rows
// and totals agree, and that a load of good season behaves as practice has it: 55
// °C within about 2 to 5 days and pathogen reduction within about 5 to 8
// (checks, common practice, no source).
func TestCourseAddsUp(t *testing.T) {
	for _, name := range examples.Names() {
		f := file(t, name)
		a, l := follow1(t, f, time.May, 0)
		if a.Landmark != 55 {
			t.Errorf("%s: landmark %g °C", name, a.Landmark)
		}
		for _, s := range []Stage{l.Vessel, l.Curing} {
			if s.EnergyResidual > 1e-9 || s.MassResidual > 1e-9 {
				t.Errorf("%s: heat closes to %.2g, mass to %.2g (%s)", name, s.EnergyResidual, s.MassResidual, s.MassResidualIsWorst)
			}
		}
		for what, rows := range map[string][]Row{"days": l.Days, "samples": l.Samples} {
			end := rows[len(rows)-1]
			near(t, name+" "+what+": end, h", end.Hours, l.Stay+l.Cured, 1e-9)
			near(t, name+" "+what+": water, kg", end.Water, l.Vessel.Vapour+l.Vessel.Leachate+l.Curing.Vapour+l.Curing.Leachate, 1e-6)
			near(t, name+" "+what+": dry left", end.DryLeft, 1-(l.Vessel.DryLoss+l.Curing.DryLoss)/l.Dry, 1e-12)
			near(t, name+" "+what+": blower, kWh", end.Blower, l.Vessel.Blower+l.Curing.Blower, 1e-9)
			air, before := 0.0, 0.0
			for _, r := range rows {
				air += r.Flow * (r.Hours - before)
				before = r.Hours
			}
			near(t, name+" "+what+": air, m3", air, l.Vessel.Air+l.Curing.Air, 1e-6*air)
		}
		if d := l.Passes.Hours / 24; !l.Passes.OK || d < 1 || d > 5 {
			t.Errorf("%s: passes 55 °C after %.2f days", name, d)
		}
		if d := l.Criteria[0].Met.Hours / 24; !l.Criteria[0].Met.OK || d < 4 || d > 8 {
			t.Errorf("%s: %s after %.2f days", name, l.Criteria[0].Name, d)
		}
		near(t, name+": 72 h after passing 55 °C, h", l.Criteria[0].Met.Hours, l.Passes.Hours+72, 1)
	}
}

// Shows that the course of a plant that does not cure ends in the vessel: what it
// says of the pad is that nothing happens there, in numbers.
func TestCourseThatDoesNotCure(t *testing.T) {
	f := file(t, "dunmarrow")
	f.Model.Curing.Time, f.Model.Curing.Longest = 0, 0
	_, l := follow1(t, f, time.May, 0)
	near(t, "cured, h", l.Cured, 0, 0)
	for what, rows := range map[string][]Row{"days": l.Days, "samples": l.Samples} {
		end := rows[len(rows)-1]
		near(t, what+": end, h", end.Hours, l.Stay, 1e-9)
		if end.OnPad {
			t.Errorf("%s: the last is on the pad", what)
		}
	}
	if c := l.Curing; c.DryLoss != 0 || c.Air != 0 || c.Vapour != 0 || c.MassResidual != 0 || c.EnergyResidual != 0 || c.AirMean != 0 {
		t.Errorf("on the pad: %+v", c)
	}
}

// Shows that the staggered peak lies between the mean of all vessels and all at
// once, and that the bed holds the air for depth over loading: 1.2 m at 75
// m3/m2·h is 57.6 s (the identity of checks, exact).
func TestBiofilter(t *testing.T) {
	f := file(t, examples.Demo)
	_, l := follow1(t, f, time.July, 0)
	b := l.Biofilter
	if !(b.Mean < b.Staggered && b.Staggered <= b.AtOnce) {
		t.Errorf("mean %.0f, staggered %.0f, at once %.0f m3/h", b.Mean, b.Staggered, b.AtOnce)
	}
	near(t, "residence, s", b.Residence, 57.6, 1e-9)
	near(t, "area, m2", b.Area, b.Staggered/75, 1e-9)

	f.Model.Vessels.Installed = 1
	_, l = follow1(t, f, time.July, 0)
	near(t, "staggered peak of one vessel, m3/h", l.Biofilter.Staggered, l.Vessel.AirPeak, 1e-9)
}

// Shows that a load that cannot comply is told so, with the reason of process's
// diagnosis and with how long it did hold, and that one that does has no
// findings.
func TestLoadThatDoesNotComply(t *testing.T) {
	f := file(t, examples.Demo)
	f.Model.Active.Enclosure.Conductance *= 20 // bare walls
	_, l := follow1(t, f, time.January, 0)
	if l.Complies || l.Criteria[0].Met.OK || len(l.Findings) == 0 {
		t.Fatalf("complies %v, %+v, findings %+v", l.Complies, l.Criteria[0], l.Findings)
	}
	if l.Criteria[0].Longest >= 72 {
		t.Errorf("not met, though %.1f h in a row", l.Criteria[0].Longest)
	}
	if l.Findings[0].Cause != process.HeatLost || l.Findings[0].Gain <= 0 {
		t.Errorf("a load behind bare walls: %+v", l.Findings)
	}
	if _, good := follow1(t, file(t, examples.Demo), time.July, 0); !good.Complies || good.Findings != nil {
		t.Errorf("a July load: complies %v, findings %+v", good.Complies, good.Findings)
	}
}

// Shows that the stay asked for is the stay when the criteria allow it, and that
// segments tile the time.
func TestStayAskedFor(t *testing.T) {
	_, l := follow1(t, file(t, examples.Demo), time.July, 21*24)
	near(t, "stay, h", l.Stay, 21*24, 1e-9)
	end := 0.0
	for _, s := range l.Segments {
		near(t, "start of "+s.Name+", h", s.From, end, 1e-9)
		end = s.To
	}
	near(t, "end of the segments, h", end, l.Stay+l.Cured, 1e-9)
}

// Shows that months come in the order asked for and each is what it is alone,
// and that cold months are slower.
func TestMonths(t *testing.T) {
	f := file(t, examples.Demo)
	a, err := ask(t, f, Options{Months: []time.Month{time.January, time.July}})
	if err != nil {
		t.Fatal(err)
	}
	_, july := follow1(t, f, time.July, 0)
	if a.Loads[1].Passes != july.Passes || a.Loads[1].MoistureOut != july.MoistureOut {
		t.Errorf("July among others: %+v, alone %+v", a.Loads[1].Passes, july.Passes)
	}
	if a.Loads[0].Passes.Hours <= july.Passes.Hours || a.Loads[0].MoistureOut <= july.MoistureOut {
		t.Errorf("January passes 55 °C after %.1f h and leaves at %.3f moisture, July %.1f h and %.3f",
			a.Loads[0].Passes.Hours, a.Loads[0].MoistureOut, july.Passes.Hours, july.MoistureOut)
	}
}
