package process

import (
	"math"

	"loamcast/facility/moistair"
)

// sorption is the water content, kg per kg dry, below which matter visibly
// holds on to its water: activity 1 − exp(−u/sorption). An assumption that acts
// below some 25 % moisture only; there it keeps drying from reaching zero.
const sorption = 0.1

// balance is the heat balance of one step with everything in it that does not
// depend on the temperature reached.
type balance struct {
	*run
	h         float64 // h
	capacity  float64 // of the load, kJ/K
	dose      float64 // d, times the moisture and free-air-space factors
	depletion float64 // oxygen factor of the step before, by which pools shrink within this one
	activity  float64 // relative humidity of the exhaust, 0…1
	setpoint  float64 // °C
	least     float64 // minimum air, kg dry in the step
	full      float64 // maximum air, kg dry in the step
	aired     pools   // what there is at the beginning that air reaches, kg

	// The terms at the mean temperature last asked for. They lie here, as they are many
	// and asked for several times a step.
	rates
}

// rates are the terms of the balance at one mean temperature.
type rates struct {
	burnt     pools   // what would decay without limitation by oxygen, kg
	aged      float64 // equivalent time at 20 °C without limitation by oxygen, d
	potential float64 // oxygen uptake without that limitation, kg
	wall      float64 // kJ
	cool      float64 // heat taken by a kg of dry air, kJ
	sensible  float64 // the part of cool that warms the air
	vapour    float64 // kg water per kg dry air

	// Slopes for the iteration, per K of the mean temperature.
	rise      float64 // of potential, relative
	stiffness float64 // of cool
}

// step advances the load by h hours. Temperature follows the implicit midpoint
// rule: rates, losses and air are taken at the mean of the temperatures before
// and after, which is stable and of second order.
func (r *run) step(h float64, segment int) {
	b := r.balance(h, r.m.Program[segment])
	mean, air := b.control()
	c := poreOxygen(b.potential, air, r.m.Kinetics.HalfOxygen)
	before, level, water, age := r.last, r.level, r.parcel.Water, r.age
	r.last = stepInfo{length: h, start: r.temperature, mean: r.felt(mean), flow: air * r.inlet.volume / h, oxygen: c,
		factor: r.m.Kinetics.Oxygen(c), segment: segment, full: air >= b.full*(1-1e-9)}
	r.last.blowing = r.m.Blower.Blowing(r.last.flow, r.most*r.inlet.volume)
	b.commit(air, r.last.factor)
	if r.wakes {
		a := &r.m.Kinetics.Awakening
		activity := a.At(r.age)
		r.last.waking = math.Log(activity/a.At(age)) / h
		r.wakes = activity < 1
	}
	r.temperature = r.felt(r.level)
	since := (h + before.length) / 2
	if before.length == 0 {
		since = math.Inf(1)
	}
	r.last.warming = before.warming.to((r.level-level)/h, since)
	r.last.drying = before.drying.to((water-r.parcel.Water)/h, since)
}

// balance prepares a step. Moisture and free air space are taken at its middle, with
// the water that the load will hold there if it goes on drying as it did: half of it
// at least, however long the step.
func (r *run) balance(h float64, s Segment) balance {
	p := r.parcel
	k := &r.m.Kinetics
	dry := p.Dry()
	full := r.most * h
	capacity := r.m.Heat.Of(dry, p.Water)
	aired := poolsOf(&p)
	for i := range aired {
		aired[i] -= r.airless[i]
	}
	p.Water = max(p.Water-r.last.drying.ahead((r.last.length+h/2)/2)*h/2, p.Water/2)
	depletion := r.last.factor
	switch {
	case r.last.length == 0:
		depletion = 1
	case depletion < leastFactor:
		depletion = leastFactor
	}
	return balance{
		run:       r,
		h:         h,
		capacity:  capacity,
		depletion: depletion,
		dose:      h / hoursPerDay * k.Moisture(p.Moisture()) * r.m.airways(&p),
		activity:  r.m.Enclosure.Exhaust * -math.Expm1(-p.Water/dry/sorption),
		setpoint:  r.setpointAt(r.hours + h),
		least:     min(s.MinFlow*r.dry/r.inlet.volume*h, full),
		full:      full,
		aired:     aired,
	}
}

// control finds the air for the step and the temperature that it leads to: the
// larger of minimum flow and oxygen demand, or what holds the load at the
// setpoint if that is more, or all there is. Where the load is far from coming to its
// setpoint, what would hold it is asked only if it gets past it.
func (b *balance) control() (mean, air float64) {
	if b.level+2*max(b.expected(), 0) < b.setpoint {
		mean, air = b.settle(b.least, true)
		if 2*mean-b.level <= b.setpoint {
			return mean, air
		}
	}
	mean = (b.level + b.setpoint) / 2
	b.at(mean)
	stays := b.capacity*(b.setpoint-b.level) + b.wall
	need := airToHold(b.potential, b.m.HeatOfOxygen, stays, b.cool, b.m.Kinetics.HalfOxygen)
	switch {
	case need <= b.demand():
		return b.settle(b.least, true)
	case need <= b.full:
		return mean, need
	}
	return b.settle(b.full, false)
}

// demand returns the air, kg dry, for the minimum flow and for oxygen.
func (b *balance) demand() float64 {
	oxygen := airFor(b.potential, b.m.Blower.LeastOxygen, b.m.Kinetics.HalfOxygen)
	return min(max(b.least, oxygen), b.full)
}

// settle finds the mean level of the step for a given air flow, or, with
// demand, for the flow that demand asks for. The equation is mostly nearly linear,
// so that two or three rounds will do: the first goes by Newton's slope, which leaves
// out that the flow itself and the pore oxygen depend on temperature, the others by
// the slope between the last two. Where a long step makes a hot load run away the
// equation bends: what the slope proposes is then kept within what is known to lie
// too low and too high, which is halved if that does not help.
func (b *balance) settle(air float64, demand bool) (float64, float64) {
	const (
		tolerance = 1e-6 // °C
		sloping   = 12   // rounds
		rounds    = 60
	)
	low, high := b.bracket()
	rise := min(max(b.expected(), low), high)
	var before struct{ rise, off float64 }
	for round := range rounds {
		mean := b.level + rise/2
		b.at(mean)
		if demand {
			air = b.demand()
		}
		f := b.m.Kinetics.Oxygen(poreOxygen(b.potential, air, b.m.Kinetics.HalfOxygen))
		generated := b.m.HeatOfOxygen * b.potential * f
		off := rise - (generated-b.wall-air*b.cool)/b.capacity
		if math.Abs(off) < tolerance {
			return mean, air
		}
		if off < 0 {
			low = rise
		} else { // too high, or so high that the air boils and off is not a number
			high = rise
		}
		slope := (off - before.off) / (rise - before.rise)
		if round == 0 || !(slope > 0) {
			slope = 1 + (b.leak*b.h+air*b.stiffness-generated*b.rise)/(2*b.capacity)
		}
		before.rise, before.off = rise, off
		rise -= off / slope
		if round >= sloping || !(rise > low && rise < high) {
			rise = (low + high) / 2
		}
	}
	mean := b.level + rise/2
	b.at(mean)
	return mean, air
}

// expected returns the rise in temperature over the step if it goes on as in the
// last ones.
func (b *balance) expected() float64 { return b.last.warming.ahead((b.last.length+b.h)/2) * b.h }

// bracket returns rises in temperature over the step between which the balance
// must lie. At the higher one the mean is where nothing decays any more, and the
// load can only cool; at the lower one it is far below the air, whose warmth and
// moisture the load would take up.
func (b *balance) bracket() (low, high float64) {
	const below = 60 // K
	coldest := min(b.level, b.inlet.temperature) - below
	return 2 * (coldest - b.level), 2 * max(b.idle-b.level, 0)
}

// at finds the terms of the balance at a mean level, °C.
func (b *balance) at(level float64) {
	mean := b.felt(level)
	b.warmTo(mean)
	warm := &b.warm
	dose := b.dose * warm.rate
	if b.wakes {
		dose = b.m.Kinetics.Awakening.aged(b.age, dose*b.depletion) / b.depletion
	}
	potential := 0.0
	for i := range b.pools {
		burnt := b.burns(b.aired[i], b.constants[i]*dose)
		b.burnt[i] = burnt
		potential += burnt * b.oxygen[i]
	}
	in := &b.inlet
	out := moistair.RatioOfVapour(b.activity*warm.saturation, in.pressure)
	perKelvin := moistair.DryAirHeat + in.humidity*moistair.VapourHeat
	latent := moistair.Vaporisation(mean)
	b.potential = potential
	b.aged = dose
	b.rise = warm.slope
	b.wall = b.leak * b.h * (mean - in.temperature)
	b.vapour = max(0, out-in.humidity)
	b.sensible = perKelvin * (mean - in.temperature)
	b.cool = b.sensible + b.vapour*latent
	b.stiffness = perKelvin + latent*humiditySlope(mean, out)
}

// burns returns what would decay of m over a dose x = k·t without limitation by
// oxygen, of pools that are taken to shrink at the rate of the step before:
// m/f·(1 − exp(−f·x)), by a quotient that is right to the fourth order in f·x and
// never more than m/f.
func (b *balance) burns(m, x float64) float64 {
	y := b.depletion * x
	return m * x / (1 + y*(0.5+y/12))
}

// leastFactor is the least oxygen factor by which pools are taken to shrink: what awakes
// without any air at all is a quotient of two zeros.
const leastFactor = 1e-9

// humiditySlope approximates the rise of the saturated humidity ratio with
// temperature, 1/K, after Clausius and Clapeyron. It steers the iteration only.
func humiditySlope(t, w float64) float64 {
	k := t + 273.15
	return w * (1 + w/0.622) * 5200 / (k * k)
}

// commit carries out the step: oxidation by the oxygen factor f, evaporation,
// drainage and the heat that goes with them.
func (b *balance) commit(air, f float64) {
	r := b.run
	p := &r.parcel
	var amounts pools
	for i := range r.pools {
		amounts[i] = f * b.burnt[i]
	}
	e := p.Oxidise(amounts.oxidation(), &r.m.Chemistry)
	lifted := air * b.vapour
	e.Vapour = p.Evaporate(lifted * (1 - r.m.Enclosure.Returned))
	e.Leachate = p.Evaporate(b.drained())

	generated := r.m.HeatOfOxygen * e.O2
	latent := e.Vapour / (1 - r.m.Enclosure.Returned) * moistair.Vaporisation(r.last.mean)
	sensible := air * b.sensible
	r.level += (generated - b.wall - sensible - latent) / b.capacity
	r.energy.Generated += generated
	r.energy.Wall += b.wall
	r.energy.AirDry += sensible
	r.energy.AirLatent += latent
	r.energy.Carried += r.level * r.m.Heat.Of(e.Volatile, e.Vapour+e.Leachate-e.Water)

	r.exchange = r.exchange.Plus(e)
	r.age += f * b.aged
	r.last.uptake = e.O2
	r.condensate += e.Vapour * r.m.Enclosure.Returned / (1 - r.m.Enclosure.Returned)
	volume := air * r.inlet.volume
	r.air += volume
	r.blower += volume * r.m.Blower.PressureDrop / r.m.Blower.Efficiency / joulesPerKWh
}

// drained returns the water above the holding capacity that leaves in the step,
// kg.
func (b *balance) drained() float64 {
	p := b.parcel.Matter()
	excess := p.Water - b.m.Bulk.FieldCapacityWater(&p, b.m.Enclosure.Holding)
	if excess <= 0 {
		return 0
	}
	return excess * -math.Expm1(-b.h/b.m.Enclosure.Drainage)
}
