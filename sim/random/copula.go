package random

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Copula ties uniform numbers together, so that the quantities drawn from them
// have given rank correlations while each keeps its own distribution: a Gaussian
// copula. Of two quantities with rank correlation ρ the normal numbers behind
// them have the correlation 2 sin(πρ/6) (Pearson 1907; Iman and Conover 1982 for
// the purpose; from memory).
//
// Where the numbers are inputs whose variance shares are asked for, the order
// counts: the share of the first is what would go if it became known, with all
// that is correlated with it; the total of the last is what is its own and known
// from no other (Mara and Tarantola 2012; from memory).
type Copula struct {
	lower *mat.TriDense // Cholesky factor of the correlations of the normal numbers
}

// NewCopula takes the rank correlations (Spearman's) of each two quantities: a
// symmetric matrix with ones on its diagonal and all else between −1 and 1. It
// refuses correlations that contradict one another, such as two quantities that
// both go with a third but not with each other.
func NewCopula(rank [][]float64) (*Copula, error) {
	n := len(rank)
	if n == 0 {
		return nil, errors.New("copula: no correlations")
	}
	normal := mat.NewSymDense(n, nil)
	for i, row := range rank {
		if len(row) != n {
			return nil, fmt.Errorf("copula: row %d has %d correlations, not %d", i, len(row), n)
		}
		for j, rho := range row {
			switch {
			case i == j && rho != 1:
				return nil, fmt.Errorf("copula: the correlation of quantity %d with itself is %v", i, rho)
			case i != j && !(math.Abs(rho) < 1):
				return nil, fmt.Errorf("copula: the correlation of quantities %d and %d, %v, is not between -1 and 1", i, j, rho)
			case rho != rank[j][i]:
				return nil, fmt.Errorf("copula: quantities %d and %d have two correlations, %v and %v", i, j, rho, rank[j][i])
			}
			normal.SetSym(i, j, 2*math.Sin(math.Pi*rho/6))
		}
	}
	var factor mat.Cholesky
	if !factor.Factorize(normal) {
		return nil, errors.New("copula: the correlations contradict one another")
	}
	lower := mat.NewTriDense(n, mat.Lower, nil)
	factor.LTo(lower)
	return &Copula{lower: lower}, nil
}

// Apply returns the numbers that belong to independent ones, all above 0 and
// below 1, one for each quantity. The first stays as it is, and each depends on
// those before it only.
func (c *Copula) Apply(independent []float64) []float64 {
	n, _ := c.lower.Dims()
	if len(independent) != n {
		panic(fmt.Errorf("copula: %d numbers for %d quantities", len(independent), n))
	}
	zs, tied := make([]float64, n), make([]float64, n)
	for i, u := range independent {
		zs[i] = distuv.UnitNormal.Quantile(u)
		var z float64
		for j, x := range zs[:i+1] {
			z += c.lower.At(i, j) * x
		}
		tied[i] = clampUnit(distuv.UnitNormal.CDF(z))
	}
	tied[0] = independent[0]
	return tied
}

// clampUnit keeps a probability that rounding has carried to an end of the unit
// interval within it, since quantiles there are infinite.
func clampUnit(p float64) float64 { return min(max(p, 0x1p-53), 1-0x1p-53) }
