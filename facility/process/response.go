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

// clock maps an hour of this load to the corresponding hour of each node.
type clock struct {
	offset, slope float64   // offset + slope·(the node's hour of warming up)
	before, after []float64 // where there are marks: the nodes' hours of those around, and
	part          float64   // the way from one to the other
	moves         bool      // the hour is not the same for all nodes
}

// clock returns the one that is the same where both have just warmed up, the same at
// the ends of the segment in which they do, in proportion between; or, where the program
// waits, in proportion between the marks.
func (s *Response) clock(hours float64) clock {
	if s.marks != nil {
		mark, part := locate(s.marks, hours)
		return clock{before: s.stencil.marks[mark], after: s.stencil.marks[mark+1], part: part, moves: true}
	}
	from, to := s.stencil.from, s.stencil.to
	switch {
	case hours <= from || hours >= to:
		return clock{offset: hours}
	case hours < s.warm:
		slope := (hours - from) / (s.warm - from)
		return clock{offset: from * (1 - slope), slope: slope, moves: slope != 0}
	}
	slope := (to - hours) / (to - s.warm)
	return clock{offset: to * (1 - slope), slope: slope, moves: slope != 0}
}

// hour returns the hour of a node.
func (c *clock) hour(st *stencil, node int) float64 {
	if c.before != nil {
		return lerp(c.before[node], c.after[node], c.part)
	}
	return c.offset + c.slope*st.warm[node]
}

// at interpolates the state of the load at an age in h. The last one is kept: what a load
// will be when it is cured is asked for when it begins to, and again when it is.
func (s *Response) at(hours float64) moment {
	if hours <= 0 {
		return moment{} // no oxygen is taken up yet, of which anything could be a multiple
	}
	if hours != s.seenAt {
		s.stencil.reach(hours)
		p := s.pointAt(s.clock(hours))
		s.seen, s.seenAt = moment{p, s.uptake(p.age)}, hours
	}
	return s.seen
}

// pointAt interpolates the point at an hour of a clock.
func (s *Response) pointAt(c clock) (p point) {
	st := s.stencil
	weights := s.weights[:len(st.points)]
	var spots [mostPoints]spot
	st.spots(&spots, &c)
	for i, points := range st.points {
		spots[i].first = points[spots[i].point].age
	}
	for i, points := range st.points {
		at := &spots[i]
		q, r := &points[at.point], &points[at.point+1]
		v := weights[i] * at.part
		u := weights[i] - v
		p.age += u*at.first + v*r.age
		p.vapour += u*q.vapour + v*r.vapour
		p.air += u*q.air + v*r.air
		p.leachate += u*q.leachate + v*r.leachate
	}
	return p
}

// Apply advances a load from one age to another, h since its start, and returns
// what it exchanged with the air. It acts on the masses that p has: the load, or
// a share of it, in the state in which the last Apply left it. Mass is conserved
// exactly. After the duration of the table nothing changes any more.
func (s *Response) Apply(p *material.Parcel, fromHours, toHours float64) material.Exchange {
	e, _ := s.advance(p, s.at(fromHours), s.at(toHours))
	return e
}

// Advance is Apply from the start of the load, in the state in which it began, that also
// returns the electricity that the blower used meanwhile, kWh.
func (s *Response) Advance(p *material.Parcel, hours float64) (e material.Exchange, energy float64) {
	return s.advance(p, moment{}, s.at(hours))
}

func (s *Response) advance(p *material.Parcel, from, to moment) (e material.Exchange, energy float64) {
	aged := max(0, to.age-from.age)
	amounts := poolsOf(p)
	for i, k := range s.table.constants[:s.pools] {
		if amounts[i] != 0 {
			amounts[i] *= -math.Expm1(-k*aged) * airedPart(s.reached, k*from.age)
		}
	}
	share := s.shareOf(p)
	e = p.Oxidise(amounts.oxidation(), &s.table.m.Chemistry)
	e.Vapour = p.Evaporate(share * (to.vapour*to.uptake - from.vapour*from.uptake))
	e.Leachate = p.Evaporate(share * s.dry * (to.leachate - from.leachate))
	return e, s.blowerEnergy(to.air*to.uptake - from.air*from.uptake)
}

// uptake returns the oxygen that the load has taken up at an effective age, kg.
func (s *Response) uptake(age float64) float64 {
	total := 0.0
	for i, k := range s.table.constants[:s.pools] {
		if s.oxygen[i] != 0 {
			total -= s.oxygen[i] * math.Expm1(-k*age)
		}
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
	var spots [mostPoints]spot
	c := s.clock(hours)
	st.spots(&spots, &c)
	for i, temperatures := range st.temperatures {
		spots[i].first = temperatures[spots[i].point]
	}
	t := 0.0
	for i, temperatures := range st.temperatures {
		at := &spots[i]
		t += s.weights[i] * lerp(at.first, temperatures[at.point+1], at.part)
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
	b := s.table.m.Blower
	return air * b.PressureDrop / b.Efficiency / joulesPerKWh
}
