package sensitivity

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat"

	"loamcast/sim/random"
	"loamcast/sim/stats"
)

// Screening finds the inputs that matter by elementary effects (Morris 1991; from
// memory). A trajectory starts at a random point of a grid and moves one input
// after the other, in random order, by half of its range; what each move does to
// the output is an elementary effect. One trajectory takes dims + 1 points and
// gives one effect of every input.
//
// An output that rises and falls so that it is the same again after half of an
// input's range looks flat to it.
type Screening struct {
	dims   int
	points [][]float64 // trajectory by trajectory, dims + 1 points each
	moved  []int       // the input that each move changes, dims of them for each trajectory
}

// step is how far a move goes: half of the range.
const step = 0.5

// NewScreening makes the points for so many inputs (dims, 1 or more) and
// trajectories (2 or more; 10 to 50 are usual). The coordinates are the middles of
// so many equal parts of 0 to 1 as levels says, an even number of 2 or more; 4 or
// more are advised, since with 2 a symmetric bend does not show. They are not the ends of the parts, as in the paper, since
// many a distribution has no end. As the number of levels is even, all come up
// with the same chance.
func NewScreening(dims, trajectories, levels int, seed uint64) (*Screening, error) {
	switch {
	case dims < 1:
		return nil, fmt.Errorf("sensitivity: %d inputs", dims)
	case trajectories < 2:
		return nil, fmt.Errorf("sensitivity: %d trajectories, at least 2 are needed", trajectories)
	case levels < 2 || levels%2 != 0:
		return nil, fmt.Errorf("sensitivity: %d levels, an even number is needed", levels)
	}
	s := &Screening{dims: dims}
	for t := range trajectories {
		s.addTrajectory(random.Key{Seed: seed}.Stream("trajectory", uint64(t)), levels)
	}
	return s, nil
}

// addTrajectory appends the points of a trajectory drawn from r.
func (s *Screening) addTrajectory(r *rand.Rand, levels int) {
	at, moves := make([]float64, s.dims), make([]float64, s.dims)
	for d := range at {
		at[d] = (float64(r.IntN(levels/2)) + 0.5) / float64(levels) // a lower half
		moves[d] = step
		if r.IntN(2) == 1 {
			at[d] += step
			moves[d] = -step
		}
	}
	s.points = append(s.points, at)
	for _, d := range r.Perm(s.dims) {
		next := append([]float64(nil), at...)
		next[d] += moves[d]
		s.points = append(s.points, next)
		s.moved = append(s.moved, d)
		at = next
	}
}

// Points returns the points to evaluate, dims + 1 in a row for each trajectory.
// They belong to the design: read them only.
func (s *Screening) Points() [][]float64 { return s.points }

// Effect is how an input moves the output. The unit is that of the output for the
// whole way of the input through its range, from its lowest to its highest: twice
// what half of the way does.
type Effect struct {
	// MuStar is the mean size of the elementary effects, whatever their sign: the
	// measure to rank inputs by (Campolongo, Cariboni and Saltelli 2007; from
	// memory). Its interval is Student's t over the trajectories, cut off at zero;
	// with 10 trajectories and effects of very unequal size it holds some per cent
	// less often than it says.
	MuStar stats.Interval
	// Mu is the mean with signs: near MuStar when the output rises with the input,
	// near −MuStar when it falls, in between when it does both.
	Mu float64
	// Sigma is the standard deviation of the effects: zero for an input that adds in
	// a straight line, large for one that bends or works together with others.
	Sigma float64
}

// Effects reads the values at the points, in their order, and returns the effect
// of each input, with an interval of the confidence level, a fraction. A value
// that is not finite is an error.
func (s *Screening) Effects(values []float64, level float64) ([]Effect, error) {
	if err := checkValues(values, len(s.points)); err != nil {
		return nil, err
	}
	if err := checkLevel(level); err != nil {
		return nil, err
	}
	elementary := s.elementary(values)
	effects := make([]Effect, s.dims)
	for d, es := range elementary {
		sizes := make([]float64, len(es))
		for t, e := range es {
			sizes[t] = math.Abs(e)
		}
		size, err := stats.MeanInterval(sizes, level)
		if err != nil {
			return nil, err
		}
		size.Low = max(size.Low, 0)
		mu, sigma := stat.MeanStdDev(es, nil)
		effects[d] = Effect{MuStar: size, Mu: mu, Sigma: sigma}
	}
	return effects, nil
}

// elementary returns the elementary effects of each input, by trajectory.
func (s *Screening) elementary(values []float64) [][]float64 {
	effects := make([][]float64, s.dims)
	for i, d := range s.moved {
		before := i + i/s.dims // a trajectory has one point more than moves
		moved := s.points[before+1][d] - s.points[before][d]
		effects[d] = append(effects[d], (values[before+1]-values[before])/moved)
	}
	return effects
}
