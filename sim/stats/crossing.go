package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// resamples of the runs tell how far the place of a crossing may be off.
const resamples = 2000

// Crossing says where the share of runs in which something is so first passes a
// limit. Each run is a row of answers by place, such as years; all have the same
// length n, and places of one run may depend on each other. It returns the first
// and the last place at which the crossing may lie, n for beyond the last, as a
// percentile interval of so many resampled sets of runs (bootstrap by rows; Efron
// and Tibshirani 1993, from memory).
//
// From place to place the share grows, or stays: its estimate is the isotonic one,
// by pooling neighbours that say otherwise. Where falls is true the share may be
// less than at the place before. The resampling is seeded: the same runs give the
// same places.
func Crossing(runs [][]bool, falls []bool, limit, level float64) (low, high int, err error) {
	if err := checkLevel(level); err != nil {
		return 0, 0, err
	}
	if len(runs) < 2 {
		return 0, 0, fmt.Errorf("a crossing needs 2 runs or more, not %d", len(runs))
	}
	places := len(falls)
	for _, run := range runs {
		if len(run) != places {
			return 0, 0, fmt.Errorf("runs of %d and %d places", places, len(run))
		}
	}
	r := rand.New(rand.NewPCG(1, uint64(len(runs))))
	found := make([]int, resamples)
	shares := make([]float64, places)
	for i := range found {
		clear(shares)
		for range runs {
			for place, so := range runs[r.IntN(len(runs))] {
				if so {
					shares[place] += 1 / float64(len(runs))
				}
			}
		}
		pool(shares, falls)
		found[i] = slices.IndexFunc(shares, func(s float64) bool { return s > limit+1e-9 })
		if found[i] < 0 {
			found[i] = places
		}
	}
	slices.Sort(found)
	tail := int(math.Floor((1 - level) / 2 * resamples))
	return found[tail], found[resamples-1-tail], nil
}

// pool makes values that never fall but where they may, by putting neighbours that
// do at their common mean (pool adjacent violators).
func pool(values []float64, falls []bool) {
	type block struct {
		mean float64
		n    int
	}
	var blocks []block
	for i, v := range values {
		b := block{v, 1}
		for k := len(blocks) - 1; k >= 0 && blocks[k].mean > b.mean && !falls[i-b.n+1]; k-- {
			b = block{(b.mean*float64(b.n) + blocks[k].mean*float64(blocks[k].n)) / float64(b.n+blocks[k].n), b.n + blocks[k].n}
			blocks = blocks[:k]
		}
		blocks = append(blocks, b)
	}
	i := 0
	for _, b := range blocks {
		for range b.n {
			values[i] = b.mean
			i++
		}
	}
}
