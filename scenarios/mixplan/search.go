package mixplan

import (
	"context"
	"math"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/facility/recycle"
)

const (
	mostRounds   = 20
	freeRounds   = 8    // then the steps are halved
	fewestAtOnce = 20   // part of the chips to which one step may go down
	closeness    = 1e-4 // largest change of the recipe, m3 per m3 of cake
)

// run alternates between the two questions: what does a recipe leave of its
// chips when it is loaded again and again, and what is the best mix of the cake
// with that? It begins with the file's recipe and ends when the best mix is the
// recipe that it was made from. Where the best mix jumps, as it may when no mix
// meets the targets, it answers with the round that came nearest to that.
func (d *designer) run(ctx context.Context) (*designed, error) {
	var nearest *designed
	var asRun *recycle.Steady
	apart := math.Inf(1)
	next := stepper{part: 1}
	recipe := recycle.AsRun(d.Model, d.Month)
	for range mostRounds {
		round, err := d.round(ctx, recipe)
		if err != nil {
			return nil, err
		}
		if asRun == nil {
			asRun = round.steady
		}
		round.asRun = asRun
		tried, best := round.tried(recipe), round.best()
		if off := distance(best, tried); nearest == nil || off < apart {
			nearest, apart = round, off
		}
		if apart <= closeness {
			nearest.stays = true
			break
		}
		recipe = next.after(tried, best)
	}
	return nearest, nil
}

// round asks both questions of one recipe.
func (d *designer) round(ctx context.Context, recipe recycle.Recipe) (*designed, error) {
	steady, err := d.Steady(ctx, recipe)
	if err != nil {
		return nil, err
	}
	out := &designed{designer: d, steady: steady, design: d.design(steady)}
	if out.result, err = out.design.Solve(); err != nil {
		return nil, err
	}
	return out, nil
}

// design is the mix to be found for the cake of a load, with the recovered
// chips that the screen gives back of it.
func (d *designer) design(s *recycle.Steady) mix.Design {
	fresh := d.material("fresh chips", mix.FreshChips, d.FreshChips())
	fresh.Cost = d.freshPrice() / fresh.BulkDensity
	materials := []mix.Material{d.material("cake", mix.Cake, d.Cake()), fresh}
	if back := s.Split.Recovered; back.Total() > 0 {
		recovered := d.material(recoveredChips, mix.RecoveredChips, back)
		recovered.Available = back.Total()
		if d.wishes.Designed { // a run takes recovered chips as far as they go
			recovered.Least = recovered.Available
		}
		materials = append(materials, recovered)
	}
	return mix.Design{
		Materials: append(materials, d.wishes.Amendments...),
		Targets:   d.wishes.Targets,
		Objective: mix.LeastCost,
		Cake:      s.Parts.Cake.Total(),
		Bulk:      d.Model.Bulk,
		Weights:   mix.DefaultWeights(),
	}
}

// freshPrice returns USD per m3 of fresh chips, or 1 without a price, which
// makes the cheapest mix the one with the fewest fresh chips.
func (d *designer) freshPrice() float64 {
	if d.wishes.Priced {
		return d.wishes.ChipsPrice
	}
	return 1
}

func (d *designer) material(name string, kind mix.Kind, p material.Parcel) mix.Material {
	return mix.Material{
		Name: name, Kind: kind, Composition: p, BulkDensity: d.Model.Bulk.Density(p), Available: mix.Unlimited,
	}
}

// proposal is a recipe, and the recovered chips that a load of it takes, m3 per m3 of cake.
type proposal struct {
	recycle.Recipe
	recovered float64
}

// tried is the recipe of the round.
func (d *designed) tried(r recycle.Recipe) proposal {
	return proposal{r, d.steady.Volumes.Recovered / d.steady.Volumes.Cake}
}

// best is the best mix with what a load of the round gives back.
func (d *designed) best() proposal {
	var cake, recovered float64
	r := recycle.Recipe{MostRecovered: math.Inf(1)}
	limited := false
	for i, m := range d.design.Materials {
		volume := d.result.Mass[i] / m.BulkDensity
		switch m.Kind {
		case mix.Cake:
			cake += volume
		case mix.FreshChips:
			r.Chips += volume
		case mix.RecoveredChips:
			r.Chips += volume
			recovered = volume
			limited = d.result.Mass[i] < m.Available*(1-1e-6)
		default:
			r.Other.Add(m.Composition.Times(d.result.Mass[i] / m.Composition.Total()))
		}
	}
	r.Chips /= cake
	recovered /= cake
	if limited {
		r.MostRecovered = recovered
	}
	r.Other = r.Other.Times(1 / cake)
	return proposal{r, recovered}
}

// distance returns how far two recipes are apart, m3 or t per m3 of cake.
func distance(a, b proposal) float64 {
	d := max(math.Abs(a.Chips-b.Chips), math.Abs(a.Other.Total()-b.Other.Total())/1000)
	if a.MostRecovered == b.MostRecovered { // also when both are without limit
		return d
	}
	return max(d, math.Abs(a.recovered-b.recovered))
}

// stepper chooses the recipe to try next.
type stepper struct {
	rounds           int
	lastChips, lastF float64 // the chips tried last, and the change that was found best
	part, lastG      float64 // of the change that a step goes, and the change of recovered chips
}

// after returns the recipe to try after one that led to best: that itself, with
// the chips extrapolated by the secant to where they would not change. After freeRounds
// it goes part of the way, a smaller one as long as the search swings to and fro and a
// larger one as long as it does not, so that it comes to rest.
func (s *stepper) after(tried, best proposal) recycle.Recipe {
	s.rounds++
	best.Chips = max(best.Chips, tried.Chips/fewestAtOnce) // a load without any has no chips to recover
	f, g := best.Chips-tried.Chips, best.recovered-tried.recovered
	next := best.Recipe
	switch {
	case s.rounds > freeRounds:
		if f*s.lastF+g*s.lastG < 0 {
			s.part /= 2
		} else {
			s.part = min(1, 2*s.part)
		}
		next.Chips = tried.Chips + s.part*f
		next.Other = tried.Other.Times(1 - s.part).Plus(best.Other.Times(s.part))
		if tried.MostRecovered != best.MostRecovered {
			next.MostRecovered = tried.recovered + s.part*g
		}
	case s.rounds > 1:
		if slope := (f - s.lastF) / (tried.Chips - s.lastChips); slope < -0.2 {
			next.Chips = max(tried.Chips-f/slope, best.Chips/2)
		}
	}
	s.lastChips, s.lastF, s.lastG = tried.Chips, f, g
	return next
}
