package sensitivity

import (
	"fmt"
	"math"
)

// checkValues refuses values that do not belong to a design of so many points.
func checkValues(values []float64, points int) error {
	if len(values) != points {
		return fmt.Errorf("sensitivity: %d values for %d points", len(values), points)
	}
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("sensitivity: the value at point %d is %v", i, v)
		}
	}
	return nil
}

func checkLevel(level float64) error {
	if !(level > 0 && level < 1) {
		return fmt.Errorf("sensitivity: confidence level %v is not between 0 and 1", level)
	}
	return nil
}
