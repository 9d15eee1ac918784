package sensitivity

import (
	"math"
	"testing"

	"loamcast/sim/stats"
)

// ishigami is the function of three inputs, each even from −π to π, by which such
// methods are usually tried: sin x + a sin² y + b z⁴ sin x with a = 7 and b = 0.1
// (Ishigami and Homma 1990; from memory). z works only together with x.
func ishigami(p []float64) float64 {
	angle := func(u float64) float64 { return math.Pi * (2*u - 1) }
	x, y, z := angle(p[0]), angle(p[1]), angle(p[2])
	return math.Sin(x) + 7*math.Pow(math.Sin(y), 2) + 0.1*math.Pow(z, 4)*math.Sin(x)
}

// The variance shares of it (Ishigami function, derived).
var (
	ishigamiFirst = []float64{.313905, .442411, 0}
	ishigamiTotal = []float64{.557589, .442411, .243684}
)

// product is the g function of Sobol, ∏ (|4u − 2| + a)/(1 + a): the larger a, the
// less an input matters. Input i alone has the variance v(i) = 1/(3(1 + a)²) and
// all together ∏(1 + v) − 1 (Saltelli and Sobol 1995, from memory; the variances
// are derived from the integral of each factor).
func product(as []float64) (f func(p []float64) float64, first, total []float64) {
	all := 1.0
	var vs []float64
	for _, a := range as {
		vs = append(vs, 1/(3*(1+a)*(1+a)))
		all *= 1 + vs[len(vs)-1]
	}
	for _, v := range vs {
		first = append(first, v/(all-1))
		total = append(total, v*all/(1+v)/(all-1))
	}
	return func(p []float64) float64 {
		y := 1.0
		for i, a := range as {
			y *= (math.Abs(4*p[i]-2) + a) / (1 + a)
		}
		return y
	}, first, total
}

// linear returns the function of these slopes, far from zero.
func linear(slopes []float64) func(p []float64) float64 {
	return func(p []float64) float64 {
		y := 1000.0
		for i, b := range slopes {
			y += b * p[i]
		}
		return y
	}
}

func evaluate(f func(p []float64) float64, points [][]float64) []float64 {
	values := make([]float64, len(points))
	for i, p := range points {
		values[i] = f(p)
	}
	return values
}

// failer is a test, plain or of properties.
type failer interface {
	Helper()
	Fatal(args ...any)
}

// effectsOf runs a screening of 4 levels, at 95 %.
func effectsOf(t failer, f func(p []float64) float64, dims, trajectories int, seed uint64) []Effect {
	t.Helper()
	s, err := NewScreening(dims, trajectories, 4, seed)
	if err != nil {
		t.Fatal(err)
	}
	effects, err := s.Effects(evaluate(f, s.Points()), 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return effects
}

func shares(f func(p []float64) float64, dims, rows int, seed uint64, level float64) (Shares, error) {
	dec, err := NewDecomposition(dims, rows, seed)
	if err != nil {
		return Shares{}, err
	}
	return dec.Shares(evaluate(f, dec.Points()), level)
}

func sharesOf(t failer, f func(p []float64) float64, dims, rows int, seed uint64, level float64) Shares {
	t.Helper()
	s, err := shares(f, dims, rows, seed, level)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v ± %v", what, got, want, within)
	}
}

// holds checks that an interval holds the truth and is no wider than asked.
func holds(t *testing.T, what string, i stats.Interval, truth, half float64) {
	t.Helper()
	t.Logf("%s: %.4f, from %.4f to %.4f, true %.4f", what, i.Estimate, i.Low, i.High, truth)
	if !within(i, truth) || !within(i, i.Estimate) {
		t.Errorf("%s: %v is outside %v to %v", what, truth, i.Low, i.High)
	}
	if i.HalfWidth() > half {
		t.Errorf("%s: a half-width of %v, above %v, checks too little", what, i.HalfWidth(), half)
	}
}

// within reports whether an interval holds x.
func within(i stats.Interval, x float64) bool { return i.Low <= x && x <= i.High }
