package expand

import (
	"cmp"
	"math"
	"slices"
)

// program is the search as arithmetic: what each step costs, and how long each
// configuration lasts.
type program struct {
	*lattice
	years  int
	cost   [][]float64 // by step, and the year from whose start it is in service
	lasts  []int       // by configuration, the last year kept; −1 for none
	barred []bool      // configurations that cannot be built
	// yearly is what a configuration costs beside in each year that it is there; nil for
	// nothing.
	yearly [][]float64
}

// path is a plan by its configurations, one for each year that is kept.
type path struct {
	cost    float64
	configs []int
}

// solve returns how far the target can be kept, −1 if not even in the first
// year, and the plans that keep it so far, cheapest first: for each set of steps
// the cheapest order and dates, if no step can be left out of it without making it
// dearer or impossible, and if no cheaper plan is the same but for the tail.
//
// With W(y, c) the least cost of having configuration c in year y with the target
// kept through it, and a(i, y) that of step i in service from year y,
//
//	W(y, c) = min over b ≤ c of W(y−1, b) + Σ a(i, y) over the steps i of c − b, and h(y, c)
//
// what the configuration costs beside in the year, by what it hauls by contract,
// where c lasts through y, and infinite elsewhere. Among equals, steps come late.
func (p *program) solve() (through int, plans []path) {
	worth := p.infinite()
	worth[0] = 0
	var from [][]int
	for y := range p.years {
		next, origin := p.build(worth, y)
		if !slices.ContainsFunc(next, finite) {
			return y - 1, p.minimal(worth, from)
		}
		worth, from = next, append(from, origin)
	}
	return p.years - 1, p.minimal(worth, from)
}

func (p *program) infinite() []float64 {
	out := make([]float64, p.size)
	for c := range out {
		out[c] = math.Inf(1)
	}
	return out
}

func finite(x float64) bool { return !math.IsInf(x, 1) }

// build returns the costs of the configurations in a year from those of the year
// before, and from which of these each comes.
func (p *program) build(worth []float64, year int) (next []float64, origin []int) {
	next, origin = slices.Clone(worth), make([]int, p.size)
	for c := range origin {
		origin[c] = c
	}
	for step := range p.most {
		for c := range p.size {
			if p.count(c, step) == p.most[step] {
				continue
			}
			more := c + p.strides[step]
			if cost := next[c] + p.cost[step][year]; finite(cost) && cost <= next[more] {
				next[more], origin[more] = cost, origin[c]
			}
		}
	}
	for c := range next {
		if p.lasts[c] < year || p.barred[c] {
			next[c] = math.Inf(1)
		} else if p.yearly != nil {
			next[c] += p.yearly[c][year]
		}
	}
	return next, origin
}

// minimal traces the plans from which nothing can be left out, cheapest first.
func (p *program) minimal(worth []float64, from [][]int) []path {
	if len(from) == 0 {
		return nil
	}
	var plans []path
	for c, cost := range worth {
		if finite(cost) && p.needsAll(worth, c) {
			plans = append(plans, p.trace(c, cost, from))
		}
	}
	slices.SortStableFunc(plans, func(a, b path) int { return cmp.Compare(a.cost, b.cost) })
	return p.distinct(plans)
}

// tail is the share of the horizon at its end in which another step makes no other
// plan: what is built for the last year or two is decided when that is seen.
const tail = 0.1

// distinct leaves out the plans that differ from a cheaper one only by what comes
// in the tail.
func (p *program) distinct(plans []path) []path {
	var out []path
	seen := map[int]bool{}
	for _, plan := range plans {
		before := plan.configs[max(0, len(plan.configs)-1-int(tail*float64(p.years)))]
		if !seen[before] {
			seen[before] = true
			out = append(out, plan)
		}
	}
	return out
}

// needsAll reports whether each step of a configuration makes the plan cheaper, or
// possible.
func (p *program) needsAll(worth []float64, config int) bool {
	for step := range p.most {
		if p.count(config, step) > 0 && worth[config-p.strides[step]] <= worth[config] {
			return false
		}
	}
	return true
}

func (p *program) trace(end int, cost float64, from [][]int) path {
	configs := make([]int, len(from))
	for y := len(from) - 1; y >= 0; y-- {
		configs[y] = end
		end = from[y][end]
	}
	return path{cost: cost, configs: configs}
}
