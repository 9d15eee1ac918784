package threshold

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// nodes stand for the part of the deviate that stays with a unit, a standard normal
// variable: with their weights they integrate over it.
type nodes struct {
	at, weight []float64
	ln         []float64 // of the weights
}

// few are enough where no more stays with a unit than is new in each trial (Gauss and
// Hermite), and close where more does (evenly apart). What a unit's trials say of its part
// changes over what is new in one, in parts of what stays. A few points lie further from
// each other than that, so that the likelihood goes up and down with how they lie about
// the units: of 64 runs of a plant of two vessels, of whose spread four fifths to seven
// eighths stay with a run, five seeds told 7 to 20 % of one year, each to within 3 points.
var sparse, dense = gaussian(15), even(61, 4.5)

func gaussian(count int) (n nodes) {
	x, w := make([]float64, count), make([]float64, count)
	quad.Hermite{}.FixedLocations(x, w, math.Inf(-1), math.Inf(1))
	for i := range x {
		n.add(x[i]*math.Sqrt2, w[i]/math.Sqrt(math.Pi))
	}
	return n
}

// even returns nodes that lie evenly apart, from as far below the mean as above it.
func even(count int, reach float64) (n nodes) {
	step := 2 * reach / float64(count-1)
	for i := range count {
		x := float64(i)*step - reach
		n.add(x, step*math.Exp(-x*x/2)/math.Sqrt(2*math.Pi))
	}
	return n
}

func (n *nodes) add(at, weight float64) {
	n.at, n.weight, n.ln = append(n.at, at), append(n.weight, weight), append(n.ln, math.Log(weight))
}

// tooFewFor reports whether the nodes lie too far apart for what a curve has new in each
// trial.
func (n nodes) tooFewFor(c *Curve) bool {
	return len(n.at) < len(dense.at) && c.Between > sparseUpTo*c.Within
}

const sparseUpTo = 1.5
