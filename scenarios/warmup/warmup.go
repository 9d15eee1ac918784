package warmup

import (
	"context"
	"fmt"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
	"loamcast/sim/stats"
)

const (
	// pilotYears is how long the pilot runs: the second half is the level.
	pilotYears = 12
	// tolerance is how far a settled figure may lie from its level, as a part of
	// it (of all chips for the fresh ones); or some loads may, since the years of a small plant differ by whole ones.
	tolerance      = 0.03
	toleranceLoads = 2
)

// Found is the warm-up of a plant.
type Found struct {
	Years int
	// Settled is false if some figure keeps no level, as in a plant that is short
	// of something; Years is then the most that there can be.
	Settled bool
}

// Apply cuts the warm-up of a file that leaves it to be detected to the years
// that are needed, and does nothing to others.
func Apply(ctx context.Context, f *facilityfile.File) (found Found, err error) {
	if !f.Planning.DetectWarmUp {
		return Found{Years: f.Model.WarmUp, Settled: true}, nil
	}
	found, err = Detect(ctx, f.Model)
	if err != nil {
		return found, fmt.Errorf("finding the warm-up: %w", err)
	}
	f.Model = f.Model.WarmedUp(found.Years)
	f.Planning.DetectWarmUp = false
	return found, nil
}

// Detect returns the warm-up that a model needs, at most the one it has.
func Detect(ctx context.Context, m plant.Model) (Found, error) {
	p, err := plant.New(pilot(m))
	if err != nil {
		return Found{}, err
	}
	rec, err := p.Run(ctx, random.Key{})
	if err != nil {
		return Found{}, err
	}
	found := Found{Settled: true}
	loads := byYear(rec.Months, func(m *plant.Month) float64 { return m.Loads.Filled })
	slack := max(tolerance, toleranceLoads/max(1, loads[len(loads)-1]))
	for _, f := range figures {
		curve := byYear(rec.Months, f.of)
		level := levelOf(curve)
		from, settled := stats.SettledFrom(curve, slack*levelOf(byYear(rec.Months, f.whole)))
		if level == 0 {
			continue // there is none, such as chips bought where all come back
		}
		found.Settled = found.Settled && settled
		found.Years = max(found.Years, from)
	}
	if !found.Settled {
		found.Years = m.WarmUp
	}
	found.Years = min(found.Years, m.WarmUp)
	return found, nil
}

// levelOf returns the level that a figure by year settles on.
func levelOf(curve []float64) float64 { return stats.Quantile(curve[len(curve)/2:], 0.5) }

// figure is what must keep its level, by month. The tolerance is a part of whole.
type figure struct{ of, whole func(*plant.Month) float64 }

var figures = []figure{
	itself(func(m *plant.Month) float64 { return m.Mixing.CakeDry }),
	// Fresh chips are what the recovered ones leave wanting, a quarter of all in some
	// plants: whether the last lots of a year are screened before or after its end
	// moves them by several times the part by which it moves the recovered ones.
	{
		of:    func(m *plant.Month) float64 { return m.Chips.FreshUsed },
		whole: func(m *plant.Month) float64 { return m.Chips.Used },
	},
	itself(func(m *plant.Month) float64 { return m.Chips.Recovered }),
	itself(func(m *plant.Month) float64 { return m.Product.Volume }),
	itself(func(m *plant.Month) float64 { return m.Losses.Vapour }),
	itself(func(m *plant.Month) float64 { return m.Vessels.Mean }),
}

// itself is a figure whose tolerance is a part of its own level.
func itself(of func(*plant.Month) float64) figure { return figure{of, of} }

func byYear(months []plant.Month, of func(*plant.Month) float64) []float64 {
	var out []float64
	for year := range slices.Chunk(months, 12) {
		sum := 0.0
		for i := range year {
			sum += of(&year[i])
		}
		out = append(out, sum)
	}
	return out
}

// pilot returns the model that is followed: the same every year.
func pilot(m plant.Model) plant.Model {
	m.Start, m.WarmUp, m.Years = m.Begin(), 0, pilotYears
	f := &m.Feed
	f.Level()
	f.Pulses = nil
	f.Noise, f.SolidsCV = random.AR1Lognormal{}, 0
	m.Feedstocks = slices.Clone(m.Feedstocks)
	for i := range m.Feedstocks {
		m.Feedstocks[i].CV = 0
	}
	m.Changes = nil
	m.Chips.Punctual()
	m.Mixer.Failure, m.Screening.Failure = plant.Failure{}, plant.Failure{}
	m.Yard.Trucks.Failure, m.Yard.Loaders.Failure = plant.Failure{}, plant.Failure{}
	return m
}
