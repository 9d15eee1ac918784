package document

import "loamcast/scenarios/answer"

// Curves are the parts of a spread over the records of an answer.
type Curves struct{ Mean, Low, Mid, High []float64 }

// CurvesOf takes a spread from each record.
func CurvesOf[T any](records []T, spread func(*T) answer.Spread) Curves {
	var c Curves
	for i := range records {
		s := spread(&records[i])
		c.Mean = append(c.Mean, s.Mean)
		c.Low = append(c.Low, s.P10)
		c.Mid = append(c.Mid, s.P50)
		c.High = append(c.High, s.P90)
	}
	return c
}

// ValuesOf takes one number from each record.
func ValuesOf[T any](records []T, value func(*T) float64) []float64 {
	values := make([]float64, len(records))
	for i := range records {
		values[i] = value(&records[i])
	}
	return values
}

// Level is the same value n times.
func Level(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}
