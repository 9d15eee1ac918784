package stats

import (
	"fmt"
	"math/rand/v2"
)

// RisingShares returns the shares of the runs in which something is so, by place,
// and beside them, from so many resampled sets of runs, shares that are as likely
// (bootstrap by rows; Efron and Tibshirani 1993, from memory). Each run is a row of
// answers by place, such as years; all have the same length, and places of one run
// may depend on each other.
//
// From place to place the share grows, or stays: its estimate is the isotonic one,
// by pooling neighbours that say otherwise. Where falls is true the share may be
// less than at the place before. The resampling is seeded: the same runs give the
// same shares.
func RisingShares(runs [][]bool, falls []bool, resamples int) ([][]float64, error) {
	if len(runs) < 2 {
		return nil, fmt.Errorf("rising shares need 2 runs or more, not %d", len(runs))
	}
	places := len(falls)
	for _, run := range runs {
		if len(run) != places {
			return nil, fmt.Errorf("runs of %d and %d places", places, len(run))
		}
	}
	r := rand.New(rand.NewPCG(1, uint64(len(runs))))
	out := make([][]float64, resamples+1)
	for i := range out {
		out[i] = make([]float64, places)
		for k := range runs {
			if i > 0 {
				k = r.IntN(len(runs))
			}
			for place, so := range runs[k] {
				if so {
					out[i][place] += 1 / float64(len(runs))
				}
			}
		}
		pool(out[i], falls)
	}
	return out, nil
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
