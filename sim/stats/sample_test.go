package stats

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// orders are ways in which observations may come: n of them in each.
var orders = map[string]func(n int) []float64{
	"by chance": func(n int) []float64 { return fill(n, newSequence(5)) },
	"rising":    func(n int) []float64 { return fill(n, upFrom1()) },
	"falling": func(n int) []float64 {
		xs := fill(n, upFrom1())
		slices.Reverse(xs)
		return xs
	},
	"from both ends": func(n int) []float64 {
		next := upFrom1()
		return fill(n, func() float64 { i := next(); return i * math.Pow(-1, i) })
	},
	"in waves that grow": func(n int) []float64 {
		next := upFrom1()
		return fill(n, func() float64 { i := next(); return i * math.Sin(i/70) })
	},
	"few values": func(n int) []float64 {
		next := newSequence(9)
		return fill(n, func() float64 { return math.Floor(4 * next() * next()) })
	},
	"more and more alike": func(n int) []float64 {
		next := upFrom1()
		return fill(n, func() float64 { i := next(); return math.Pow(-1, i) / i })
	},
}

func fill(n int, next func() float64) []float64 {
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = next()
	}
	return xs
}

func upFrom1() func() float64 {
	i := 0.0
	return func() float64 { i++; return i }
}

// offBy returns by how many places the rank of a value is off from that of a quantile, in a
// sorted list.
func offBy(sorted []float64, q, value float64) float64 {
	rank := 1 + q*float64(len(sorted)-1)
	first, found := slices.BinarySearch(sorted, value)
	if !found {
		return math.Inf(1) // it is none of the observations
	}
	after, _ := slices.BinarySearchFunc(sorted, value, func(x, v float64) int {
		if x <= v {
			return -1
		}
		return 1
	})
	return max(0, float64(first+1)-rank, rank-float64(after))
}

// Shows that a sample gives the quantiles of what it keeps to the last bit, and also their
// mean; and beyond that one of the observations whose rank is off by no more than it says,
// in whatever order they came, also when it is asked between them.
func TestSampleKeepsWhatItSays(t *testing.T) {
	for name, order := range orders {
		for _, c := range []struct{ keeps, n int }{{2000, 1}, {2000, 1999}, {2000, 2000}, {2000, 2001}, {2000, 9000}, {2000, 100_000}, {100, 30_000}, {1, 2000}} {
			xs := order(c.n)
			s := NewSample(c.keeps, c.n)
			sum := 0.0
			for i, x := range xs {
				s.Add(x)
				sum += x
				if i == c.n/2 || i == c.n/3 {
					s.Quantile(0.3)
				}
			}
			if got, want := s.Mean(), sum/float64(c.n); got != want {
				t.Errorf("%d %s: the mean is %v, not %v", c.n, name, got, want)
			}
			sorted := slices.Sorted(slices.Values(xs))
			for _, q := range []float64{0, 0.001, 0.1, 0.25, 0.5, 0.9, 0.9995, 1} {
				got := s.Quantile(q)
				if c.n <= c.keeps {
					if want := Quantile(xs, q); got != want {
						t.Errorf("%d %s: the quantile %v is %v, not %v", c.n, name, q, got, want)
					}
				} else if off, most := offBy(sorted, q, got), max(0.5, RankError*float64(c.n)); off > most {
					t.Errorf("%d %s, %d kept: the quantile %v is off by %v places, not %v at the most", c.n, name, c.keeps, q, off, most)
				}
			}
		}
	}
}

// Shows that the summary of observations that come by chance takes no more room than those
// that are kept before there is one, a mark that of two, and in the worst order that was
// found four times as much.
func TestRoomOfASample(t *testing.T) {
	const keeps = 2000
	for name, order := range orders {
		allowed := 4.5 * keeps / 2
		if name == "by chance" || name == "few values" {
			allowed = 1.1 * keeps / 2
		}
		s, most := NewSample(keeps, math.MaxInt), 0
		for i, x := range order(300_000) {
			s.Add(x)
			if i >= keeps {
				most = max(most, cap(s.summary)+cap(s.fresh)/2)
			}
		}
		if float64(most) > allowed {
			t.Errorf("%s: room of %d marks, %g allowed", name, most, allowed)
		}
	}
}

// Shows the same of any observations, with batches of any size.
func TestSampleOfAnyObservations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keeps := rapid.IntRange(1, 40).Draw(t, "keeps")
		values := rapid.SampledFrom([]*rapid.Generator[float64]{rapid.Float64Range(-1, 1), rapid.Map(rapid.IntRange(0, 5), func(i int) float64 { return float64(i) })}).Draw(t, "values")
		xs := rapid.SliceOfN(values, 1, 200).Draw(t, "xs")
		xs = slices.Repeat(xs, rapid.IntRange(1, 20).Draw(t, "times"))
		q := rapid.Float64Range(0, 1).Draw(t, "q")
		s := NewSample(keeps, 0)
		for _, x := range xs {
			s.Add(x)
		}
		got := s.Quantile(q)
		if len(xs) <= keeps {
			if want := Quantile(xs, q); got != want {
				t.Fatalf("%v, not %v", got, want)
			}
			return
		}
		if off, most := offBy(slices.Sorted(slices.Values(xs)), q, got), max(0.5, RankError*float64(len(xs))); off > most+1e-9 {
			t.Fatalf("off by %v places of %d, not %v", off, len(xs), most)
		}
	})
}

// How many observations lie above a value is exact while they are kept, and then as good as
// a quantile, in whatever order they came.
func TestSampleCountsWhatIsAbove(t *testing.T) {
	for name, order := range orders {
		for _, c := range []struct{ keeps, n int }{{2000, 1}, {2000, 2000}, {2000, 2001}, {2000, 50_000}, {100, 30_000}, {1, 2000}} {
			xs := order(c.n)
			s := NewSample(c.keeps, c.n)
			for _, x := range xs {
				s.Add(x)
			}
			if s.Len() != c.n {
				t.Errorf("%d %s: %d observations", c.n, name, s.Len())
			}
			sorted := slices.Sorted(slices.Values(xs))
			for _, limit := range []float64{math.Inf(-1), sorted[0], sorted[c.n/10], sorted[c.n/2] + 1e-9, sorted[c.n*9/10], sorted[c.n-1], math.Inf(1)} {
				want := 0
				for _, x := range xs {
					if x > limit {
						want++
					}
				}
				off := math.Abs(float64(s.Above(limit) - want))
				if most := max(0.5, RankError*float64(c.n)); off > most || c.n <= c.keeps && off > 0 {
					t.Errorf("%d %s, %d kept: %d above %v, by count %d", c.n, name, c.keeps, s.Above(limit), limit, want)
				}
			}
		}
	}
}
