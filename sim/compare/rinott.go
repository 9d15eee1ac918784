package compare

import (
	"context"
	"math"

	"gonum.org/v1/gonum/stat"
)

// Rinott chooses in two stages: First replications of every option tell how much
// each varies, then each gets as many as its own spread S calls for,
//
//	N = max(First, ⌈(h S / Indifference)²⌉)
//
// with h of [RinottConstant], and the best mean is chosen (Rinott 1978; Law,
// Simulation Modeling and Analysis, ch. 10; from memory).
//
// Its proof needs options that are independent, so no two are asked for the same
// replication: of k options number i gets the replications i, i + k, i + 2k, ….
// Where options share their luck, [KimNelson] makes use of that. When N adds up
// to more than Most, the second stage of each is cut in proportion.
func Rinott(ctx context.Context, options []Option, setup Setup, zone Zone) (Selection, error) {
	if err := checkAll(options, setup, zone); err != nil {
		return Selection{}, err
	}
	s := newSampler(options, setup, false)
	if err := s.extend(ctx, s.everyone(setup.First)); err != nil {
		return Selection{}, err
	}
	h := RinottConstant(len(options), setup.First, zone.Confidence)
	more := make([]float64, len(options))
	var sum float64
	for i, xs := range s.values {
		need := math.Ceil(h * h * stat.Variance(xs, nil) / (zone.Indifference * zone.Indifference))
		need = min(need, math.MaxInt32) // beyond any Most, but a number to reckon with
		more[i] = max(need-float64(setup.First), 0)
		sum += more[i]
	}
	left := float64(setup.Most - s.runs)
	reached := sum <= left
	second := make([]int, len(options))
	for i, m := range more {
		if !reached {
			m = math.Floor(m * left / sum)
		}
		second[i] = int(m)
	}
	if err := s.extend(ctx, second); err != nil {
		return Selection{}, err
	}
	best := bestMean(s.values, setup.Goal)
	return Selection{
		Best:    best,
		Reached: reached,
		Chance:  chanceOf(best, s.values, setup.Goal, separateLoss),
		Values:  s.values,
	}, nil
}

func checkAll(options []Option, setup Setup, zone Zone) error {
	if err := setup.check(options); err != nil {
		return err
	}
	return zone.check(len(options))
}

// bestMean returns the option with the best mean; of equals, the first.
func bestMean(values [][]float64, goal Goal) int {
	best, lead := 0, stat.Mean(values[0], nil)
	for i, xs := range values {
		if m := stat.Mean(xs, nil); goal.better(m, lead) {
			best, lead = i, m
		}
	}
	return best
}
