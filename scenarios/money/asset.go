package money

import (
	"fmt"
	"math"
)

// Asset is something that is bought, kept up, replaced when worn out, and worth
// something at the end.
//
// It is paid when ordered, Lead years before it goes into service, but not
// before the plan starts. At the end of its life within the horizon it is
// replaced by its like: the old one fetches SalvageShare of its cost. At the end
// of the horizon it counts with the rest of its worth, which falls in a straight
// line over its life from its cost to SalvageShare of it, in stated prices. An
// asset that would go into service at the end or later is not bought.
//
// One that was in service before the start (Year < 0) is sunk: neither what it
// cost nor what it is worth at the end counts; its upkeep and its replacements
// do.
type Asset struct {
	Name         string
	Cost         Price   // USD
	Life         float64 // years; +Inf for what does not wear, such as land
	Year         float64 // when it goes into service, years since the start of the plan
	Lead         float64 // years from order to service
	SalvageShare float64 // of the cost, at the end of its life, 0 to 1
	Maintenance  float64 // share of the cost per year in service
	Running      Price   // USD per year in service
}

// shortestLife of an asset, years; what is used up sooner is a running cost.
const shortestLife = 1.0 / 12

// Validate reports the first value that has no meaning.
func (a Asset) Validate() error {
	finite := func(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
	switch {
	case !(a.Life >= shortestLife):
		return fmt.Errorf("%s: life %g years must be a month or more", a.Name, a.Life)
	case !finite(a.Year):
		return fmt.Errorf("%s: year %g must be finite", a.Name, a.Year)
	case a.Year+a.Life < 0:
		return fmt.Errorf("%s: in service %g years before the start, longer than its life of %g years", a.Name, -a.Year, a.Life)
	case !finite(a.Lead) || a.Lead < 0:
		return fmt.Errorf("%s: lead time %g years must be 0 or more", a.Name, a.Lead)
	case !(a.SalvageShare >= 0 && a.SalvageShare <= 1):
		return fmt.Errorf("%s: salvage share %g must lie from 0 to 1", a.Name, a.SalvageShare)
	case !finite(a.Maintenance) || a.Maintenance < 0:
		return fmt.Errorf("%s: maintenance %g per year must be 0 or more", a.Name, a.Maintenance)
	}
	if a.Cost.Amount < 0 {
		return fmt.Errorf("%s: cost %g must be 0 or more", a.Name, a.Cost.Amount)
	}
	if err := a.Cost.validate(); err != nil {
		return fmt.Errorf("%s: %w", a.Name, err)
	}
	if err := a.Running.validate(); err != nil {
		return fmt.Errorf("%s: running cost: %w", a.Name, err)
	}
	return nil
}

// sameInstant is how many years apart two instants may be and count as one, so
// that lives which add up to the horizon but for rounding do.
const sameInstant = 1e-9

// Flows returns what the asset costs and fetches over a horizon in years.
func (a Asset) Flows(horizon int, timing Timing) []Flow {
	end := float64(horizon)
	if a.Year >= end-sameInstant {
		return nil
	}
	var out []Flow
	lump := func(part Part, at, share float64) {
		out = append(out, Flow{
			Part: part, Year: min(int(at), horizon-1), At: at,
			Amount: share * a.Cost.Amount, Escalation: a.Cost.Escalation,
		})
	}

	unit := 0
	service := func(unit int) float64 {
		if unit == 0 { // also where the life is infinite
			return a.Year
		}
		return a.Year + float64(unit)*a.Life
	}
	if a.Year >= 0 {
		lump(Capital, max(0, a.Year-a.Lead), -1)
	}
	for unit++; service(unit) < end-sameInstant; unit++ {
		lump(Capital, max(0, service(unit)-a.Lead), -1)
		lump(Salvage, service(unit), a.SalvageShare)
	}
	if last := service(unit - 1); last >= 0 {
		lump(Salvage, end, a.worth(end-last))
	}
	return append(out, a.upkeep(horizon, timing)...)
}

// worth returns the share of the cost that is left at an age in years.
func (a Asset) worth(age float64) float64 {
	return 1 - (1-a.SalvageShare)*min(1, age/a.Life)
}

// upkeep returns maintenance and running costs for the part of each year that
// the asset is in service.
func (a Asset) upkeep(horizon int, timing Timing) []Flow {
	var out []Flow
	for year := range horizon {
		inService := min(1, float64(year+1)-a.Year)
		if inService <= 0 {
			continue
		}
		f := Flow{Part: Maintenance, Year: year, At: timing.Instant(year)}
		f.Amount, f.Escalation = -a.Maintenance*a.Cost.Amount*inService, a.Cost.Escalation
		out = append(out, f)
		f.Part = Running
		f.Amount, f.Escalation = -a.Running.Amount*inService, a.Running.Escalation
		out = append(out, f)
	}
	return out
}
