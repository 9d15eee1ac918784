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

// bent is up to where the curve bends, spreads to either side: from a thousandth of the
// trials on to all but none. Beyond, it goes on straight, for nothing is known of its form
// there, and a search that tries thresholds which are far too sharp still sees where to go.
const bent = 4

// bend returns the standard normal deviate that stands for a logarithm of the load so many
// spreads above the middle, and how much it rises with them.
func bend(u float64) (deviate, slope float64) {
	within := min(max(u, -bent), bent)
	slope = math.Exp(skew * within)
	return (slope-1)/skew + slope*(u-within), slope
}

// unbend undoes bend: it returns how many spreads above the middle the logarithm of the
// load is for which a standard normal deviate stands.
func unbend(deviate float64) float64 {
	low, _ := bend(-bent)
	high, _ := bend(bent)
	within := min(max(deviate, low), high)
	slope := 1 + skew*within
	return math.Log(slope)/skew + (deviate-within)/slope
}

// failing returns the share of trials that fail at a logarithm of the load so many spreads
// above the middle. Since that is one curve for all things, and is asked for a million times,
// cubics stand for it between points at which they meet it and its slope, to within 1e-9.
func failing(u float64) float64 {
	x := (u + reach) * fine
	if !(x >= 0 && x < 2*reach*fine) {
		deviate, _ := bend(u)
		return normal(deviate)
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
		deviate, slope := bend(float64(i)/fine - reach)
		density := math.Exp(-deviate*deviate/2) / math.Sqrt(2*math.Pi)
		out[i] = point{normal(deviate), density * slope / fine}
	}
	return out
}
