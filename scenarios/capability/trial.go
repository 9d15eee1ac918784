package capability

import (
	"context"
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Trial is one year of a plant.
type Trial struct {
	Load float64 // even production that is as heavy as that of the year, without noise, kg dry per day
	Seen
}

// ramp is production that rises evenly, in proportion, from the mean of one year
// to that of another, kg dry per day.
type ramp struct {
	from, to float64
	years    int
}

// rampAbout returns the ramp for a curve, by what half of the years bear and its spread,
// or for a plant of which nothing is left to chance.
func rampAbout(middle, spread float64, constant bool) ramp {
	return ramp{middle * math.Exp(rampLow*spread), middle * math.Exp(rampEnd(constant)*spread), rampYears}
}

// rampEnd is where a ramp ends, in spreads of the curve.
func rampEnd(constant bool) float64 {
	if constant {
		return rampPast
	}
	return rampHigh
}

// load returns the mean production of a year of the ramp.
func (r ramp) load(year int) float64 {
	return r.from * math.Pow(r.to/r.from, float64(year)/float64(r.years-1))
}

// after returns the ramp without its first years.
func (r ramp) after(years int) ramp { return ramp{r.load(years), r.to, r.years - years} }

// longBefore a ramp begins, years, dated changes are made to come into force.
const longBefore = 10

// under puts the ramp in the place of a model's production.
func (r ramp) under(m *plant.Model) {
	m.Feed.Base = r.from
	m.Feed.Growth = plant.Compound{Rate: r.load(1)/r.load(0) - 1}
	m.Years = r.years
	m.Changes = slices.Clone(m.Changes)
	for i := range m.Changes { // all in force
		c := &m.Changes[i]
		c.Date = c.Lead.Before(m.Start.AddYears(-longBefore))
	}
	if m.WarmUp > 1 {
		*m = m.WarmedUp(1)
	}
}

// Even returns years of even production of a case, kg dry per day: two of each of so
// many runs, with their number, warm-ups included. All that its file and its steps
// change on dates is in force.
func Even(ctx context.Context, s *study.Study, c study.Case, load float64, runs int) (years []Trial, simulated int, err error) {
	c.First, c.Years = 0, 0
	f := finder{study: s}
	found, err := f.try(ctx, c, ramp{load, load, 2}, 0, runs)
	return slices.Concat(found...), f.simulated, err
}

// up lists replications of a case, from one on, that go up the ramp, each in other
// years of the horizon than the last: a year in which a holiday lengthens a weekend, or
// falls on one, would else come with one and the same load in all.
func (r ramp) up(c study.Case, from, n int) []study.Run {
	const apart = 5 // years, so that a few replications are spread over the horizon
	alter := c.Alter
	out := make([]study.Run, n)
	for i := range out {
		one, replication := c, from+i
		one.Alter = func(m *plant.Model) {
			if alter != nil {
				alter(m)
			}
			first := apart * replication % max(1, m.Years-r.years+1)
			if m.Opening != nil {
				// What is there on the first day is of today's production, not of where the
				// ramp begins: every ramp is warmed up by a year of its own.
				first++
			}
			*m = m.Window(first, r.years)
			r.under(m)
		}
		out[i] = study.Run{Case: &one, Replication: replication}
	}
	return out
}

// trials returns the years of a run up the ramp, of a file.
func (r ramp) trials(run *study.Result, f *facilityfile.File) []Trial {
	weigh, t := scaleOf(f), f.Planning.Target
	out := make([]Trial, 0, r.years)
	for year, seen := range SeenIn(run.Record.Months, t, run.Replication) {
		out = append(out, Trial{r.heavy(year, weigh), seen})
	}
	return out
}

// try runs replications from one to before another up a ramp. Where nothing is left
// to chance, one stands for all.
func (f *finder) try(ctx context.Context, c study.Case, r ramp, from, before int) ([][]Trial, error) {
	return f.watched(ctx, c, r, from, before, func(*study.Result) {})
}

// watched is try that shows each run to look, some of them at a time.
func (f *finder) watched(ctx context.Context, c study.Case, r ramp, from, before int, look func(*study.Result)) ([][]Trial, error) {
	runs := r.up(c, from, before-from)
	if f.constant {
		runs = runs[:1]
	}
	f.simulated += len(runs) * (r.years + 1)
	found, err := study.Each(ctx, f.study, runs, func(run *study.Result) ([]Trial, error) {
		look(run)
		return r.trials(run, f.study.File), nil
	}, nil)
	if err != nil {
		return nil, err
	}
	for len(found) < before-from {
		found = append(found, found[0])
	}
	return found, nil
}
