package process

import (
	"math"

	"loamcast/facility/material"
)

// Response is the course of one load, interpolated. It is a value and may be
// copied; the zero value is not useful.
type Response struct {
	stencil *stencil
	warm    float64   // hour at which the load passes the warm mark; 0 if never
	marks   []float64 // h, beside those of the stencil; nil where it has none
	table   *Responses
	pools   int     // that may hold something
	oxygen  pools   // initial degradable matter that air reaches, as oxygen, kg
	dry     float64 // initial, kg
	fixed   float64 // initial, kg
	reached float64 // share of the load that air reaches
	seen    moment  // when it was last looked at
	seenAt  float64 // h; 0 if it was not
	// Of the stencil's nodes. They lie in the response, which has no pointer behind them: a
	// load asks for two, and a list of their own would be most of what a run leaves behind.
	weights [mostPoints]float64
}

// moment is the state of a load at some age.
type moment struct {
	point
	uptake float64 // of oxygen since the start, kg
	gone   pools   // of what air reaches, parts of 1
}

// use sets the nodes from which s is interpolated; their weights are there.
func (s *Response) use(st *stencil) {
	s.stencil = st
	if st.to > 0 {
		log := 0.0
		for i, warmLog := range st.warmLog {
			log += s.weights[i] * warmLog
		}
		s.warm = math.Exp(log)
	}
	if st.marks != nil {
		var room [mostSegments]float64
		t := s.timeline(room[:0])
		s.marks = st.lay(&t, s.table.m, s.warm, s.table.maxHours)
	}
}

// at interpolates the state of the load at an age in h. The last one is kept: what a load
// will be when it is cured is asked for when it begins to, and again when it is. It is good
// until the next one.
func (s *Response) at(hours float64) *moment {
	if hours <= 0 {
		return &unbegun // no oxygen is taken up yet, of which anything could be a multiple
	}
	if hours != s.seenAt {
		s.stencil.reach(hours)
		m := &s.seen
		s.pointAt(&m.point, hours)
		m.gone = s.decay(m.age)
		m.uptake, s.seenAt = s.uptake(&m.gone), hours
	}
	return &s.seen
}

// unbegun is the state of every load at its start.
var unbegun moment

// pointAt interpolates the point at an hour.
func (s *Response) pointAt(p *point, hours float64) {
	st := s.stencil
	var at spots
	s.spots(&at, hours)
	weights := s.weights[:len(st.points)]
	age := 0.0
	for i, points := range st.points { // by itself, which has all that is read of the nodes fetched
		before := at.points[i]
		v := weights[i] * at.parts[i]
		age += (weights[i]-v)*points[before].age + v*points[before+1].age
	}
	vapour, air, leachate := 0.0, 0.0, 0.0
	for i, points := range st.points {
		before := at.points[i]
		q, r := &points[before], &points[before+1]
		v := weights[i] * at.parts[i]
		u := weights[i] - v
		vapour += u*q.vapour + v*r.vapour
		air += u*q.air + v*r.air
		leachate += u*q.leachate + v*r.leachate
	}
	*p = point{age: age, vapour: vapour, air: air, leachate: leachate}
}

// Apply advances a load from one age to another, h since its start, and returns
// what it exchanged with the air. It acts on the masses that p has: the load, or
// a share of it, in the state in which the last Apply left it. Mass is conserved
// exactly. After the duration of the table nothing changes any more.
func (s *Response) Apply(p *material.Parcel, fromHours, toHours float64) material.Exchange {
	from := *s.at(fromHours)
	e, _ := s.advance(p, &from, s.at(toHours))
	return e
}

// Advance is Apply from the start of the load, in the state in which it began, that also
// returns the electricity that the blower used meanwhile, kWh.
func (s *Response) Advance(p *material.Parcel, hours float64) (e material.Exchange, energy float64) {
	return s.advance(p, &unbegun, s.at(hours))
}

func (s *Response) advance(p *material.Parcel, from, to *moment) (e material.Exchange, energy float64) {
	gone := to.gone
	if aged := max(0, to.age-from.age); aged != to.age {
		gone = s.decay(aged)
	}
	amounts := poolsOf(p)
	for i, k := range s.table.constants[:s.pools] {
		if amounts[i] != 0 {
			amounts[i] *= gone[i] * airedPart(s.reached, k*from.age)
		}
	}
	share := s.shareOf(p)
	e = p.Oxidise(amounts.oxidation(), &s.table.m.Chemistry)
	e.Vapour = p.Evaporate(share * (to.vapour*to.uptake - from.vapour*from.uptake))
	e.Leachate = p.Evaporate(share * s.dry * (to.leachate - from.leachate))
	return e, s.blowerEnergy(to.air*to.uptake - from.air*from.uptake)
}

// decay returns what is gone of the pools, of what air reaches, after some effective age, d.
func (s *Response) decay(age float64) (gone pools) {
	for i, k := range s.table.constants[:s.pools] {
		if s.oxygen[i] != 0 {
			gone[i] = -math.Expm1(-k * age)
		}
	}
	return gone
}

// uptake returns the oxygen that the load has taken up when so much is gone, kg.
func (s *Response) uptake(gone *pools) (total float64) {
	for i, gone := range gone[:s.pools] {
		total += s.oxygen[i] * gone
	}
	return total
}

// shareOf tells by the ash, which no process touches, how much of the initial
// load p is.
func (s *Response) shareOf(p *material.Parcel) float64 {
	if s.fixed == 0 {
		return 1
	}
	return p.Fixed() / s.fixed
}

// Met returns the hour at which a criterion of the model is met, judged on this
// course alone. Where the standard loads around this one disagree, its own
// interpolated temperatures decide.
func (s *Response) Met(criterion int) (hours float64, ok bool) {
	if c := &s.table.m.Criteria[criterion]; c.Kind == Aired {
		m := c.aired(s.reached)
		return m.Hours, m.OK
	}
	switch v := &s.stencil.verdicts[criterion]; v.met {
	case 0:
		return 0, false
	case len(v.after):
		for i, after := range v.after {
			hours += s.weights[i] * after
		}
		return hours + s.warm, true
	}
	m := s.table.m.Criteria[criterion].Judge(s.Readings(s.table.maxHours))
	return m.Hours, m.OK
}

// Temperature returns that of the load at an age in h, °C.
func (s *Response) Temperature(hours float64) float64 {
	if t, ok := s.steadyAt(hours); ok {
		return t
	}
	st := s.stencil
	st.reach(hours)
	var at spots
	s.spots(&at, hours)
	t := 0.0
	for i, temperatures := range st.temperatures {
		before := at.points[i]
		t += s.weights[i] * lerp(temperatures[before], temperatures[before+1], at.parts[i])
	}
	return t
}

// Air returns the air used up to an age in h, m3 at inlet conditions, and the
// flow at that age, m3/h (a mean between two points kept).
func (s *Response) Air(hours float64) (total, flow float64) {
	g := s.stencil.grid
	point := int(math.Floor(g.place(hours)))
	begin, end := g.hour(point), g.hour(point+1)
	return s.air(hours), (s.air(end) - s.air(begin)) / (end - begin)
}

// Blowing returns the flow, m3/h, while the blower is on, of a mean flow.
func (s *Response) Blowing(flow float64) float64 {
	b := &s.table.m.Blower
	return b.Blowing(flow, b.Capacity+b.PerDry*s.dry/1000)
}

func (s *Response) air(hours float64) float64 {
	p := s.at(hours)
	return p.air * p.uptake
}

// blowerEnergy returns the electricity for a volume of air, m3.
func (s *Response) blowerEnergy(air float64) float64 {
	b := &s.table.m.Blower
	return air * b.PressureDrop / b.Efficiency / joulesPerKWh
}
