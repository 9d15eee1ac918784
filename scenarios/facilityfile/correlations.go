package facilityfile

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// correlations reads which uncertain inputs go together.
func (r *reader) correlations() {
	taken := map[[2]int]bool{}
	for _, m := range r.root.ListIf("correlations") {
		rank := m.Quantity("rank", units.Ratio, yamlfile.Between(leastRank, mostRank))
		a, b, good := r.between(m)
		if !good || !m.Good("rank") {
			continue
		}
		pair := [2]int{min(a, b), max(a, b)}
		if taken[pair] {
			m.Error("between", "this pair is there already", "keep one of the two")
			continue
		}
		taken[pair] = true
		r.p.Correlations = append(r.p.Correlations, Correlation{A: a, B: b, Rank: rank})
	}
	if !r.root.Good("correlations") || len(r.p.Correlations) == 0 {
		return
	}
	joined, possible := newCopula(len(r.p.Inputs), r.p.Correlations)
	if !possible {
		r.root.Error("correlations", "these correlations contradict one another", "bring them nearer to 0: what goes with two others makes those go together")
		return
	}
	r.p.copula = joined
}

// between reads the places of the two inputs of a correlation.
func (r *reader) between(m *yamlfile.Map) (a, b int, good bool) {
	keys := m.Texts("between")
	switch {
	case !m.Has("between"):
		m.Error("between", "the two inputs are missing", "add a line such as between: [solids.growth, money.tipping]")
		return 0, 0, false
	case !m.Good("between"):
		return 0, 0, false
	case len(keys) != 2 || keys[0] == keys[1]:
		m.Error("between", "a correlation has two different inputs", "write between: [one input, another]")
		return 0, 0, false
	}
	place := [2]int{}
	for k, key := range keys {
		place[k] = slices.IndexFunc(r.p.Inputs, func(u Uncertain) bool { return u.Key == key })
		if place[k] < 0 {
			m.Error("between", fmt.Sprintf("%q is not one of the uncertain inputs", key), "write inputs as the list uncertain has them")
			return 0, 0, false
		}
	}
	return place[0], place[1], true
}

// copula joins independent uniform numbers so that they have given rank
// correlations and stay uniform each: a Gaussian copula. Row i holds the weights
// of the normal scores of the numbers 0 to i, and is nil for one that depends on
// none before it.
//
// The rank (Spearman) correlation ρ of two normal variables of correlation r is
// (6/π)·arcsin(r/2), so that r = 2·sin(π·ρ/6) (Pearson 1907, from memory). Ranks
// do not change when each variable is then given a distribution of its own.
type copula [][]float64

// newCopula returns false if no variables can have all these correlations.
func newCopula(n int, correlations []Correlation) (copula, bool) {
	matrix := mat.NewSymDense(n, nil)
	for i := range n {
		matrix.SetSym(i, i, 1)
	}
	for _, c := range correlations {
		matrix.SetSym(c.A, c.B, 2*math.Sin(math.Pi*c.Rank/6))
	}
	var factor mat.Cholesky
	if !factor.Factorize(matrix) || factor.Cond() > 1e10 {
		return nil, false
	}
	var lower mat.TriDense
	factor.LTo(&lower)
	rows := make(copula, n)
	for i := range n {
		row := make([]float64, i+1)
		for j := range row {
			row[j] = lower.At(i, j)
		}
		if slices.ContainsFunc(row[:i], func(w float64) bool { return w != 0 }) {
			rows[i] = row
		}
	}
	return rows, true
}

// join replaces independent uniform numbers by joined ones.
func (c copula) join(u []float64) {
	if c == nil {
		return
	}
	scores := make([]float64, len(u))
	for i, p := range u {
		scores[i] = distuv.UnitNormal.Quantile(p)
	}
	for i, row := range c {
		if row == nil {
			continue
		}
		sum := 0.0
		for j, w := range row {
			sum += w * scores[j]
		}
		u[i] = distuv.UnitNormal.CDF(sum)
	}
}
