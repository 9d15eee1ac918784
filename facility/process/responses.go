package process

import (
	"math"
	"sync"
	"sync/atomic"
	"time"

	"loamcast/facility/material"
)

// Responses answers what Model.Course would say about any load at about a
// hundredth of the cost, by interpolating between courses of standard loads,
// which it integrates when they are first needed and keeps.
//
// Standard loads stand on a lattice over month, first rate of heating, the part
// of slowly degradable matter in it, water held, coarse share, size, the part of
// readily degradable matter in chips, that of rapidly degradable matter, and the
// temperature at which loads begin that have been in a vessel. Between them a quadratic
// interpolates the effective age of the load (which gives the fraction left of each
// degradable class), water and air per oxygen taken up, leachate, temperature, and the
// hours at which criteria are met, all with courses aligned at the moment when they warm
// up, but for loads that have been in a vessel: see asTheyAre. What a load is made of
// otherwise (ash, nitrogen, how slow matter splits between fine and coarse) does
// not move its course; Apply uses the load's own masses.
//
// Against integration, over random mixes in the range of working plants and all
// months, masses differ by at most 0.5 % of the initial dry matter or water, at
// any age, and the hours of compliance by at most 2; on average by 0.1 % and a
// third of an hour. That is tested on 240 loads, and on 1,200 of one plant.
//
// A Responses may be used from several goroutines. Its answers depend on the
// model and the load only, never on what was asked before.
type Responses struct {
	m        *Model
	maxHours float64

	// What follows from the model alone, and is asked for at every load.
	curve     curve
	constants pools // k20, 1/d
	oxygen    pools // kg O2 per kg oxidised

	steps   stride // of the integrations
	levels  int8   // of the lattice
	grid    grid   // of the points kept of them
	spacing *[dims]float64
	shape   *shapes
	tipped  bool // loads begin at the temperature at which they were tipped
	sized   bool // something of the enclosure does not scale with the load
	// Where loads begin at temperatures of their own and none is judged, when they warm up
	// is of no account: nodes are not aligned.
	asTheyAre bool
	byDry     bool // water is told by dry mass; see wets

	last     [recent]atomic.Pointer[stencil] // those found last, by a part of where they are
	mu       sync.RWMutex
	nodes    map[place]*once[*node]
	stencils map[place]*once[*stencil]
	direct   atomic.Int64 // loads integrated on their own

	recall func(Point, func(course []byte)) // nil if the table is not kept
	added  []added                          // courses integrated, if it is
}

// recent is how many stencils are found without a look into the whole table of them, which
// takes as long as to read them. A load's stencil is mostly one of those of the loads of
// the last weeks.
const recent = 1 << 10

// slot returns where a stencil is kept that was found, if another has not taken its place.
func (p *place) slot() uint {
	h := uint(p.month)<<4 + uint(p.level)
	factor := uint(31)
	for _, at := range p.at {
		h += uint(at) * factor // products need not wait for the sum
		factor *= 31
	}
	return h % recent
}

// once is a value that the first caller works out and others wait for.
type once[T any] struct {
	sync.Once
	value T
}

// NewResponses returns an empty table for m, which must be valid and must not
// be changed afterwards, for courses of maxHours.
func NewResponses(m *Model, maxHours float64) *Responses {
	r := &Responses{
		m:         m,
		curve:     m.Kinetics.Curve.kept(),
		constants: m.Kinetics.constants(),
		oxygen:    oxygenPer(&m.Chemistry),
		steps:     tableSteps,
		grid:      even(tablePace),
		spacing:   &spacing,
		levels:    levels,
		tipped:    m.Tipped != nil,
		sized:     m.Enclosure.Area > 0 || m.Blower.Capacity > 0,
		nodes:     map[place]*once[*node]{},
		stencils:  map[place]*once[*stencil]{},
	}
	r.shape = r.shapes(interplay)
	if len(m.Criteria) == 0 && !m.waits() {
		r.steps, r.grid = slowSteps, even(slowPace)
		if r.tipped {
			r.steps, r.grid, r.spacing = tippedSteps, thinned(tippedPace, brisk), &pileSpacing
			r.asTheyAre, r.byDry, r.levels, r.shape = true, true, pileLevels, r.shapes(livelihood)
		}
		if m.Turning.turns() || m.Turning.byHeat() {
			r.grid = even(turnedPace)
		}
		if m.Turning.byHeat() {
			// No two loads are turned at the same hours: each is integrated, in steps that tell
			// when it is hot enough.
			r.levels, r.steps = 0, fixed(m.Step)
		}
	}
	r.maxHours = r.grid.end(maxHours)
	return r
}

// Of makes s the response of a load that starts in a month. A response is large, and so is
// filled where it stays. Of a load that cannot be, s remains what it was.
//
// Where the standard loads around p behave too differently to be interpolated,
// the lattice is refined, and in the end p itself is integrated.
func (r *Responses) Of(s *Response, p *material.Parcel, month time.Month) error {
	return r.From(s, p, month, math.NaN())
}

// From is Of for a load that starts at a temperature, °C, in a model that has
// Model.Tipped; see [Model.CourseFrom].
func (r *Responses) From(s *Response, p *material.Parcel, month time.Month, start float64) error {
	if err := checkLoad(p, month); err != nil {
		return err
	}
	r.begin(s, p)
	var x, off [dims]float64
	r.coordinates(&x, p, s.reached, month, start)
	for level := range r.levels {
		if p.Coarse.Rapidly > 0 {
			break // no standard load has any
		}
		centre := place{month: int8(month), level: level}
		r.nearest(&x, &centre, &off)
		if st := r.stencil(&centre); st != nil {
			st.shape.weigh(&off, s.weights[:len(st.nodes)])
			s.use(st)
			return nil
		}
	}
	r.direct.Add(1)
	own := r.m.start(*p, month, start, r.steps)
	own.leave(s.reached)
	s.weights[0] = 1
	s.use(r.alone(own))
	return nil
}

// alone returns the stencil of a load that is integrated. Of one that is not aligned
// nothing is judged, and it is integrated as far as it is looked at, which is seldom to
// the end of the table.
func (r *Responses) alone(own *run) *stencil {
	if r.asTheyAre {
		d := own.reduction(r.maxHours, r.grid)
		st := &stencil{nodes: []*node{d.node}, rest: d}
		st.lineUp(0)
		st.points[0], st.temperatures[0] = d.node.points[:d.room], d.node.temperatures[:d.room]
		return st
	}
	st := &stencil{nodes: []*node{own.reduce(r.maxHours, r.grid)}}
	st.alike(r.m, r.maxHours, levels)
	st.lineUp(len(r.m.Criteria))
	return st
}

// begin makes s the response of p, without the nodes from which it is interpolated.
func (r *Responses) begin(s *Response, p *material.Parcel) {
	*s = Response{table: r, pools: occupied(p)}
	s.dry, s.fixed, s.reached = p.Dry(), p.Fixed(), r.m.reached(p)
	for i, held := range poolsOf(p) {
		s.oxygen[i] = r.oxygen[i] * (held * s.reached)
	}
}

// stencil returns the standard loads around a centre, nil if they cannot be
// composed or not be interpolated.
func (r *Responses) stencil(centre *place) *stencil {
	last := &r.last[centre.slot()]
	st := last.Load()
	if st == nil || !st.centre.is(centre) {
		st = r.stencilAt(*centre)
		last.Store(st)
	}
	if st.none {
		return nil
	}
	return st
}

// stencilAt is stencil by the whole table, in which it is made when it is not there. One
// that is not to be interpolated says so.
func (r *Responses) stencilAt(centre place) *stencil {
	e := entry(&r.mu, r.stencils, centre)
	e.Do(func() {
		e.value = &stencil{centre: centre, none: true}
		st := stencil{centre: centre, shape: r.shape.about(&centre)}
		st.nodes = make([]*node, 0, st.shape.points)
		for _, at := range st.shape.around(centre) {
			n := r.node(at)
			if n == nil {
				return
			}
			st.nodes = append(st.nodes, n)
		}
		if r.asTheyAre && r.smooth(&st) || !r.asTheyAre && st.alike(r.m, r.maxHours, centre.level) {
			st.lineUp(len(r.m.Criteria))
			e.value = &st
		}
	})
	return e.value
}

// node returns the standard load at a lattice point, nil if matter cannot be so
// composed.
func (r *Responses) node(at place) *node {
	e := entry(&r.mu, r.nodes, at)
	e.Do(func() {
		n, ok := r.recalled(at)
		if ok {
			e.value = n
			return
		}
		month := time.Month(at.month)
		x := r.stands(at)
		if p, ok := r.compose(x, month); ok {
			start := math.NaN()
			if r.tipped {
				start = x[startAxis]
			}
			e.value = r.m.start(p, month, start, r.steps).reduce(r.maxHours, r.grid)
			r.add(at, e.value)
		}
	})
	return e.value
}

// entry finds or makes the place for a value.
func entry[T any](mu *sync.RWMutex, table map[place]*once[T], at place) *once[T] {
	mu.RLock()
	e := table[at]
	mu.RUnlock()
	if e != nil {
		return e
	}
	mu.Lock()
	defer mu.Unlock()
	if e = table[at]; e == nil {
		e = &once[T]{}
		table[at] = e
	}
	return e
}
