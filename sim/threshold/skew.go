package threshold

import "math"

// skew is by how much a spread above the middle of what is borne is shorter than one below:
// at 0 the curve were normal in the logarithm of the load, at the spread in the load itself.
//
// Of 0, 0.1, 0.15, 0.2 and 0.25 it makes what became of 1,500 to 4,000 ramps of each of five
// invented plants, two of them also with more vessels and one with drier cake, the likeliest:
// the logarithm of that is 29.8 higher than at 0 in all, −0.9 at the least and 10.9 at the
// most of one; 27.8 at 0.1, 18.5 at 0.2 (derived). A normal curve in the square of the
// load, whose skew is twice its spread, does as well in all, 29.6, and one in the load
// itself less, 22.3.
const skew = 0.15

// bend returns the standard normal deviate that stands for a logarithm of the load so many
// spreads above the middle.
func bend(u float64) float64 { return (math.Exp(skew*u) - 1) / skew }

// unbend undoes bend: it returns how many spreads above the middle the logarithm of the
// load is for which a standard normal deviate stands. Deviates below that of no load stand
// for none.
func unbend(deviate float64) float64 { return math.Log(max(0, 1+skew*deviate)) / skew }

// failing returns the share of trials that fail at a logarithm of the load so many spreads
// above the middle. Since that is one curve for all things, and is asked for a million times,
// cubics stand for it between points at which they meet it and its slope, to within 1e-9.
func failing(u float64) float64 {
	x := (u + reach) * fine
	if !(x >= 0 && x < 2*reach*fine) {
		return normal(bend(u))
	}
	i := int(x)
	a, b := &along[i], &along[i+1]
	x -= float64(i)
	rise := b.share - a.share
	return a.share + x*(a.slope+x*(3*rise-2*a.slope-b.slope+x*(a.slope+b.slope-2*rise)))
}

// reach is how far the points go to either side, spreads, and fine how many there are
// in one.
const reach, fine = 8, 64

// point is a share and how much it rises from one point to the next.
type point struct{ share, slope float64 }

var along = points()

func points() (out [2*reach*fine + 1]point) {
	for i := range out {
		deviate := bend(float64(i)/fine - reach)
		density := math.Exp(-deviate*deviate/2) / math.Sqrt(2*math.Pi)
		out[i] = point{normal(deviate), density * (1 + skew*deviate) / fine}
	}
	return out
}
