package picture

import (
	"math"

	"gonum.org/v1/plot"

	"loamcast/scenarios/units"
)

// valueTicks divides 0…most into four to eight round steps and returns the
// ticks; the last is at or above most. Whole asks for whole numbers.
func valueTicks(most float64, whole bool) plot.ConstantTicks {
	if !(most > 0) || math.IsInf(most, 0) {
		most = 1
	}
	step := roundStep(most / 8)
	if whole {
		step = math.Max(1, step)
	}
	var ticks plot.ConstantTicks
	for i := 0; ; i++ {
		v := float64(i) * step
		ticks = append(ticks, plot.Tick{Value: v, Label: units.FormatNumber(v)})
		if v >= most*(1-1e-9) {
			return ticks
		}
	}
}

// roundStep returns the least 1, 2 or 5 times a power of ten that is not less
// than x.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= x*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}
