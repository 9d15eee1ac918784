package random

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// Triangular rises in a straight line from Min to Mode and falls to Max.
type Triangular struct{ Min, Mode, Max float64 }

// Draw implements [Distribution].
func (d Triangular) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Triangular) Quantile(p float64) float64 {
	width := d.Max - d.Min
	if width == 0 {
		return d.Mode
	}
	left := (d.Mode - d.Min) / width // probability of a value below the mode
	if p < left {
		return d.Min + width*math.Sqrt(p*left)
	}
	return d.Max - width*math.Sqrt((1-p)*(1-left))
}

// Mean implements [Distribution].
func (d Triangular) Mean() float64 { return (d.Min + d.Mode + d.Max) / 3 }

// Validate implements [Distribution].
func (d Triangular) Validate() error { return ordered("triangular", d.Min, d.Mode, d.Max) }

// PERT is the beta distribution on Min to Max whose mean is
// (Min + 4 Mode + Max)/6: shape parameters 1 + 4(Mode−Min)/(Max−Min) and
// 1 + 4(Max−Mode)/(Max−Min). (Definition from memory.)
//
// A draw inverts the beta distribution, which takes microseconds: it is meant
// for what is drawn once in a replication.
type PERT struct{ Min, Mode, Max float64 }

// pertShape is the weight of the mode against the two ends together halved.
const pertShape = 4

// Draw implements [Distribution].
func (d PERT) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d PERT) Quantile(p float64) float64 {
	width := d.Max - d.Min
	if width == 0 {
		return d.Mode
	}
	beta := distuv.Beta{
		Alpha: 1 + pertShape*(d.Mode-d.Min)/width,
		Beta:  1 + pertShape*(d.Max-d.Mode)/width,
	}
	return d.Min + width*beta.Quantile(p)
}

// Mean implements [Distribution].
func (d PERT) Mean() float64 { return (d.Min + pertShape*d.Mode + d.Max) / (pertShape + 2) }

// Validate implements [Distribution].
func (d PERT) Validate() error { return ordered("PERT", d.Min, d.Mode, d.Max) }

func ordered(name string, low, mode, high float64) error {
	if err := finite(name, low, mode, high); err != nil {
		return err
	}
	if low > mode || mode > high {
		return fmt.Errorf("%s: minimum %v, mode %v and maximum %v are not in order", name, low, mode, high)
	}
	return nil
}
