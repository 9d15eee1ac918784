package document

import (
	"fmt"
	"math"

	"loamcast/scenarios/units"
)

// Amount is money as people say it, "1.3 million USD" or "340,000 USD", to three
// digits of the size of Like: the amount itself, or the greatest of several that
// are to be compared.
type Amount struct {
	Value, Like float64 // USD
	Bare        bool    // without its unit
}

// USD is an amount that stands by itself.
func USD(v float64) Amount { return Amount{Value: v, Like: v} }

// AmountRange is a range of amounts of one size: "2.61 to 3.48 million USD".
func AmountRange(low, high, like float64) Text {
	return Say("%s to %s", Amount{low, like, true}, Amount{high, like, false})
}

// In implements [Part].
func (a Amount) In(units.System) string {
	const million, digits = 1e6, 3
	size := max(1, math.Abs(a.Like))
	step := math.Pow(10, math.Floor(math.Log10(size))-digits+1)
	v, unit := math.Round(a.Value/step)*step, "USD"
	if size >= million {
		v, unit = v/million, "million"+NoBreak+"USD"
	}
	if a.Bare {
		return units.FormatNumber(v)
	}
	return units.FormatNumber(v) + NoBreak + unit
}

// Thousands is an amount in whole thousands of USD, without unit, for tables.
type Thousands float64

// In implements [Part].
func (t Thousands) In(units.System) string {
	v := math.Round(float64(t) / 1000)
	switch {
	case v == 0:
		return "0" // also for −0
	case math.Abs(v) < 1000:
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.0f,%03.0f", math.Trunc(v/1000), math.Mod(math.Abs(v), 1000))
}
