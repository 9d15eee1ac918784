package cycleplan

import (
	"strings"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

// Ammonia is told where nitrogen counts and water where the file asks for it, and they
// agree with the totals of the load: the share of nitrogen with the ammonia of vessel and
// pad, the biofilter's with the vessel's, and the lot is brought to the moisture asked for.
func TestAmmoniaAndWaterAreTold(t *testing.T) {
	f := file(t, examples.Demo)
	for _, c := range []*material.Chemistry{&f.Model.Chemistry, &f.Model.Active.Chemistry, &f.Model.Pile.Chemistry} {
		c.Microbes = material.Microbes{}
	}
	a, plain := follow1(t, f, time.July, 0)
	if text := rendertest.Text(t, a.Document(), units.SI); strings.Contains(text, "\nAmmonia") || strings.Contains(text, "\nWater") {
		t.Errorf("told without being asked:\n%s", text)
	}
	m := &f.Model
	m.Chemistry.Microbes = material.DefaultMicrobes()
	m.Active.Chemistry, m.Pile.Chemistry = m.Chemistry, m.Chemistry
	m.Curing.Rewet = plant.Rewet{Below: plain.MoistureOut + 0.02, UpTo: plain.MoistureOut + 0.06}
	a, l := follow1(t, f, time.July, 0)
	text := rendertest.Text(t, a.Document(), units.SI)
	if !strings.Contains(text, "\nAmmonia") || !strings.Contains(text, "\nWater") {
		t.Errorf("not told:\n%s", text)
	}
	near(t, "to the biofilter, kg a day", l.Ammonia.ToBiofilter, float64(l.Biofilter.Vessels)*l.Vessel.Ammonia/((l.Stay+m.Vessels.Turnaround.Hours())/24), 1e-9)
	nitrogen := l.Dry * 0.025
	if share := (l.Vessel.Ammonia + l.Curing.Ammonia) * material.NitrogenPerNH3 / nitrogen; !(l.Ammonia.Lost > share/2 && l.Ammonia.Lost < 2*share) {
		t.Errorf("%.3f of the nitrogen is lost, and about %.3f by hand", l.Ammonia.Lost, share)
	}
	if l.Vessel.Ammonia <= plain.Vessel.Ammonia {
		t.Errorf("%.1f kg of ammonia, %.1f by the formulas", l.Vessel.Ammonia, plain.Vessel.Ammonia)
	}
	near(t, "moisture put up to cure", l.MoistureCured, m.Curing.Rewet.UpTo, 1e-9)
	if !(l.WaterAdded > 0 && l.MoistureScreened > plain.MoistureScreened) {
		t.Errorf("%.0f kg of water, screened at %.3f instead of %.3f", l.WaterAdded, l.MoistureScreened, plain.MoistureScreened)
	}
	if l.Curing.MassResidual > 1e-9 || l.Curing.EnergyResidual > 1e-9 {
		t.Errorf("accounts do not close: %g and %g", l.Curing.MassResidual, l.Curing.EnergyResidual)
	}
}
