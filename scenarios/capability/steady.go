package capability

import (
	"fmt"
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// longHolding is the time for which a plant may hold cake, days of the first
// year's production, while its years still stand each for itself.
const longHolding = 60

// Steadiness says whether a year's service depends on its production, and on what of
// the file's dated changes is in force, alone.
type Steadiness struct {
	// Why it does not, in words that follow "because"; empty if it does.
	Why string
	// Leaning says that years lean on those before, so that none stands for itself.
	Leaning bool
}

// Steady looks whether years stand each for itself.
func Steady(f *facilityfile.File) Steadiness {
	m, p := &f.Model, &f.Planning
	switch {
	case m.Holding.Capacity > longHolding*m.Feed.Base:
		return Steadiness{Leaning: true, Why: fmt.Sprintf("cake is held for more than %d days, so that years lean on the one before", longHolding)}
	case slices.ContainsFunc(m.Changes, func(c plant.Change) bool { return c.Trigger.Waits() }):
		return Steadiness{Leaning: true, Why: "the file changes the plant on a sign"}
	case len(m.Feed.Pulses) > 0:
		return Steadiness{Why: "production has pulses on dates"}
	case m.Feed.PartsShift(m.Years):
		return Steadiness{Why: "the plants that send cake grow differently"}
	}
	for _, c := range p.Correlations {
		if a, b := alters(p, m, c.A), alters(p, m, c.B); a.production && b.plant || b.production && a.plant {
			return Steadiness{Why: "uncertain inputs of production and of the plant go together"}
		}
	}
	return Steadiness{}
}

// MovesProduction reports whether an uncertain input, by its place in the file, moves
// production. It then moves nothing of the plant, so that what is carried stays the same.
func MovesProduction(f *facilityfile.File, input int) bool {
	return alters(&f.Planning, &f.Model, input).production
}

// altered is what an uncertain input moves. Money is neither.
type altered struct{ production, plant bool }

// alters tries an uncertain input at two quantiles, the others at their medians.
func alters(p *facilityfile.Planning, m *plant.Model, input int) altered {
	quantiles := make([]float64, len(p.Inputs))
	for i := range quantiles {
		quantiles[i] = 0.5
	}
	at := func(q float64) plant.Model {
		quantiles[input] = q
		model, _ := p.At(*m, quantiles)
		return model
	}
	low, high := at(0.1), at(0.9)
	const late = 10.5 // years
	production := func(m plant.Model) float64 { return m.Feed.Base * m.Feed.Growth.Factor(late) }
	if math.Abs(production(high)-production(low)) > 1e-9*production(low) {
		return altered{production: true}
	}
	in, _ := facilityfile.InputNamed(p.Inputs[input].Key)
	return altered{plant: in.UsedBy != facilityfile.ForPlanning}
}
