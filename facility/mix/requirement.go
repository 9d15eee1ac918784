package mix

// requirement is a target as a linear row: coef·y ≥ least.
type requirement struct {
	target Target
	coef   []float64
	least  float64
	whole  float64 // the shortfall that counts as a relative miss of 1
}

// each returns f of every material.
func (p *problem) each(f func(u unit) float64) []float64 {
	v := make([]float64, len(p.units))
	for i, u := range p.units {
		v[i] = f(u)
	}
	return v
}

// requirements returns the targets asked for on the mix and the batch, with
// volumes by t. A miss is
// measured against the cake, which is fixed when misses are weighed: a C:N
// target, for one, against the nitrogen of the cake.
func (p *problem) requirements(t tangent) []requirement {
	all := [CakeMass]func(want float64) requirement{
		SolidsLow: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return u.one.Dry() - w*u.one.Total() }, massOf)
		},
		SolidsHigh: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return w*u.one.Total() - u.one.Dry() }, massOf)
		},
		CarbonToNitrogenLow: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return u.one.Carbon() - w*u.one.Nitrogen() }, nitrogenOf)
		},
		CarbonToNitrogenHigh: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return w*u.one.Nitrogen() - u.one.Carbon() }, nitrogenOf)
		},
		ChipsToCakeLow: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return chipsOf(u) - w*cakeOf(u) }, cakeOf)
		},
		ChipsToCakeHigh: func(w float64) requirement {
			return p.about(w, func(u unit) float64 { return w*cakeOf(u) - chipsOf(u) }, cakeOf)
		},
		FreeAirSpaceLow: func(w float64) requirement {
			r := p.about(w, func(unit) float64 { return 0 }, cakeOf)
			if t.air != nil {
				return r.plus(-w, t.solid).plus(1-w, t.air)
			}
			return r.plus(-1, t.solid).plus(1-w, t.volume)
		},
		BulkDensityHigh: func(w float64) requirement {
			r := p.about(w, func(u unit) float64 { return -u.one.Total() }, cakeOf)
			return r.plus(w, t.volume)
		},
		BatchVolume: func(w float64) requirement {
			w /= p.batch
			r := requirement{coef: make([]float64, len(p.units)), least: -w, whole: w}
			return r.plus(-1, t.volume)
		},
		BatchWeight: func(w float64) requirement {
			w /= p.batch
			return requirement{coef: p.each(func(unit) float64 { return -1 }), least: -w, whole: w}
		},
	}
	var out []requirement
	for i, build := range all {
		target := Target(i)
		if want, asked := p.required(target); asked {
			r := build(want)
			r.target = target
			out = append(out, r)
		}
	}
	return out
}

// about returns a requirement through the origin. A miss counts relative to
// want × the mean cake's amount of the quantity that the target is per.
func (p *problem) about(want float64, coef, per func(u unit) float64) requirement {
	amount, cakes := 0.0, 0.0
	for _, u := range p.units {
		if u.Kind == Cake {
			amount += per(u)
			cakes++
		}
	}
	return requirement{coef: p.each(coef), whole: max(want*amount/cakes, 1e-6)}
}

// plus adds f × v to the coefficients.
func (r requirement) plus(f float64, v []float64) requirement {
	for i := range r.coef {
		r.coef[i] += f * v[i]
	}
	return r
}

func massOf(u unit) float64     { return u.one.Total() }
func nitrogenOf(u unit) float64 { return u.one.Nitrogen() }

func chipsOf(u unit) float64 {
	if u.Kind.IsChips() {
		return u.delivered
	}
	return 0
}

func cakeOf(u unit) float64 {
	if u.Kind == Cake {
		return u.delivered
	}
	return 0
}

func cakeMassOf(u unit) float64 {
	if u.Kind == Cake {
		return 1
	}
	return 0
}
