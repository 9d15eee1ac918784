package process

import (
	"iter"
	"math"
)

// tablePace is the time between the points kept of a course, h: two-hour means
// are how temperatures are recorded in practice.
const tablePace = 2

// tableSteps are the time steps of the courses in the table, h: some 70 in 20 days.
// Over 60 random loads in all months the masses at the end are within 0.004 % (dry) and
// 0.02 % (water) of steps of 1/16 h, moisture within 0.011 points, and hours of
// compliance within 0.3: what 480 steps of an hour come to. Steps of up to 16 h
// save another five, and double the errors.
var tableSteps = stride{least: 0.5, most: 12}

// slowSteps and slowPace, h, take their place where no criterion is judged: curing
// changes over days once it has warmed up. Steps of up to four days put the moisture
// at the screen off by more than 0.05 points; equal ones of a day, a vessel without
// criteria that warms up.
var slowSteps = stride{least: 6, most: 36}

const slowPace = 12

// tippedSteps and tippedPace, h, take the place of these where a load begins at what it
// was tipped with: a hot one changes within hours, and criteria of vessel and pile
// together see its temperatures. In the first ten days, while a hot pile comes down to its
// setpoint, water is up to 0.42 % off steps of a quarter of an hour; from then to day 120
// up to 0.10 % (0.03 points of moisture), and 0.09 % with steps of at most 36 h, which are
// a quarter more. With three days moisture at the screen is off by 0.02 points more.
var tippedSteps = stride{least: 1, most: 48}

const tippedPace = 6

// brisk is for how long, h, the points kept of piles that begin at what they were tipped
// with lie close.
const brisk = 10 * hoursPerDay

// turnedPace, h, is that of piles that are turned: a fall between points that lie far
// apart seems slow.
const turnedPace = 4

// nearSetpoint is how close to its setpoint a load counts as warm, K. Courses
// are aligned at that moment: from then on the air takes heat and water away.
const nearSetpoint = 2

// The readings of a course on which criteria are judged are half an hour long, and one for
// each step in which the temperature stays level.
const (
	briefest = 0.5  // h
	level    = 1e-6 // K
)

// soonest is the least hour of warming up, so that its logarithm is finite.
const soonest = 0.01

// point is the state of a course at a multiple of its pace. Water lost and air used
// are kept per oxygen taken up since the start: both follow the heat set free,
// which the load's own composition gives exactly once its age is known.
type point struct {
	age      float64 // d at 20 °C without limitation
	vapour   float64 // kg per kg O2
	air      float64 // m3 per kg O2
	leachate float64 // kg per kg of initial dry mass
}

// between returns the point a fraction f of the way from p to q.
func between(p, q point, f float64) point {
	return point{
		age:      lerp(p.age, q.age, f),
		vapour:   lerp(p.vapour, q.vapour, f),
		air:      lerp(p.air, q.air, f),
		leachate: lerp(p.leachate, q.leachate, f),
	}
}

// lerp returns the number a fraction f of the way from a to b.
func lerp(a, b, f float64) float64 { return a + f*(b-a) }

// node is a course reduced to what a response needs. The temperatures lie apart from
// the points, as they are asked for at other times: to look at a load is mostly to
// wait for memory.
type node struct {
	grid         grid
	points       []point
	temperatures []float64 // °C
	met          []Met
	warm         float64 // hour at which the load first comes near its setpoint, +Inf if never
	frozen       bool    // some of it, at the start

	timeline *timeline // nil if every segment of the program ends at a fixed time
}

// reduction is an integration of which the points of a grid are kept, as far as it has
// come.
type reduction struct {
	load     *run
	node     *node
	maxHours float64
	room     int // points of the whole course
	dry      float64
	watch    trackers
	warmIn   int

	// Before the step.
	before      point
	temperature float64
	last        float64 // h
}

// reduce integrates and keeps the points of a grid. It returns nil if the load
// burns more than it has, as a standard load may.
func (r *run) reduce(maxHours float64, g grid) *node {
	d := r.reduction(maxHours, g)
	d.to(maxHours)
	d.node.met = d.watch.met()
	if r.m.eventful() {
		d.node.timeline = r.timeline(d.warmIn)
	}
	if r.parcel.Fine.Dry() < 0 {
		return nil
	}
	return d.node
}

// reduction begins what reduce does.
func (r *run) reduction(maxHours float64, g grid) *reduction {
	room := int(g.place(maxHours)) + 1
	n := &node{grid: g, points: make([]point, 1, room+1), temperatures: make([]float64, 1, room+1), warm: math.Inf(1),
		frozen: r.level < r.temperature}
	n.temperatures[0] = r.temperature
	return &reduction{load: r, node: n, maxHours: maxHours, room: room, dry: r.parcel.Dry(), watch: r.m.trackers(), temperature: r.temperature}
}

// reach goes on until the points about some hours are there, and reports whether the course
// is at its end.
func (d *reduction) reach(hours float64) bool {
	g := d.node.grid
	d.to(min(d.maxHours, g.hour(int(g.place(hours))+1)))
	return d.load.hours >= d.maxHours
}

// to goes on until some hours at least.
func (d *reduction) to(hours float64) { d.load.advanceTo(hours, d.maxHours, d.keep) }

// keep keeps what lies in a step that has ended.
func (d *reduction) keep(s *state) {
	n, last := d.node, d.last
	d.temperature = s.last.start
	now := point{age: s.age, leachate: s.exchange.Leachate / d.dry}
	if o := s.exchange.O2; o > 0 {
		now.vapour, now.air = s.exchange.Vapour/o, s.air/o
	}
	if last == 0 { // the ratios begin at their first value, not at nothing
		d.before.vapour, d.before.air = now.vapour, now.air
		n.points[0] = d.before
	}
	for next := n.grid.hour(len(n.points)); next <= s.hours; next = n.grid.hour(len(n.points)) {
		part := (next - last) / (s.hours - last)
		n.points = append(n.points, between(d.before, now, part))
		n.temperatures = append(n.temperatures, lerp(d.temperature, s.temperature, part))
	}
	if mark := d.load.m.Program[s.last.segment].Setpoint - nearSetpoint; s.temperature >= mark && math.IsInf(n.warm, 1) {
		rise := (mark - d.temperature) / (s.temperature - d.temperature)
		n.warm, d.warmIn = max(last+(s.hours-last)*max(rise, 0), soonest), s.last.segment+d.load.turned
	}
	if !d.watch.settled() {
		for reading := range readings(d.temperature, s.temperature, s.last.length) {
			d.watch.add(reading)
		}
	}
	d.before, d.temperature, d.last = now, s.temperature, s.hours
}

// readings divides a step in which the temperature goes in a straight line into
// readings on which criteria are judged: one that counts from a temperature would
// otherwise count from the end of a long step.
func readings(before, after, hours float64) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		n := 1.0
		if math.Abs(after-before) > level {
			n = math.Ceil(hours / briefest)
		}
		for i := 0.5; i < n; i++ {
			if !yield(Reading{Hours: hours / n, Temperature: before + (after-before)*i/n}) {
				return
			}
		}
	}
}

// drained returns the leachate of the whole course, kg per kg dry.
func (n *node) drained() float64 { return n.points[len(n.points)-1].leachate }
