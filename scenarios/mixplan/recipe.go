package mixplan

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"loamcast/facility/mix"
	"loamcast/facility/plant"
	"loamcast/facility/screening"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/digest"
	"loamcast/sim/replicate"
)

// Recipe is what the designs of twelve months make of the recipe of a run.
type Recipe struct {
	Chips  [12]float64  // per cake, by loose volume
	Missed []time.Month // whose design misses a target: no mix meets them all
	Open   []time.Month // whose design is the nearest of a search that did not come to rest
}

// Apply puts the design of each month's cake into the recipe of a file that asks for
// it, and leaves any other file alone, with a nil Recipe. A design uses the file's
// targets, of its materials those that are amendments of the recipe, and recovered chips as
// far as they go, however wet, since a run does. What is drawn or changed later, such as the
// solids of the cake, does not change the recipe.
//
// What is known is not worked out again; nil knows nothing. The recipe is the same.
//
// It returns the context's error if that has ended, and a *facilityfile.Error where a
// month has no steady mix, its best mix has no chips, or a batch of it more of an
// amendment than is ever there.
func Apply(ctx context.Context, f *facilityfile.File, workers int, known Memory) (*Recipe, error) {
	if !f.Mix.Designed {
		return nil, nil
	}
	var made yearly
	of := followsFrom(f)
	if known == nil || !known.Recall(of, &made) {
		var err error
		if made, err = designYear(ctx, f, workers); err != nil {
			return nil, err
		}
		if known != nil {
			known.Keep(of, made)
		}
	}
	amendments := slices.Clone(f.Model.Amendments)
	for i := range amendments {
		if amendments[i].Source == plant.Supplied {
			amendments[i].PerCake = made.Amendments[i]
		}
	}
	f.Model.Amendments, f.Model.Recipe.ChipsByMonth = amendments, &made.Recipe.Chips
	for i, need := range f.Model.AmendmentNeeds() {
		if a := &amendments[i]; !a.Without && need.Batch > a.Room() {
			return nil, &facilityfile.Error{Err: fmt.Errorf("%s: mix.recipe: a batch of the design takes up to %.3g m3 of %s, of which never more than %.3g m3 are there: raise what is ordered or stored of it, or write when_short: do without",
				f.Path, need.Batch, a.Material.Name, a.Room())}
		}
	}
	return &made.Recipe, nil
}

// Memory knows what was worked out before, by a digest of all that it follows from as long
// as the program is the same. It is asked by several goroutines at a time.
type Memory interface {
	// Recall reads what is known into what points to a value of its type that is zero, and
	// reports whether it is known.
	Recall(of digest.Sum, into any) bool
	Keep(of digest.Sum, what any)
}

// yearly is the recipe of a file, and what each of its amendments is in it.
type yearly struct {
	Recipe     Recipe
	Amendments [][12]float64 // per cake by volume, in the model's order
}

// followsFrom returns the digest of what the designs of a file follow from. What a single
// load does not meet, in vessel, on the pad and on the screen, is no part of it, so that
// another growth or another vessel asks for no other design.
func followsFrom(f *facilityfile.File) digest.Sum {
	m := f.Model
	m.Start, m.Years, m.WarmUp = calendar.Date{}, 0, 0
	m.Feed = plant.Feed{CakeSolids: m.Feed.CakeSolids}
	m.Feedstocks, m.Dewatering, m.Holding, m.Contract = nil, plant.Dewatering{}, plant.Holding{}, plant.Contract{}
	m.Changes, m.Outages, m.Spells, m.Yard, m.Product, m.Opening = nil, nil, nil, plant.Yard{}, plant.Product{}, nil
	m.Vessels.Installed = 0
	return digest.Of("recipe", &m, f.Mix)
}

// designYear designs the mix of each month's cake.
func designYear(ctx context.Context, f *facilityfile.File, workers int) (made yearly, err error) {
	designs, err := replicate.Run(ctx, calendar.MonthsPerYear, workers, func(ctx context.Context, i int) (*designed, error) {
		d := newDesigner(f, 0, time.Month(i+1), 0)
		d.wishes.Amendments = slices.DeleteFunc(slices.Clone(d.wishes.Amendments), func(m mix.Material) bool { return amendmentAt(d.Model, m.Name) < 0 })
		return d.run(ctx)
	}, nil)
	switch {
	case errors.Is(err, screening.ErrNotSteady):
		return made, &facilityfile.Error{Err: fmt.Errorf("%s: mix.recipe: the designs of some month do not settle: %w; write the recipe yourself", f.Path, err)}
	case err != nil:
		return made, fmt.Errorf("designing the recipe: %w", err)
	}
	out := &made.Recipe
	for i := range f.Model.Amendments {
		made.Amendments = append(made.Amendments, f.Model.Amendments[i].PerCake)
	}
	for i, d := range designs {
		per := d.perCake()
		for j, m := range d.design.Materials {
			if m.Kind.IsChips() {
				out.Chips[i] += per[j]
			} else if at := amendmentAt(&f.Model, m.Name); m.Kind == mix.Amendment {
				made.Amendments[at][i] = per[j]
			}
		}
		if !(out.Chips[i] >= few) {
			return made, &facilityfile.Error{Err: fmt.Errorf("%s: mix.recipe: the best mix of %s has no chips, and vessels are loaded with chips; ask for some with mix.targets: {chips_to_cake: {at_least: 1}}",
				f.Path, time.Month(i+1))}
		}
		if d.result.Status != mix.Met {
			out.Missed = append(out.Missed, time.Month(i+1))
		}
		if !d.settled() {
			out.Open = append(out.Open, time.Month(i+1))
		}
	}
	return made, nil
}

// amendmentAt returns the place of an amendment of the recipe, or −1.
func amendmentAt(m *plant.Model, name string) int {
	return slices.IndexFunc(m.Amendments, func(a plant.Amendment) bool { return a.Source == plant.Supplied && a.Material.Name == name })
}

// perCake returns the volume of each material for each of cake, as delivered.
func (d *designed) perCake() []float64 {
	cake := 0.0
	out := make([]float64, len(d.design.Materials))
	for i, m := range d.design.Materials {
		out[i] = d.result.Mass[i] / m.BulkDensity
		if m.Kind == mix.Cake {
			cake += out[i]
		}
	}
	for i := range out {
		out[i] /= cake
	}
	return out
}
