package capability

import (
	"context"
	"errors"
	"reflect"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
	"loamcast/sim/threshold"
)

// Capability is what a plant carries.
type Capability struct {
	// Curve is the share of years that miss, by production in kg dry per day; nil
	// if no production within reach makes one miss, or none keeps the target.
	Curve *threshold.Curve
	// Likely are the curve, first, and others that are as likely for all that is
	// known.
	Likely []*threshold.Curve
	// Profile is what years are like about what is carried; nil without a curve.
	Profile *Profile
	// Never says that every year missed, whatever came in.
	Never bool
	Runs  [][]Trial // by replication
	// Simulated counts the years simulated, warm-ups included.
	Simulated int

	of       study.Case // that was tried
	constant bool
	// beside says that it was found beside another plant, and own is that plant itself on
	// the ramps that others are compared on, once any was, in so many years.
	beside   bool
	own      *attempt
	ownYears int
}

// Resamples are the curves that are as likely as the one found.
const Resamples = 200

// Replications is the usual number of runs up the ramp, and Fewest the least.
const Replications, Fewest = 64, 2 * batch

const (
	// batch is how many runs at least go up one ramp. After each, the next ramp is laid anew.
	batch = 16
	// scouts go up a steep ramp first, to see where years begin to miss.
	scouts = 3
	// rampYears are the years of a ramp.
	rampYears, scoutYears = 8, 12
	// A ramp begins where next to no year misses and ends where two in five do, in
	// spreads of the curve. What is asked of it are small shares, and years
	// that many miss would bend it away from them: with ramps to 0.4, 4.8 % were told
	// where 6.1 % of 10,000 whole runs miss (one of the examples, mean of 200 seeds), and
	// the range of the order began too late in 45 of 200; with these 5.1 %, and 20 of 200.
	// Where nothing is left to chance it goes past what is carried.
	rampLow, rampHigh, rampPast = -3.2, -0.2, 0.4
	// mostOneSided are the ramps of which all years went one way before it is given up.
	mostOneSided = 50
	// guess is the spread of a curve of which nothing is known yet.
	guess = 0.05
	// A ramp's spread is kept within these, however few trials speak for more.
	leastSpread, mostSpread = 0.002, 0.3
)

// finder tries one plant.
type finder struct {
	study     *study.Study
	constant  bool // nothing is left to chance
	simulated int
}

// Find tries a case, whose growth and horizon do not matter, in so many runs.
func Find(ctx context.Context, s *study.Study, c study.Case, runs int) (*Capability, error) {
	return newClimb(s, c).upTo(ctx, runs)
}

// sight is what the scouts saw.
type sight struct {
	curve *threshold.Curve // nil if all went one way
	never bool
}

// look goes up a steep ramp about what the handbook says, and further down or up
// where all years of it went one way.
func (f *finder) look(ctx context.Context, c study.Case) (*sight, error) {
	p, err := f.study.Plant(&c)
	if err != nil {
		return nil, err
	}
	const reach, tries = 2.2, 4
	middle := p.Feed.Base * float64(p.Vessels.Installed) / p.StaticNeed(0.5).Average
	for range tries {
		var months [scouts][]plant.Month
		trials, err := f.watched(ctx, c, ramp{middle / reach, middle * reach, scoutYears}, 0, scouts, func(run *study.Result) { months[run.Replication] = run.Record.Months })
		if err != nil {
			return nil, err
		}
		f.constant = f.constant || reflect.DeepEqual(months[0], months[1])
		curve, err := threshold.Fit(observed(trials))
		switch {
		case err == nil:
			return &sight{curve: curve}, nil
		case !errors.Is(err, threshold.ErrOneSided):
			return nil, err
		case trials[0][0].Missed:
			middle /= reach * reach
			if middle < p.Feed.Base/1e3 {
				return &sight{never: true}, nil
			}
		default:
			middle *= reach * reach
		}
	}
	return &sight{}, nil
}

// observed leaves of trials what the curve is fitted to.
func observed(runs [][]Trial) [][]threshold.Trial {
	out := make([][]threshold.Trial, len(runs))
	for i, run := range runs {
		for _, t := range run {
			out[i] = append(out[i], threshold.Trial{Load: t.Load, Failed: t.Missed})
		}
	}
	return out
}
