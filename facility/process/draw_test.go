package process

import (
	"fmt"
	"math"
	"time"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// drawing draws numbers and choices under their names.
type drawing struct{ t *rapid.T }

func (d drawing) between(name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.t, name)
}
func (d drawing) on(name string) bool { return rapid.Bool().Draw(d.t, name) }

// monthly draws one number that holds all year.
func (d drawing) monthly(name string, low, high float64) (all [12]float64) {
	v := d.between(name, low, high)
	for i := range all {
		all[i] = v
	}
	return all
}

// drawModel draws a model with settings well off the defaults, of a vessel or of a pile,
// in which each part of the physics that a file can switch on is on or off.
func drawModel(t *rapid.T) *Model {
	d := drawing{t}
	m := DefaultVesselModel()
	if d.on("pile") {
		m = DefaultCuringModel()
		m.Enclosure.AreaPerVolume = d.between("surface", 0.2, 3)
		m.Blower.PerDry = d.between("air", 3, 200)
		if d.on("draught") {
			m.Blower.PressureDrop = 0
		}
	} else {
		m.Blower.Capacity = d.between("capacity", 20, 3000)
		m.Program = DefaultVesselModel().Program
	}
	m.Enclosure.Conductance = d.between("conductance", 0, 5)
	m.Enclosure.Exhaust = d.between("exhaust", 0.6, 1)
	m.Enclosure.Returned = d.between("returned", 0, 0.5)
	m.Enclosure.Holding = d.between("holding", 2, 6)
	m.Blower.Turndown = rapid.SampledFrom([]float64{0, 0, 0.2, 1}).Draw(t, "turndown")
	m.Site.Altitude = d.between("altitude", 0, 2500)
	m.Site.Temperature = d.monthly("site", -35, 40)
	m.Site.Humidity = d.monthly("humidity", 0, 1)
	m.Step = rapid.SampledFrom([]float64{0.25, 0.5, 0.7, 1}).Draw(t, "step")
	d.program(m)
	d.kinetics(m)
	d.air(m)
	if d.on("microbes") {
		m.Chemistry.Microbes = material.Microbes{CarbonToNitrogen: d.between("C:N of microbes", 4, 15), Efficiency: d.between("built", 0, 0.6)}
	}
	if d.on("intake") {
		m.Intake = &Intake{Cake: d.monthly("cake", -20, 60), Chips: d.monthly("chips", -40, 40)}
	}
	if d.on("freezing") {
		m.Heat.Fusion = FusionHeat
	}
	return m
}

// program draws settings of the segments, which may wait and come down by a ramp, and
// turnings of what has one segment.
func (d drawing) program(m *Model) {
	for i := range m.Program {
		s := &m.Program[i]
		s.Setpoint, s.Hours, s.MinFlow = d.between("setpoint", 30, 75), d.between("segment", 5, 300), d.between("least flow", 0, 30)
		if d.on("ramp") {
			s.Ramp = d.between("K an hour", 0.05, 10)
		}
		if d.on("waits") {
			s.Until = &Ending{Criterion: d.criterion("ending"), Own: d.on("own time"), Longest: s.Hours + d.between("longer", 0, 200)}
		}
	}
	if len(m.Program) == 1 && d.on("turned") {
		first := d.between("turned at", 0.1, 200)
		m.Turning = Turning{At: []float64{first, first + d.between("and after", 0.1, 200)},
			Loses: Handling{Share: d.between("turning loses", 0, 1), Drop: d.between("drop", 0, 10)}}
		if d.on("turned when hot") {
			m.Turning.Above, m.Turning.Apart = d.between("hot", 20, 75), d.between("apart", 1, 200)
		}
	}
}

func (d drawing) criterion(name string) Criterion {
	return rapid.SampledFrom([]Criterion{
		PathogenReduction(), VectorAttractionReduction(), significantReduction(), TimeTemperature(),
		{Name: "held", Temperature: 45, Hours: 10},
	}).Draw(d.t, name)
}

func (d drawing) kinetics(m *Model) {
	k := &m.Kinetics
	if d.on("lively") {
		k.Rapidly, k.Readily = d.between("rapidly", 0, 0.5), d.between("readily", 0.005, 0.1)
	}
	if d.on("cardinal") {
		k.Curve.Cardinal = Cardinal{Least: d.between("least", -10, 10), Best: d.between("best", 50, 62), Most: d.between("most", 65, 85)}
	}
	if d.on("awakening") {
		k.Awakening = Awakening{First: d.between("first", 1e-4, 1), Rate: d.between("growth", 0.1, 10)}
	}
}

// air draws a structure, and what air reaches by it.
func (d drawing) air(m *Model) {
	if !d.on("structure") {
		return
	}
	m.Bulk.Structure = material.Structure{Between: true, Depth: d.between("depth", 0, 5),
		Skeleton: d.between("skeleton", 2e3, 5e4), Fines: d.between("fines", 500, 2e4)}
	if d.on("air path") {
		m.AirPath = AirPath{Half: d.between("half", 0.01, 0.3), Spread: d.between("spread", 0.005, 0.1)}
		m.Criteria = append(m.Criteria, AirThroughout())
	}
}

// drawLoad draws a mix of cake with chips, sawdust or ground yard waste.
func drawLoad(t *rapid.T) material.Parcel {
	d := drawing{t}
	cake, chips := cakeSpec(), chipSpec()
	cake.Moisture = d.between("cake moisture", 0.65, 0.88)
	cake.Rapidly = d.between("rapidly degradable", 0, 0.15)
	chips = chips.WithMoisture(d.between("chip moisture", 0.1, 0.6))
	p := mix(cake, chips, d.between("ratio", 0, 5), d.between("kg", 200, 25000))
	if d.on("amended") {
		spec := material.Spec{Name: "yard waste", Moisture: d.between("amendment moisture", 0.1, 0.6), Volatile: 0.85, Rapidly: 0.02,
			Readily: 0.1, Slowly: 0.25, Nitrogen: 0.01, Coarse: d.between("coarse", 0, 0.8), BulkDensity: 300}
		p.Add(spec.OfWet(p.Total() * d.between("amendment", 0, 0.5)))
	}
	return p
}

// possible says what of a course cannot be, "" if all can.
func possible(m *Model, c *Course, month time.Month) string {
	ambient := m.Site.Temperature[month-1]
	least := min(c.Start, ambient) - 25 // evaporation cools below both
	// Nothing heats a load but oxidation, which ends where the curve does, and warm air:
	// a step may pass that by as much as its mean stays behind.
	most := max(c.Start, ambient, m.Kinetics.Curve.Vanishes()+25)
	largest := m.draught(c.Initial) * (m.Blower.Capacity + m.Blower.PerDry*c.Initial.Dry()/1000) * (1 + 1e-9)
	airless := poolsOf(&c.Initial)
	for i := range airless {
		airless[i] *= (1 - c.Reached) * (1 - 1e-9)
	}
	if !(c.Reached > 0 && c.Reached <= 1) {
		return fmt.Sprintf("air reaches a share of %g", c.Reached)
	}
	if !(c.Energy.Handling >= -1e-6 && c.Energy.Generated >= 0 && c.Energy.AirLatent >= 0) {
		return fmt.Sprintf("heat of nothing: %+v", c.Energy)
	}
	before := Sample{Parcel: c.Initial, Temperature: c.Start}
	for i := range c.Samples {
		s := &c.Samples[i]
		p, b := &s.Parcel, &before.Parcel
		said := ""
		switch {
		case !(s.Hours > before.Hours):
			said = "time stands still"
		case s.Temperature > before.Temperature && s.Mean > m.Kinetics.Curve.Vanishes()+1e-3 && s.Mean > ambient:
			said = fmt.Sprintf("warms to %g °C where nothing decays", s.Temperature)
		case !(s.Temperature > least && s.Temperature < most):
			said = fmt.Sprintf("%g °C is beyond any reason", s.Temperature)
		case !(s.Oxygen >= 0 && s.Oxygen <= inletOxygen):
			said = fmt.Sprintf("oxygen %g %%", s.Oxygen)
		case !(p.Water >= 0):
			said = fmt.Sprintf("water %g kg", p.Water)
		case !(s.Exchange.O2 >= before.Exchange.O2 && s.Exchange.CO2 >= before.Exchange.CO2 && s.Exchange.NH3 >= before.Exchange.NH3 &&
			s.Exchange.Vapour >= before.Exchange.Vapour && s.Exchange.Leachate >= before.Exchange.Leachate &&
			s.Air >= before.Air && s.Blower >= before.Blower && s.Condensate >= before.Condensate):
			said = "a total ran backwards"
		case !(p.Nitrogen() <= b.Nitrogen()*(1+1e-12) && p.Nitrogen() >= 0):
			said = fmt.Sprintf("nitrogen %g kg after %g", p.Nitrogen(), b.Nitrogen())
		case !(s.Flow >= 0 && s.Flow <= largest):
			said = fmt.Sprintf("flow %g m3/h of %g", s.Flow, largest)
		case !(s.Blowing >= s.Flow*(1-1e-12) && s.Blowing <= largest):
			said = fmt.Sprintf("blows %g m3/h for a mean of %g", s.Blowing, s.Flow)
		case s.Segment < before.Segment || s.Segment >= len(m.Program):
			said = fmt.Sprintf("segment %d after %d", s.Segment, before.Segment)
		}
		now, then := poolsOf(p), poolsOf(b)
		for k := range now {
			if !(now[k] >= airless[k] && now[k] <= then[k]*(1+1e-12)) {
				said = fmt.Sprintf("pool %d: %g kg after %g, without air %g", k, now[k], then[k], airless[k])
			}
		}
		if said != "" {
			return fmt.Sprintf("hour %g: %s", s.Hours, said)
		}
		before = *s
	}
	for i, met := range c.Met {
		if met.OK && !(met.Hours >= 0 && met.Hours <= c.Final().Hours+1e-9) || math.IsNaN(met.Hours) {
			return fmt.Sprintf("%s is met at %g h", m.Criteria[i].Name, met.Hours)
		}
	}
	return ""
}
