package picture

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// flows is a year's mean, in kg, of a plant at steady state: what enters a store
// leaves it.
func flows() []document.Stream {
	const ton = 1000
	solid := func(name, from, to string, wet float64) document.Stream {
		return document.Stream{Name: name, From: from, To: to, Value: wet * ton, Solid: true}
	}
	fluid := func(name, from, to string, mass float64) document.Stream {
		return document.Stream{Name: name, From: from, To: to, Value: mass * ton, Sinks: strings.HasPrefix(name, "leachate")}
	}
	return []document.Stream{
		solid("cake produced", "", "cake holding", 1800),
		solid("cake diverted", "cake holding", "", 60),
		solid("chips delivered", "", "chips", 420),
		solid("cake mixed", "cake holding", "mixer", 1740),
		solid("chips mixed", "chips", "mixer", 1400),
		solid("mix loaded", "mixer", "vessels", 3140),
		solid("compost unloaded", "vessels", "curing pad", 2040),
		solid("failed loads hauled away", "vessels", "", 14),
		solid("cured mix screened", "curing pad", "screen", 1732),
		solid("product screened", "screen", "product store", 722),
		solid("chips recovered", "screen", "chips", 980),
		solid("rejects", "screen", "", 30),
		solid("product taken", "product store", "", 717),
		fluid("oxygen, vessels", "", "vessels", 185),
		fluid("metabolic water, vessels", "", "vessels", 0),
		fluid("carbon dioxide, vessels", "vessels", "", 215),
		fluid("ammonia, vessels", "vessels", "", 6),
		fluid("water vapour, vessels", "vessels", "", 1020),
		fluid("leachate, vessels", "vessels", "", 30),
		solid("volatile solids oxidised, vessels", "vessels", "", 0),
		fluid("oxygen, curing", "", "curing pad", 55),
		fluid("carbon dioxide, curing", "curing pad", "", 65),
		fluid("ammonia, curing", "curing pad", "", 1),
		fluid("water vapour, curing", "curing pad", "", 289),
		fluid("leachate, curing", "curing pad", "", 8),
	}
}

// flowArea is what page leaves of a picture, about.
var flowArea = vg.Rectangle{
	Min: vg.Point{X: margin, Y: margin},
	Max: vg.Point{X: Width - margin, Y: Height - margin - 2.6*titleSize},
}

func sampleGraph() *flowGraph { return newFlowGraph(flows()) }

// Each flow of a composting plant takes the way that a reader expects, and
// what carries no mass is not drawn.
func TestRoutes(t *testing.T) {
	want := map[string]route{
		"cake produced": supply, "chips delivered": supply,
		"cake diverted": rise, // the chips lie below
		"cake mixed":    forward, "chips mixed": forward, "mix loaded": forward,
		"compost unloaded": forward, "cured mix screened": forward, "product screened": forward,
		"chips recovered": back, "product taken": leave,
		"failed loads hauled away": fall, "rejects": fall, "leachate, vessels": fall, "leachate, curing": fall,
		"oxygen, vessels": breath, "oxygen, curing": breath,
		"carbon dioxide, vessels": rise, "ammonia, vessels": rise, "water vapour, vessels": rise,
		"carbon dioxide, curing": rise, "ammonia, curing": rise, "water vapour, curing": rise,
	}
	g := sampleGraph()
	if len(g.streams) != len(want) {
		t.Errorf("%d streams, want %d", len(g.streams), len(want))
	}
	for _, s := range g.streams {
		if r, ok := want[s.flow.Name]; !ok || r != s.route {
			t.Errorf("%s takes route %d, want %d (known: %v)", s.flow.Name, s.route, r, ok)
		}
	}
}

// Stores stand from left to right in the order of the work.
func TestLayers(t *testing.T) {
	want := map[string]int{
		"cake holding": 0, "chips": 0, "mixer": 1, "vessels": 2, "curing pad": 3, "screen": 4, "product store": 5,
	}
	for _, s := range sampleGraph().stores {
		if layer, ok := want[s.name]; !ok || layer != s.layer {
			t.Errorf("%s is in layer %d, want %d", s.name, s.layer, layer)
		}
	}
}

// balanced draws the flows of a plant of some size and habits at steady state,
// under the names of the sample.
func balanced(t *rapid.T) []document.Stream {
	part := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	wet := map[string]float64{}
	// air lets a store trade with the air, and returns what is left.
	air := func(where string, mass, most float64) float64 {
		oxygen := mass * part("oxygen, "+where, 0, 0.3*most)
		out := map[string]float64{
			"carbon dioxide, ": 1.1 * oxygen,
			"ammonia, ":        mass * part("ammonia, "+where, 0, 0.01),
			"water vapour, ":   mass * part("vapour, "+where, 0, most),
			"leachate, ":       mass * part("leachate, "+where, 0, 0.05),
		}
		wet["oxygen, "+where] = oxygen
		mass += oxygen
		for _, name := range []string{"carbon dioxide, ", "ammonia, ", "water vapour, ", "leachate, "} {
			wet[name+where] = out[name]
			mass -= out[name]
		}
		return mass
	}
	cake := 1e3 * part("cake", 100, 1e6)
	wet["cake produced"] = cake
	wet["cake diverted"] = cake * part("diverted", 0, 0.4)
	wet["cake mixed"] = cake - wet["cake diverted"]
	wet["chips mixed"] = wet["cake mixed"] * part("chips", 0.3, 2)
	wet["mix loaded"] = wet["cake mixed"] + wet["chips mixed"]
	wet["failed loads hauled away"] = wet["mix loaded"] * part("failed", 0, 0.1)
	wet["compost unloaded"] = air("vessels", wet["mix loaded"]-wet["failed loads hauled away"], 0.4)
	wet["cured mix screened"] = air("curing", wet["compost unloaded"], 0.2)
	wet["rejects"] = wet["cured mix screened"] * part("rejects", 0, 0.1)
	wet["chips recovered"] = min(wet["cured mix screened"]*part("recovered", 0.1, 0.7), 0.9*wet["chips mixed"])
	wet["product screened"] = wet["cured mix screened"] - wet["rejects"] - wet["chips recovered"]
	wet["product taken"] = wet["product screened"]
	wet["chips delivered"] = wet["chips mixed"] - wet["chips recovered"]

	streams := flows()
	for i := range streams {
		streams[i].Value = wet[streams[i].Name]
	}
	return streams
}

// Streams touch the store over its height and no further, one below the
// other, and their widths are in proportion to their masses.
func TestStreamsFillStores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newFlowGraph(balanced(t))
		layOut(g, flowArea)
		const hair = 1e-6
		for _, s := range g.stores {
			y := s.top
			for _, in := range s.ins {
				if math.Abs(float64(in.in-y)) > hair {
					t.Fatalf("%s enters %s at %v, want %v", in.flow.Name, s.name, in.in, y)
				}
				y -= in.width
			}
			if y < s.top-s.height-hair {
				t.Fatalf("streams into %s reach below it", s.name)
			}
		}
		a := g.streams[0]
		for _, b := range g.streams {
			if b.width > thinnest && math.Abs(float64(b.width/a.width)/(b.flow.Value/a.flow.Value)-1) > hair {
				t.Fatalf("%s is %v wide for %v kg", b.flow.Name, b.width, b.flow.Value)
			}
		}
	})
}

// Outlines stay in the picture, and no label lies on another or leaves it,
// for plants of all proportions and sizes and in both systems of units.
func TestFlowLabelsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := balanced(t)
		sys := rapid.SampledFrom([]units.System{units.US, units.SI}).Draw(t, "system")
		l := layOut(newFlowGraph(flows), flowArea)
		for _, s := range l.streams {
			for _, part := range l.shape(s) {
				if p := part.Pos; part.Type != vg.CloseComp && !within(p, flowArea) {
					t.Fatalf("%s reaches %v", s.flow.Name, p)
				}
			}
		}
		labels := l.labels(func(v float64) string { return units.FormatNumber(document.Mass.In(v, sys)) })
		for i, a := range labels {
			box := a.box()
			if !within(box.Min, flowArea) || !within(box.Max, flowArea) {
				t.Fatalf("label %v leaves the picture: %v", a.lines, box)
			}
			for _, b := range labels[i+1:] {
				if overlap(box, b.box()) {
					t.Fatalf("labels %v and %v overlap", a.lines, b.lines)
				}
			}
		}
	})
}

// A name that is longer than the way between two stores is written in lines within it, in
// its band where that is wide.
func TestLongNamesFold(t *testing.T) {
	streams := flows()
	for i := range streams {
		if streams[i].Name == "cake mixed" {
			streams[i].Name = "cake and feedstocks mixed"
		}
	}
	l := layOut(newFlowGraph(streams), flowArea)
	for _, s := range l.streams {
		if s.flow.Name != "cake and feedstocks mixed" {
			continue
		}
		for _, label := range l.labels(units.FormatNumber) {
			if label.lines[0] != "cake and feedstocks" {
				continue
			}
			box := label.box()
			if len(label.lines) != 3 || box.Min.X < s.from.right() || box.Max.X > s.to.x {
				t.Errorf("%q is from %v to %v, the stores from %v to %v", label.lines, box.Min.X, box.Max.X, s.from.right(), s.to.x)
			}
			if s.width < 3*flowLine+2 || box.Max.Y > max(s.out, s.in) || box.Min.Y < min(s.out, s.in)-s.width {
				t.Errorf("%q is outside its band of %v", label.lines, s.width)
			}
			return
		}
	}
	t.Error("the label is not there")
}

func within(p vg.Point, r vg.Rectangle) bool {
	const hair = 0.01
	return p.X >= r.Min.X-hair && p.X <= r.Max.X+hair && p.Y >= r.Min.Y-hair && p.Y <= r.Max.Y+hair
}
