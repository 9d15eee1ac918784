package render

import (
	"math"
	"strconv"
)

// fileDigits is the number of significant digits in JSON and CSV: more than
// any quantity is known to, few enough to read.
const fileDigits = 6

// plainNumber writes x to fileDigits digits without separators of thousands.
// Very small and very large numbers get an exponent; what is not a finite
// number gives the empty string.
func plainNumber(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', fileDigits-1, 64), 64) // never a syntax error
	if rounded == 0 {
		return "0" // also for −0
	}
	if size := math.Abs(rounded); size < 1e-6 || size >= 1e15 {
		return strconv.FormatFloat(rounded, 'e', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// number is a float64 in JSON, as plainNumber writes it, or null.
type number float64

// MarshalJSON implements json.Marshaler.
func (n number) MarshalJSON() ([]byte, error) {
	if text := plainNumber(float64(n)); text != "" {
		return []byte(text), nil
	}
	return []byte("null"), nil
}
