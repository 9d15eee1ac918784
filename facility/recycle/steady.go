package recycle

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/screening"
)

// Recipe is what a load is mixed of, per m3 of cake.
type Recipe struct {
	Chips float64 // m3, loose: recovered as far as they go, fresh for the rest
	// MostRecovered limits the recovered chips, m3; +Inf takes all there are.
	MostRecovered float64
	Other         material.Parcel // amendments
	Product       float64         // m3 of what the screen lets through
}

// AsRun returns the recipe that a run uses for loads begun in a month, with
// amendments that are never short.
func AsRun(m *plant.Model, month time.Month) Recipe {
	r := Recipe{Chips: m.Recipe.ChipsIn(month), MostRecovered: math.Inf(1)}
	for i := range m.Amendments {
		a := &m.Amendments[i]
		if a.Source == plant.FromProduct {
			r.Product += a.PerCake[month-1]
			continue
		}
		r.Other.Add(a.Material.OfWet(a.Material.BulkDensity * a.PerCake[month-1]))
	}
	return r
}

// Steady is the load that a recipe settles on, and what becomes of it.
type Steady struct {
	Load    material.Parcel // a full vessel
	Parts   Parts           // that make it up
	Volumes Volumes
	Split   screening.Split // of the load at the screen; Recovered is what it gives back
	Journey *Journey
	Makeup  float64 // fresh per total coarse dry matter charged
	Cycles  int     // until it was steady, from fresh chips alone
	// Of the stay in the vessel and of the time on the pad.
	StaySwing, CuringSwing Swing
	// WateredInTurn says that some lots were dry enough to get water and others, for
	// the chips of those, were not. What is told is a lot that gets it.
	WateredInTurn bool
}

// Parts are the materials of a load, kg each by component.
type Parts struct{ Cake, Fresh, Recovered, Other material.Parcel }

// Volumes are those of the parts, loose, m3; of Load as mixed.
type Volumes struct{ Cake, Fresh, Recovered, Load float64 }

// Steady runs the loop of a recipe from fresh chips alone until the recovered
// chips stay the same. Each cycle is integrated directly, as a full vessel.
func (l Loop) Steady(ctx context.Context, r Recipe) (*Steady, error) {
	if !(r.Chips > 0) {
		return nil, fmt.Errorf("%.3g m3 of chips for each m3 of cake: vessels are loaded with chips", r.Chips)
	}
	c := &cycling{Loop: l, ctx: ctx, aimed: l.Stay}
	steady, err := screening.SteadyRecycle(screening.Cycle{
		Mix:     c.charge(r),
		Process: c.process,
		Screen:  l.Model.Screening.Settings,
	})
	if err := errors.Join(c.failed, err); err != nil {
		return nil, err
	}
	r.Other.Add(c.returned)
	s := l.vesselful(steady, r, c.journey)
	s.StaySwing, s.CuringSwing = swingOf(c.stays), swingOf(c.curings)
	s.WateredInTurn = c.watered > 0 && c.watered < len(c.stays)
	return s, nil
}

const (
	freeCycles = 30  // in which the release rules may lengthen and shorten the stay
	mostCycles = 500 // far more than recycling needs to become steady
)

// cycling carries one load after another through vessel and pad.
//
// The release rules make small jumps: a load that just misses a criterion stays
// a step longer, comes out drier, and gives back chips with which the next load
// just meets it; a lot that is just too dry gets water, and its chips make the next
// wet enough. So that this does not go on for ever, times never get shorter again
// after freeCycles, and lots get water once one has.
type cycling struct {
	Loop
	ctx     context.Context // ends the cycling
	journey *Journey        // the last
	aimed   float64         // stay, h
	heldFor string          // that the stay was last lengthened for
	cycles  int
	failed  error

	stays, curings []float64 // h, of the last loads with which times were free
	watered        int       // of these

	product  material.Parcel // a m3 of what the screen let through of the last load
	returned material.Parcel // of it, that went into the mix of 1 m3 of cake
}

// charge mixes the recipe with product of the load before.
func (c *cycling) charge(r Recipe) func(material.Parcel) (batch, added material.Parcel) {
	return func(recovered material.Parcel) (batch, added material.Parcel) {
		c.returned = c.product.Times(r.Product)
		return c.Loop.charge(c.Cake().Plus(r.Other).Plus(c.returned), r)(recovered)
	}
}

func (c *cycling) process(batch material.Parcel) material.Parcel {
	c.cycles++
	if c.failed == nil && c.cycles > mostCycles {
		c.failed = screening.ErrNotSteady
	}
	if c.failed == nil {
		c.failed = c.ctx.Err()
	}
	if c.failed != nil {
		return material.Parcel{} // steady at once
	}
	full := c.Full(batch)
	j, err := c.Travel(c.ctx, batch.Times(full))
	if c.failed = errors.Join(c.failed, err); c.failed != nil {
		return material.Parcel{} // steady at once
	}
	if j.HeldFor != "" {
		c.heldFor = j.HeldFor
	} else if c.heldFor != "" && j.Stay()-j.VesselDrying > c.aimed {
		j.HeldFor = c.heldFor
	}
	if c.cycles > freeCycles-watched && c.cycles <= freeCycles {
		c.stays, c.curings = append(c.stays, j.Stay()-j.VesselDrying), append(c.curings, j.Cured()-j.PadDrying)
		if j.Watered() {
			c.watered++
		}
	}
	if c.cycles > freeCycles {
		c.Stay, c.leastCuring = max(c.Stay, j.Stay()-j.VesselDrying), max(c.leastCuring, j.Cured()-j.PadDrying)
		c.wetted = c.wetted || j.Watered()
	}
	c.journey = j
	c.product = c.cubicMetreOf(screening.Screen(j.End(), c.Model.Screening.Settings).Product)
	return j.End().Times(1 / full)
}

// vesselful scales the steady loop, which is for 1 m3 of cake, to a full vessel.
func (l Loop) vesselful(loop screening.Steady, r Recipe, j *Journey) *Steady {
	b, full := l.Model.Bulk, l.Full(loop.Batch)
	cake, fresh, other := l.Cake().Times(full), loop.Fresh.Times(full), r.Other.Times(full)
	load := loop.Batch.Times(full)
	recovered := load.Minus(cake).Minus(fresh).Minus(other)
	return &Steady{
		Load:  load,
		Parts: Parts{Cake: cake, Fresh: fresh, Recovered: recovered, Other: other},
		Volumes: Volumes{
			Cake: b.Volume(cake), Fresh: b.Volume(fresh), Recovered: b.Volume(recovered), Load: b.Volume(load),
		},
		Split: screening.Split{
			Product:   loop.Split.Product.Times(full),
			Recovered: loop.Split.Recovered.Times(full),
			Rejects:   loop.Split.Rejects.Times(full),
		},
		Journey: j,
		Makeup:  loop.Makeup,
		Cycles:  loop.Iterations,
	}
}

// charge mixes a feed with the chips of a recipe.
func (l Loop) charge(feed material.Parcel, r Recipe) func(material.Parcel) (batch, added material.Parcel) {
	fresh := l.FreshChips()
	most := min(r.Chips, r.MostRecovered)
	return func(recovered material.Parcel) (batch, added material.Parcel) {
		have := l.Model.Bulk.Volume(recovered)
		if have > most {
			recovered, have = recovered.Times(most/have), most
		}
		added = fresh.Times(r.Chips - have)
		return feed.Plus(recovered).Plus(added), added
	}
}
