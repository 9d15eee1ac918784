package mix

import (
	"math"
	"slices"

	"loamcast/facility/material"
)

// tangent is a branch of the volume model linearised at one mix: volume and
// margins per kg of each material. Both are proportional to the batch, so that
// the tangent goes through the origin.
type tangent struct {
	volume  []float64
	solid   []float64 // what is not free air
	air     []float64 // free air; nil where it is what solid leaves of the volume
	margins [material.NumMargins][]float64
}

// step is the part of the batch by which a mass is changed to find a slope.
const step = 1e-5

func (p *problem) tangent(br material.Branch, y []float64) tangent {
	var t tangent
	t.volume = make([]float64, len(p.units))
	for k := range t.margins {
		t.margins[k] = make([]float64, len(p.units))
	}
	mix := p.blend(y)
	h := step * mix.Total()
	for i, u := range p.units {
		up, upMargins := p.Bulk.OnBranch(mix.Plus(u.one.Times(h)), br)
		down, downMargins := p.Bulk.OnBranch(mix.Minus(u.one.Times(h)), br)
		t.volume[i] = (up - down) / (2 * h)
		for k := range t.margins {
			t.margins[k][i] = (upMargins[k] - downMargins[k]) / (2 * h)
		}
	}
	p.freeAir(&t, br, mix, h)
	return t
}

// freeAir fills in the tangent of free air, for changes of h kg. Without a
// structure of the heap it is what particles leave, at any mix.
func (p *problem) freeAir(t *tangent, br material.Branch, mix material.Parcel, h float64) {
	if !p.Bulk.Structure.Between {
		t.solid = p.each(func(u unit) float64 { return u.solid })
		return
	}
	t.solid, t.air = make([]float64, len(p.units)), make([]float64, len(p.units))
	for i, u := range p.units {
		upAir, up := p.Bulk.AirOnBranch(mix.Plus(u.one.Times(h)), br)
		downAir, down := p.Bulk.AirOnBranch(mix.Minus(u.one.Times(h)), br)
		t.air[i], t.solid[i] = (upAir-downAir)/(2*h), (up-down)/(2*h)
	}
}

// doses are kg per kg of cake at which starts are looked for.
var doses = []float64{0, 0.05, 0.1, 0.2, 0.3, 0.45, 0.7, 1, 2, 5}

// shine returns rays of mixes in which branches find a start: cake with ever
// more of one other material, as far as there is any, and with ever more of
// all of them.
func (p *problem) shine() [][][]float64 {
	var rays [][][]float64
	ray := func(takes func(u unit) bool) {
		var mixes [][]float64
		for _, dose := range doses {
			mixes = append(mixes, p.each(func(u unit) float64 {
				switch {
				case u.Kind == Cake:
					return 1
				case takes(u):
					return min(dose, u.Available/p.batch)
				}
				return 0
			}))
		}
		rays = append(rays, mixes)
	}
	ray(func(unit) bool { return true })
	for _, only := range p.units {
		if only.Kind != Cake {
			ray(func(u unit) bool { return u.Name == only.Name })
		}
	}
	if len(rays) == 2 { // of one other material only, and so the same
		return rays[:1]
	}
	return rays
}

// starts returns mixes to begin with on a branch: on each ray the first and
// the last mix that lie on it, or the mix least far off it if none does. Where
// the model is straight one start is as good as many.
func (p *problem) starts(br material.Branch) [][]float64 {
	var inside [][]float64
	var nearest []float64
	nearestDepth := math.Inf(-1)
	for _, ray := range p.rays {
		var first, last []float64
		for _, y := range ray {
			d := p.depth(br, y)
			if d > nearestDepth {
				nearest, nearestDepth = y, d
			}
			if d >= 0 {
				if first == nil {
					first = y
				} else {
					last = y
				}
			}
		}
		if first != nil {
			inside = append(inside, first)
		}
		if last != nil {
			inside = append(inside, last)
		}
	}
	if len(inside) == 0 || !br.Curved() {
		return [][]float64{nearest}
	}
	return inside
}

// depth returns how far inside a branch a mix lies, per kg; below 0 outside.
func (p *problem) depth(br material.Branch, y []float64) float64 {
	mix := p.blend(y)
	_, margins := p.Bulk.OnBranch(mix, br)
	return slices.Min(margins[:]) / mix.Total()
}
