package facilityfile

import (
	"strings"

	"loamcast/scenarios/units"
)

// like is an example of the key's quantity in US customary units and in SI, from its own
// example or the middle of what it usually is. It is empty where there is neither, or
// where the dimension's example does.
func (k *Key) like() string {
	x, written := 0.0, ""
	switch {
	case k.Dimension.Bare() || k.Dimension == units.Fraction:
		return ""
	case k.Example != "":
		var err error
		if x, err = units.Parse(k.Example, k.Dimension); err != nil {
			return "" // of several, or in words
		}
		written = k.Example
	case k.Usual != nil:
		x = (k.Usual.Low + k.Usual.High) / 2
	default:
		return ""
	}
	us, si := units.FormatDigits(x, k.Dimension, units.US, 2), units.FormatDigits(x, k.Dimension, units.SI, 2)
	switch {
	case written != "" && units.SystemOf(written) == units.US:
		us, si = written, k.sameTime(written, si, x)
	case written != "":
		us, si = k.sameTime(written, us, x), written
	}
	if k.Dimension == units.Duration || unitOf(us) == unitOf(si) {
		return si
	}
	return us + " or " + si
}

// sameTime is x in the unit of other, but per the time of what is written: 180 t/year
// beside 200 short ton/year, and not 0.5 t/day.
func (k *Key) sameTime(written, other string, x float64) string {
	_, per, found := strings.Cut(unitOf(written), "/")
	of, usual, _ := strings.Cut(unitOf(other), "/")
	if !found || per == usual || k.Dimension != units.MassPerTime {
		return other
	}
	one, err := units.Parse("1 "+of+"/"+per, k.Dimension)
	if err != nil {
		return other
	}
	return units.FormatNumber(x/one) + " " + of + "/" + per
}

// unitOf is a quantity without its number.
func unitOf(quantity string) string {
	_, unit, _ := strings.Cut(quantity, " ")
	return unit
}
