package expand

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Adaptive is the first plan with each of its steps ordered when a sign is seen, and
// not on a date: sooner where production grows fast, later or never where it does not.
type Adaptive struct {
	Steps []Signed
	// Present is the mean present worth of all costs, and OverDated what that is over
	// the same steps on their dates, paired by replication, 95 %, USD.
	Present, OverDated stats.Interval
	// Missed is how many of the whole runs miss the worst year through Answer.Through,
	// of Replications.
	Missed, Replications int
}

// Signed is a step with its sign.
type Signed struct {
	Name   string
	Brings string // vessels of which class, each time; empty where there is one class only
	Count  int
	// Production is the mean of the last twelve months at which to order, kg dry of
	// cake per day; 0 where the step stays on its date: it is needed from the start, or
	// pays for itself.
	Production float64
	// From and To are when the sign may come, 90 %, and Never the share of futures in
	// which it does not.
	From, To calendar.Date
	Never    float64
}

// adapt simulates the first plan with signs in the place of dates; nil where no step
// has a sign, or one growth scenario is looked at alone.
func (e *expansion) adapt(ctx context.Context, first *whole, through int) (*Adaptive, error) {
	if !e.steady || len(e.growths.places) < len(e.file.Planning.Growths) {
		return nil, nil
	}
	a, w := &Adaptive{}, &whole{runs: map[int]outcome{}}
	futures, err := capability.FuturesOf(ctx, e.study, e.states.Demand(0).Mean(0))
	if err != nil {
		return nil, err
	}
	before, most := 0, 0.0
	for year, config := range first.configs {
		if config == before {
			continue
		}
		for i, step := range e.steps {
			n := e.count(config, i) - e.count(before, i)
			if n == 0 {
				continue
			}
			signed := Signed{Name: step.Name, Brings: step.Brings(&e.model.Vessels), Count: n}
			if year > 0 {
				if err := e.sign(ctx, &signed, futures, before, step.Lead, most); err != nil {
					return nil, err
				}
			}
			step.Date = step.Lead.Before(e.model.Start.AddYears(year))
			if signed.Production > 0 {
				most = signed.Production
				step.Date, step.Trigger = calendar.Date{}, plant.Trigger{Production: signed.Production}
			}
			a.Steps = append(a.Steps, signed)
			w.steps = append(w.steps, slices.Repeat([]facilityfile.Step{step}, n)...)
		}
		before = config
	}
	if most == 0 {
		return nil, nil
	}
	n := first.replications()
	if err := e.extend(ctx, []*whole{w}, n); err != nil {
		return nil, err
	}
	e.wholes = append(e.wholes, w)
	a.Replications = n
	for y := range through + 1 {
		a.Missed = max(a.Missed, w.hits(y))
	}
	if a.Present, err = stats.MeanInterval(w.present(n), level); err != nil {
		return nil, err
	}
	a.OverDated, err = stats.PairedMean(w.present(n), first.present(n), level)
	return a, err
}

// sign finds when to order what follows a configuration, no sooner than at a
// production already waited for.
func (e *expansion) sign(ctx context.Context, s *Signed, futures *capability.Futures, before int, lead calendar.Span, least float64) error {
	if e.last[before] == e.years-1 {
		return nil // it is not for want of it that the step comes
	}
	if e.odds[before] == nil {
		if err := e.simulate(ctx, before); err != nil {
			return err
		}
	}
	if sign := futures.Sign(e.found[before], lead); sign != nil {
		s.Production, s.From, s.To, s.Never = max(sign.Production, least), sign.From, sign.To, sign.Never
	}
	return nil
}
