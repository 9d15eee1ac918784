package picture

import "loamcast/scenarios/answer"

// curves are the parts of a spread over the records of an answer, in shown
// units.
type curves struct{ mean, low, mid, high []float64 }

// curvesOf takes a spread from each record and converts it.
func curvesOf[T any](records []T, spread func(*T) answer.Spread, convert func(float64) float64) curves {
	var c curves
	for i := range records {
		s := spread(&records[i])
		c.mean = append(c.mean, convert(s.Mean))
		c.low = append(c.low, convert(s.P10))
		c.mid = append(c.mid, convert(s.P50))
		c.high = append(c.high, convert(s.P90))
	}
	return c
}

// valuesOf takes one number from each record.
func valuesOf[T any](records []T, value func(*T) float64) []float64 {
	values := make([]float64, len(records))
	for i := range records {
		values[i] = value(&records[i])
	}
	return values
}

// unchanged is the conversion of numbers without a unit.
func unchanged(v float64) float64 { return v }
