package picture

import (
	"slices"

	"loamcast/scenarios/document"

	"gonum.org/v1/plot/vg"
)

// route says how a stream is drawn.
type route int

// Routes in the order in which they are stacked down a store's sides, so that
// none crosses another: what goes up is on top, what goes down at the bottom,
// and what turns back lies innermost.
const (
	rise    route = iota // to the outside, upwards: gases, and what has no way down
	supply               // from the outside, from the left
	forward              // to a store farther right
	leave                // to the outside, to the right
	fall                 // to the outside, downwards
	back                 // to a store as far left or farther, in a loop below
	breath               // from the outside, from below: what brings no solids
)

// stream is a flow with its place.
type stream struct {
	flow     *document.Stream
	route    route
	from, to *store // nil for the outside
	width    vg.Length
	out, in  vg.Length // upper edges at from's right and to's left side
}

// store is a box, with the streams that enter on its left side and leave on
// its right side, from top to bottom.
type store struct {
	name      string
	layer     int // from the left, beginning with 0
	beneath   bool
	ins, outs []*stream
	x, top    vg.Length // upper left corner
	height    vg.Length
}

// flowGraph is the plant as stores and streams.
type flowGraph struct {
	stores  []*store
	streams []*stream
	layers  int
}

// negligible is the part of the largest flow below which a flow is not drawn:
// nobody could see it.
const negligible = 1e-6

// newFlowGraph sorts the flows that carry mass into a graph. A store's layer
// is the least number of streams with dry matter in them that lead to it from
// the outside.
func newFlowGraph(flows []document.Stream) *flowGraph {
	g := &flowGraph{}
	most := 0.0
	for i := range flows {
		if finite(flows[i].Value) {
			most = max(most, flows[i].Value)
		}
	}
	for i := range flows {
		if f := &flows[i]; f.Value > negligible*most && finite(f.Value) {
			g.streams = append(g.streams, &stream{flow: f, from: g.store(f.From), to: g.store(f.To)})
		}
	}
	g.layer()
	for i, s := range g.stores {
		for _, other := range g.stores[i+1:] {
			s.beneath = s.beneath || other.layer == s.layer
		}
	}
	for _, s := range g.streams {
		s.route = g.routeOf(s)
		if s.from != nil {
			s.from.outs = append(s.from.outs, s)
		}
		if s.to != nil {
			s.to.ins = append(s.to.ins, s)
		}
	}
	byRoute := func(a, b *stream) int { return int(a.route) - int(b.route) }
	for _, s := range g.stores {
		slices.SortStableFunc(s.ins, byRoute)
		slices.SortStableFunc(s.outs, byRoute)
	}
	return g
}

// store finds or adds a store; the outside is nil.
func (g *flowGraph) store(name string) *store {
	if name == "" {
		return nil
	}
	for _, s := range g.stores {
		if s.name == name {
			return s
		}
	}
	s := &store{name: name, layer: -1}
	g.stores = append(g.stores, s)
	return s
}

// layer gives every store its layer. Stores that no dry matter reaches stay in
// the first.
func (g *flowGraph) layer() {
	for changed := true; changed; {
		changed = false
		for _, s := range g.streams {
			if s.to == nil || !s.flow.Solid {
				continue
			}
			layer := 0
			if s.from != nil {
				if s.from.layer < 0 {
					continue
				}
				layer = s.from.layer + 1
			}
			if s.to.layer < 0 || layer < s.to.layer {
				s.to.layer = layer
				changed = true
			}
		}
	}
	for _, s := range g.stores {
		s.layer = max(s.layer, 0)
		g.layers = max(g.layers, s.layer+1)
	}
}

func (g *flowGraph) routeOf(s *stream) route {
	dry := s.flow.Solid
	switch {
	case s.from == nil && dry:
		return supply
	case s.from == nil:
		return breath
	case s.to != nil && s.to.layer > s.from.layer:
		return forward
	case s.to != nil:
		return back
	case dry && s.from.layer == g.layers-1:
		return leave
	case s.from.beneath || !dry && !s.flow.Sinks:
		return rise
	}
	return fall
}

// sum adds the widths of the streams on one of the routes.
func sum(list []*stream, routes ...route) vg.Length {
	var total vg.Length
	for _, s := range list {
		if len(routes) == 0 || slices.Contains(routes, s.route) {
			total += s.width
		}
	}
	return total
}

// take returns the streams on a route.
func take(list []*stream, r route) []*stream {
	var found []*stream
	for _, s := range list {
		if s.route == r {
			found = append(found, s)
		}
	}
	return found
}
