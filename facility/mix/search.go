package mix

import (
	"errors"
	"math"
	"slices"

	"loamcast/facility/material"
)

const (
	maxRounds = 45   // linear programs per branch and start
	freeMoves = 8    // rounds before the steps are damped
	lost      = 3    // rounds off the branch before it is given up
	settled   = 1e-9 // largest change of a mass, per batch, of a settled answer
)

// candidate is the answer of one branch.
type candidate struct {
	y       []float64
	rounds  int
	settled bool
}

// search runs every branch and returns the answers of those that have one. The
// error is the last failure of the solver, if any.
func (p *problem) search(objective Objective) ([]candidate, error) {
	var found []candidate
	var failure error
	for _, br := range material.Branches() {
		for _, start := range p.starts(br) {
			c, err := p.onBranch(br, objective, start)
			switch {
			case err == nil:
				found = append(found, c)
			case !errors.Is(err, errInfeasible): // else no mix lies on the branch
				failure = err
			}
		}
	}
	return found, failure
}

// onBranch solves the program at the tangent, moves the tangent to the answer
// and repeats until it stays. Where the tangent allows no answer, the nearest
// miss is taken instead, so that a bad start recovers. It returns
// errInfeasible if the answers stay off the branch.
func (p *problem) onBranch(br material.Branch, objective Objective, start []float64) (candidate, error) {
	c, off := candidate{y: start}, 0
	for !c.settled && c.rounds < maxRounds {
		c.rounds++
		next, err := p.round(br, objective, c)
		if err != nil {
			return c, err
		}
		change := 0.0
		for i := range next {
			change = max(change, math.Abs(next[i]-c.y[i]))
		}
		c.y = next
		c.settled = change <= settled*(1+slices.Max(next))
		if p.depth(br, c.y) >= -tolerance {
			off = 0
			continue
		}
		if off++; c.settled || off == lost {
			return c, errInfeasible
		}
	}
	return c, nil
}

// round solves the program at the tangent of c, firm if that has an answer, or
// else elastic, and returns the masses.
func (p *problem) round(br material.Branch, objective Objective, c candidate) ([]float64, error) {
	t, reach := p.tangent(br, c.y), p.reach(c.rounds, c.y)
	for _, elastic := range []bool{false, true} {
		q := p.program(t, objective, elastic)
		q.stayNear(c.y, reach)
		y, _, err := q.minimise()
		if err != nil && !errors.Is(err, errInfeasible) {
			return nil, err
		}
		if err == nil && sum(y[:len(p.units)]) > settled { // an empty batch has no tangent
			return y[:len(p.units)], nil
		}
	}
	return nil, errInfeasible
}

// reach bounds the change of each mass in a round: free at first, then ever
// smaller, so that answers which jump between two corners come to rest.
func (p *problem) reach(round int, y []float64) []float64 {
	if round <= freeMoves {
		return nil
	}
	part := 0.5 * math.Pow(0.5, float64(round-freeMoves))
	r := make([]float64, len(y))
	for i := range r {
		r[i] = part * (y[i] + 0.05*slices.Max(y))
	}
	return r
}

func sum(v []float64) float64 {
	total := 0.0
	for _, x := range v {
		total += x
	}
	return total
}
