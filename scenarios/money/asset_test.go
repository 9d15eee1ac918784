package money

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Shows when an asset is paid, replaced and valued, worked out by hand. Lumps are
// written as {instant, USD}; all cost 100.
func TestAssetLumps(t *testing.T) {
	type lump struct{ at, usd float64 }
	for _, c := range []struct {
		name    string
		asset   Asset
		horizon int
		want    []lump
	}{
		{"worn out at the end", Asset{Life: 10}, 10, []lump{{0, -100}, {10, 0}}},
		{"half its life left", Asset{Life: 20}, 10, []lump{{0, -100}, {10, 50}}},
		{"scrap at the end of life", Asset{Life: 10, SalvageShare: 0.1}, 10, []lump{{0, -100}, {10, 10}}},
		{"half way to scrap", Asset{Life: 20, SalvageShare: 0.1}, 10, []lump{{0, -100}, {10, 55}}},
		{"replaced once, old one scrapped", Asset{Life: 8, SalvageShare: 0.1}, 12, []lump{{0, -100}, {8, -100}, {8, 10}, {12, 55}}},
		{"replaced twice, ordered ahead", Asset{Life: 4, Year: 2, Lead: 1}, 12, []lump{{1, -100}, {5, -100}, {6, 0}, {9, -100}, {10, 0}, {12, 50}}},
		{"lives that add up to the horizon but for rounding", Asset{Life: 10.0 / 3}, 10, []lump{{0, -100}, {10. / 3, -100}, {10. / 3, 0}, {20. / 3, -100}, {20. / 3, 0}, {10, 0}}},
		{"lead longer than there is time", Asset{Life: 20, Year: 1, Lead: 3}, 11, []lump{{0, -100}, {11, 50}}},
		{"in service after the end", Asset{Life: 5, Year: 10, Lead: 2}, 10, nil},
		{"does not wear", Asset{Life: math.Inf(1)}, 10, []lump{{0, -100}, {10, 100}}},
		{"old and sunk", Asset{Life: 30, Year: -5}, 10, nil},
		{"old, replaced, scrapped", Asset{Life: 10, Year: -4, SalvageShare: 0.2, Lead: 1}, 10, []lump{{5, -100}, {6, -100 * -0.2}, {10, 68}}},
		{"old, worn out at the start", Asset{Life: 10, Year: -10, Lead: 1}, 5, []lump{{0, -100}, {0, 0}, {5, 50}}},
	} {
		c.asset.Cost.Amount = 100
		var got []lump
		for _, f := range c.asset.Flows(c.horizon, EndOfYear) {
			if f.Part == Capital || f.Part == Salvage {
				got = append(got, lump{f.At, f.Amount})
			}
		}
		same := slices.EqualFunc(got, c.want, func(a, b lump) bool {
			return math.Abs(a.at-b.at) < 1e-9 && math.Abs(a.usd-b.usd) < 1e-9
		})
		if !same {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// Shows upkeep for the share of each year in service: an asset of 200,000 USD at
// 3 % a year and 1,200 USD a year, in service a quarter into year 1.
func TestAssetUpkeep(t *testing.T) {
	a := Asset{Cost: Price{Amount: 200_000}, Life: 20, Year: 1.25, Maintenance: 0.03, Running: Price{Amount: 1200}}
	account := byYear(a.Flows(3, MidYear), 3, plain(0).Nominal)
	for year, share := range []float64{0, 0.75, 1} {
		nearly(t, "maintenance", account[year][Maintenance], -6000*share)
		nearly(t, "running", account[year][Running], -1200*share)
	}
	nearly(t, "capital in its year", account[1][Capital], -200_000)
	nearly(t, "worth at the end in the last year", account[2][Salvage], 200_000*(1-1.75/20))
}

// Shows the textbook's capital recovery with salvage: (P − S)·(A/P) + S·i is the
// equivalent annual cost of an asset kept to the end of its life (Newnan,
// Eschenbach and Lavelle, from memory), for any whole number of lives.
func TestCapitalRecoveryWithSalvage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, life := between(t, "rate", 0, 0.2), rapid.IntRange(1, 15).Draw(t, "life")
		cycles := rapid.IntRange(1, 4).Draw(t, "cycles")
		cost, share := between(t, "cost", 1, 1e6), between(t, "salvage", 0, 1)
		r, horizon := plain(i), life*cycles
		flows := Asset{Cost: Price{Amount: cost}, Life: float64(life), SalvageShare: share}.Flows(horizon, EndOfYear)
		salvage := share * cost
		nearly(t, "annual", -r.PresentWorth(flows)/r.Annuity(horizon), (cost-salvage)/SeriesPresentWorth(i, life)+salvage*i)
	})
}

// Shows that without interest an asset costs exactly what it loses in worth:
// each year in service takes (1 − salvage)/life of its cost, whenever it is
// bought, however often it is replaced.
func TestAssetCostsItsWear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAsset(t)
		a.Cost.Escalation, a.Maintenance, a.Running = 0, 0, Price{}
		horizon := rapid.IntRange(1, 40).Draw(t, "horizon")
		inService := max(0, float64(horizon)-a.Year)
		wear := a.Cost.Amount * (1 - a.SalvageShare) / a.Life * inService
		near(t, "cost", -plain(0).PresentWorth(a.Flows(horizon, EndOfYear)), wear, 1e-6*(1+wear))
	})
}

// Shows which assets are refused, and that land is not.
func TestAssetValidate(t *testing.T) {
	ok := Asset{Name: "pad", Cost: Price{Amount: 1e5}, Life: math.Inf(1), Year: -3, SalvageShare: 1}
	if err := ok.Validate(); err != nil {
		t.Errorf("sound asset: %v", err)
	}
	for _, c := range []struct {
		spoil func(*Asset)
		want  string
	}{
		{func(a *Asset) { a.Life = 0.01 }, "pad: life 0.01 years must be a month or more"},
		{func(a *Asset) { a.Life = math.NaN() }, "pad: life NaN years must be a month or more"},
		{func(a *Asset) { a.Year = math.Inf(1) }, "pad: year +Inf must be finite"},
		{func(a *Asset) { a.Year, a.Life = -12, 10 }, "pad: in service 12 years before the start, longer than its life of 10 years"},
		{func(a *Asset) { a.Lead = -1 }, "pad: lead time -1 years must be 0 or more"},
		{func(a *Asset) { a.SalvageShare = 1.1 }, "pad: salvage share 1.1 must lie from 0 to 1"},
		{func(a *Asset) { a.Maintenance = -0.1 }, "pad: maintenance -0.1 per year must be 0 or more"},
		{func(a *Asset) { a.Cost.Amount = -5 }, "pad: cost -5 must be 0 or more"},
		{func(a *Asset) { a.Cost.Amount = math.NaN() }, "pad: price NaN must be finite"},
		{func(a *Asset) { a.Running.Escalation = -1 }, "pad: running cost: escalation -1 per year must be above −1"},
	} {
		a := ok
		c.spoil(&a)
		if err := a.Validate(); err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %q", err, c.want)
		}
	}
}
