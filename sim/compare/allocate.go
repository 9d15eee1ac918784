package compare

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// Allocate spends runs where they make the choice surest, after First for every
// option: on those close to the best and on those that vary much. It stops when
// the estimated chance of the right choice is enough, or with Most runs. This is
// optimal computing budget allocation: with σ the standard deviations, d the
// leads of the best b over each other option, the numbers N go as
//
//	N(i) ∝ (σ(i)/d(i))²,   N(b) = σ(b)·√(Σ N(i)²/σ(i)²)
//
// (Chen, Lin, Yücesan and Chick 2000; from memory). The chance is an estimate and
// looked at many times, so stopping by it is somewhat rash; there is no guarantee
// as of [KimNelson].
//
// As in [Rinott], and as the formula assumes, no two options are asked for the
// same replication.
func Allocate(ctx context.Context, options []Option, setup Setup, enough float64) (Selection, error) {
	if err := setup.check(options); err != nil {
		return Selection{}, err
	}
	if err := checkConfidence(enough, len(options)); err != nil {
		return Selection{}, fmt.Errorf("chance asked for: %w", err)
	}
	s := newSampler(options, setup, false)
	more := s.everyone(setup.First)
	for {
		if err := s.extend(ctx, more); err != nil {
			return Selection{}, err
		}
		best := bestMean(s.values, setup.Goal)
		chance := chanceOf(best, s.values, setup.Goal, separateLoss)
		step := min(2*len(options), setup.Most-s.runs)
		weights := shares(best, s.values, setup.Goal)
		if chance >= enough || step == 0 || weights == nil {
			return Selection{Best: best, Reached: chance >= enough, Chance: chance, Values: s.values}, nil
		}
		more = s.share(step, weights)
	}
}

// shares returns the share of runs that each option should have, or nil when none
// varies, so that more runs teach nothing.
func shares(best int, values [][]float64, goal Goal) []float64 {
	lead := stat.Mean(values[best], nil)
	variances, weights := make([]float64, len(values)), make([]float64, len(values))
	var spread, forBest, sum float64
	for i, xs := range values {
		variances[i] = stat.Variance(xs, nil)
		spread = max(spread, variances[i])
	}
	for i, xs := range values {
		if i == best {
			continue
		}
		// Equal means would ask for everything; a thousandth of the spread is close.
		d2 := max(math.Pow(goal.lead(lead, stat.Mean(xs, nil)), 2), 1e-6*spread)
		if d2 > 0 {
			weights[i] = variances[i] / d2
			forBest += variances[i] / (d2 * d2)
		}
		sum += weights[i]
	}
	weights[best] = math.Sqrt(variances[best] * forBest)
	sum += weights[best]
	if sum == 0 {
		return nil
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}

// share hands out step runs one by one, each to the option furthest behind its
// share of all runs.
func (s *sampler) share(step int, weights []float64) []int {
	more := s.everyone(0)
	total := float64(s.runs + step)
	for range step {
		next, deficit := 0, math.Inf(-1)
		for i, w := range weights {
			if d := w*total - float64(len(s.values[i])+more[i]); d > deficit {
				next, deficit = i, d
			}
		}
		more[next]++
	}
	return more
}
