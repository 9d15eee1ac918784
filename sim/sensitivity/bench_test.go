package sensitivity

import "testing"

// The cost of both methods apart from the model: making the points, and reading
// the values.
func BenchmarkScreening(b *testing.B) {
	f := linear(make([]float64, 12))
	b.ReportAllocs()
	for b.Loop() {
		effectsOf(b, f, 12, 50, 1)
	}
}

func BenchmarkDecomposition(b *testing.B) {
	f := linear([]float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
	b.ReportAllocs()
	for b.Loop() {
		sharesOf(b, f, 12, 1000, 1, 0.95)
	}
}
