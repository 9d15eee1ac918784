package document

import (
	"fmt"
	"math"

	"loamcast/scenarios/units"
)

// Currency is the code of the currency of the file.
var Currency Part = currency{}

type currency struct{}

// In implements [Part].
func (currency) In(sys units.System) string { return sys.Currency() }

// MoneyOf is the currency of the file as it was worth in a year: "USD of 2027".
func MoneyOf(year int) Text { return Say("%s of %d", Currency, year) }

// Amount is money as people say it, "1.3 million USD" or "340,000 USD", to three
// digits of the size of Like: the amount itself, or the greatest of several that
// are to be compared.
type Amount struct {
	Value, Like float64
	Year        int  // in whose money it is; 0 where another part of the text says so
	Bare        bool // without its unit
}

// AmountOf is an amount that stands by itself.
func AmountOf(v float64) Amount { return Amount{Value: v, Like: v} }

// Of is an amount in the money of a year, which is written behind it.
func (a Amount) Of(year int) Amount {
	a.Year = year
	return a
}

// AmountRange is a range of amounts of one size: "2.61 to 3.48 million USD".
func AmountRange(low, high, like float64) Text {
	return Say("%s to %s", Amount{Value: low, Like: like, Bare: true}, Amount{Value: high, Like: like})
}

// In implements [Part].
func (a Amount) In(sys units.System) string {
	const million, digits = 1e6, 3
	size := max(1, math.Abs(a.Like))
	step := math.Pow(10, math.Floor(math.Log10(size))-digits+1)
	v, unit := math.Round(a.Value/step)*step, sys.Currency()
	if size >= million {
		v, unit = v/million, "million"+NoBreak+unit
	}
	if a.Year != 0 {
		unit += fmt.Sprintf(" of%s%d", NoBreak, a.Year)
	}
	if a.Bare {
		return units.FormatNumber(v)
	}
	return units.FormatNumber(v) + NoBreak + unit
}

// Thousands is an amount in whole thousands, without unit, for tables.
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
