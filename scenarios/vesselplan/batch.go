package vesselplan

import (
	"math"
	"slices"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
)

// Batch is how many vessels to order at a time.
type Batch struct {
	Vessels int // 0 if none need be ordered, or none help
	// Why says by what it was chosen.
	Why BatchReason
	// Next is the quarter of the horizon by whose end more are needed than these,
	// the number of its quarters if none are.
	Next int
	// Worth is the present worth of ordering so many each time through the horizon,
	// and OneByOne that of ordering them singly, USD; NaN without prices.
	Worth, OneByOne float64
}

// BatchReason is by what a batch was chosen.
type BatchReason int

// Reasons for a batch.
const (
	ByTime  BatchReason = iota // the next order can wait until these are in use, and a year has shown what growth does
	ByWorth                    // the same, and no other number is cheaper over the horizon
	AllTold                    // no number of those tried lasts so long
)

// batch chooses how many vessels to order at a time: so many that the next order
// need not be placed before these are in use, and of those numbers the cheapest
// over the horizon where the file has prices of vessels.
func (a *Answer) batch(f *facilityfile.File) Batch {
	rows := a.Planned().Rows
	if !rows[0].RunsShort(a.Horizon) || len(rows) < 2 || !a.Planned().VesselsHelp() {
		return Batch{Worth: math.NaN(), OneByOne: math.NaN()}
	}
	prices := classPrices(f)
	best := Batch{Vessels: len(rows) - 1, Why: AllTold, Next: rows[len(rows)-1].Short, Worth: math.NaN(), OneByOne: math.NaN()}
	one := a.worth(rows, 1, prices, f)
	for k := 1; k < len(rows); k++ {
		if rows[k].RunsShort(a.Horizon) && rows[k].OrderBy.Before(rows[0].NeededBy) {
			continue
		}
		b := Batch{Vessels: k, Why: ByTime, Next: rows[k].Short, Worth: a.worth(rows, k, prices, f), OneByOne: one}
		switch {
		case best.Why == AllTold:
			best = b
		case b.Worth < best.Worth:
			best = b
		}
	}
	if !math.IsNaN(best.Worth) && best.Why == ByTime {
		best.Why = ByWorth
	}
	return best
}

// worth is the present worth of ordering so many vessels each time they are needed,
// as far as rows tell; NaN where the file has no price for so many.
func (a *Answer) worth(rows []Row, k int, prices [][][]money.Asset, f *facilityfile.File) float64 {
	plan := money.Plan{Rates: f.Planning.Economy.Rates, Years: make([]money.Use, a.Horizon)}
	for at := 0; at < len(rows) && rows[at].RunsShort(a.Horizon); at += k {
		for class, n := range byClass(f, at, k) {
			if n >= len(prices[class]) || prices[class][n] == nil {
				return math.NaN()
			}
			for _, asset := range prices[class][n] {
				asset.Year = float64(rows[at].Short) / quarters
				asset.Lead = a.Start.YearsUntil(f.Planning.LeadOf(class).After(a.Start))
				plan.Assets = append(plan.Assets, asset)
			}
		}
	}
	return -plan.Rates.PresentWorth(plan.Flows())
}

// classPrices are those of each class of vessels.
func classPrices(f *facilityfile.File) [][][]money.Asset {
	out := make([][][]money.Asset, f.Model.Vessels.ClassCount())
	for class := range out {
		out[class] = vesselPrices(&f.Planning, class)
	}
	return out
}

// vesselPrices are the cheapest purchases of each number of vessels of a class, made of
// the steps in the file that bring such vessels and places for them and nothing else; nil
// for numbers that they do not make up.
func vesselPrices(p *facilityfile.Planning, class int) [][]money.Asset {
	if !p.Priced {
		return nil
	}
	steps := slices.Clone(p.Catalogue)
	for _, o := range p.Options {
		steps = append(steps, o.Steps...)
	}
	const most = 20
	out := make([][]money.Asset, most+1)
	out[0] = []money.Asset{}
	for n := 1; n <= most; n++ {
		best := math.Inf(1)
		for _, s := range steps {
			if !s.OnlyVessels() || s.Class != class || s.Vessels > n || out[n-s.Vessels] == nil {
				continue
			}
			with := append(slices.Clone(out[n-s.Vessels]), s.Asset)
			if cost := total(with); cost < best {
				best, out[n] = cost, with
			}
		}
	}
	return out
}

func total(assets []money.Asset) float64 {
	sum := 0.0
	for _, a := range assets {
		sum += a.Cost.Amount
	}
	return sum
}
