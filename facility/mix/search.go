package mix

import (
	"errors"
	"math"
	"slices"

	"loamcast/facility/material"
)

const (
	maxRounds = 60   // linear programs per branch
	freeMoves = 8    // rounds before the steps are damped
	settled   = 1e-9 // largest change of a mass, per batch, of a settled answer
)

// candidate is the answer of one branch.
type candidate struct {
	y       []float64
	rounds  int
	settled bool
	last    program // the program that gave y
}

// search runs every branch and returns the answers of those that have one. The
// error is the last failure of the solver, if any.
func (p *problem) search(objective Objective) ([]candidate, error) {
	var found []candidate
	var failure error
	for _, br := range material.Branches() {
		c, err := p.onBranch(br, objective)
		switch {
		case err == nil:
			found = append(found, c)
		case !errors.Is(err, errInfeasible): // else no mix lies on the branch
			failure = err
		}
	}
	return found, failure
}

// onBranch solves the program at the tangent, moves the tangent to the answer
// and repeats until it stays. Where the targets cannot be met at the tangent,
// the nearest miss is the next answer, so that a bad start recovers.
func (p *problem) onBranch(br material.Branch, objective Objective) (candidate, error) {
	c := candidate{y: p.seed(br)}
	for c.rounds = 1; c.rounds <= maxRounds; c.rounds++ {
		t := p.tangent(br, c.y)
		reach := p.reach(c.rounds, c.y)
		c.last = p.program(t, objective, false)
		c.last.stayNear(c.y, reach)
		next, _, err := c.last.minimise()
		if errors.Is(err, errInfeasible) {
			c.last = p.program(t, objective, true)
			c.last.stayNear(c.y, reach)
			next, _, err = c.last.minimise()
		}
		if err != nil {
			return c, err
		}
		next = next[:len(p.units)]
		change := 0.0
		for i := range next {
			change = max(change, math.Abs(next[i]-c.y[i]))
		}
		if total := sum(next); total < settled { // an empty batch has no tangent
			return c, errInfeasible
		}
		c.y = next
		if change <= settled*(1+slices.Max(next)) {
			c.settled = true
			return c, nil
		}
	}
	return c, nil
}

// reach bounds the change of each mass in a round: free at first, then ever
// smaller, so that answers which jump between two corners come to rest.
func (p *problem) reach(round int, y []float64) []float64 {
	if round <= freeMoves {
		return nil
	}
	part := 0.5 * math.Pow(0.75, float64(round-freeMoves))
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
