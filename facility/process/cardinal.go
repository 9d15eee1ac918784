package process

import (
	"errors"
	"fmt"
)

// Cardinal is a temperature curve with an optimum, by the temperatures, °C, below
// which, at which and above which life is nothing, at its best and nothing again:
//
//	γ(T) = (T−Most)·(T−Least)² / ((Best−Least)·
//	       [(Best−Least)·(T−Best) − (Best−Most)·(Best+Least−2T)])
//
// between Least and Most, 0 outside. After Rosso, Lobry and Flandrois (1993, J.
// Theor. Biol. 162:447; the equation from memory, and as others have coded it): γ is
// 0 at both ends, touching it at Least, and 1 with a level tangent at Best, its only
// maximum, which must lie above the middle of the ends. The zero value stands for
// none.
type Cardinal struct{ Least, Best, Most float64 }

// DefaultCardinal is for composting: life that is best at 57 °C, within the 45 to
// 65 °C in which practice sees composting go best, falls from there and ends at
// 78 °C, and is next to nothing below freezing. Models of composting put the least at
// some 5, the best at 55 to 60 and the most at 70 to 82 °C (from memory); a least of
// −5 °C is taken as that of a curve which cold heaps still climb (assumption).
func DefaultCardinal() Cardinal { return Cardinal{Least: -5, Best: 57, Most: 78} }

// At returns γ at t °C.
func (c Cardinal) At(t float64) float64 {
	if t <= c.Least || t >= c.Most {
		return 0
	}
	above, rise := t-c.Least, c.Best-c.Least
	return (t - c.Most) * above * above / c.under(t, rise)
}

func (c Cardinal) under(t, rise float64) float64 {
	return rise * (rise*(t-c.Best) - (c.Best-c.Most)*(c.Best+c.Least-2*t))
}

// slope returns the relative slope of γ at t °C, 1/K, where γ is not 0.
func (c Cardinal) slope(t float64) float64 {
	rise := c.Best - c.Least
	return 1/(t-c.Most) + 2/(t-c.Least) - rise*(rise+2*(c.Best-c.Most))/c.under(t, rise)
}

// none reports whether c is the zero value.
func (c Cardinal) none() bool { return c == Cardinal{} }

// Validate reports what keeps the curve from having one optimum, or from being known
// at the reference temperature, °C, to which rate constants refer.
func (c Cardinal) Validate(reference float64) error {
	switch {
	case !(c.Least < c.Best && c.Best < c.Most):
		return fmt.Errorf("temperature curve: least, best and most, %g, %g and %g °C, must rise", c.Least, c.Best, c.Most)
	case !(2*c.Best > c.Least+c.Most):
		return fmt.Errorf("temperature curve: the best temperature, %g °C, must lie above the middle of least and most, %g °C", c.Best, (c.Least+c.Most)/2)
	case !(c.Least < reference && reference < c.Most):
		return errors.New("temperature curve: nothing decays at the temperature to which the rate constants refer")
	}
	return nil
}
