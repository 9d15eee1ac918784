package costs

import (
	"math"
	"slices"

	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
)

// product is the place of product among the items.
var product = slices.IndexFunc(money.Prices{}.Items(money.Use{}), func(it money.Item) bool { return it.Part == money.Sales })

// amendments is the place of all amendments together among the items.
var amendments = slices.IndexFunc(money.Prices{}.Items(money.Use{Amendments: 1}), func(it money.Item) bool { return it.Quantity == 1 })

// items are what a year uses and sells, in the order of [money.Prices.Items], and what is
// paid whatever the plant does, with the prices of a file. Behind them are the amendments
// one by one, where the file has any: then all together are none.
//
// An item that has no price in the file, but one that is drawn, has the larger end of what
// is drawn, so that its quantity can be counted by it.
func items(f *facilityfile.File) []doc.ReckonedItem {
	e := &f.Planning.Economy
	sold, note := soldAt(&e.ProductPrice)
	out := []doc.ReckonedItem{
		{Name: "labour", Price: e.Prices.Labour, Amount: doc.Count, Per: doc.MoneyPerH, Unit: "h"},
		{Name: "power", Price: e.Prices.Power, Amount: doc.Count, Per: doc.MoneyPerKWh, Unit: "kWh"},
		{Name: "fuel", Price: e.Prices.Fuel, Amount: doc.Liquid, Per: doc.MoneyPerLiq},
		{Name: "carbon given off for power and fuel", Price: e.Prices.Carbon, Amount: doc.Mass, Per: doc.MoneyPerDry},
		{Name: "fresh chips", Price: e.Prices.Chips, Amount: doc.Volume, Per: doc.MoneyPerVol, Note: chipsNote(e)},
		{Name: "amendments", Price: e.Rates.General(1), Amount: doc.Money, Per: doc.Ratio, Note: "at the file's prices: the price here is how many times these are paid"},
		{Name: "hauling and tipping", Price: e.Prices.Tipping, Amount: doc.Mass, Per: doc.MoneyPerDry, Note: "wet"},
		{Name: "hauled by contract", Price: money.Price{Amount: 1, Escalation: e.Prices.Tipping.Escalation}, Amount: doc.Money, Per: doc.Ratio, Note: "at the contracts' prices: the price here is how many times these are paid"},
		{Name: "missing the target", Price: e.Prices.Missing, Amount: doc.Mass, Per: doc.MoneyPerDry, Note: missingNote(e)},
		{Name: "samples", Price: e.Prices.Sampling, Amount: doc.Count, Per: doc.Money, Unit: "sample"},
		{Name: "product sold", Price: money.Price{Amount: sold, Escalation: e.Prices.Product.Escalation}, Amount: doc.Volume, Per: doc.MoneyPerVol, Note: note},
		{Name: "overhead", Price: e.Rates.General(e.Overhead), Amount: doc.Count, Per: doc.Money, Unit: "year"},
	}
	ends := ends(f)
	for i, it := range e.Prices.Items(money.Use{}) {
		out[i].Part = it.Part
		if out[i].Price.Amount == 0 {
			out[i].Price.Amount = larger(ends[0][i], ends[1][i])
			if out[i].Price.Amount != 0 {
				out[i].Note = "the file gives it no price, but one that is drawn: counted at the end of what is drawn"
			}
		}
	}
	out[len(out)-1].Part = money.Running
	return append(out, amendmentItems(f)...)
}

// amendmentItems are the amendments of the recipe, those bought and those of own sources,
// that have a price.
func amendmentItems(f *facilityfile.File) []doc.ReckonedItem {
	e := &f.Planning.Economy
	var out []doc.ReckonedItem
	for _, a := range amendmentPrices(f) {
		out = append(out, doc.ReckonedItem{
			Name: a.name, Part: money.Chips, Price: e.Rates.General(a.price(e)), Amount: doc.Volume, Per: doc.MoneyPerVol,
		})
	}
	return out
}

// amendmentPrice is an amendment as it is bought, or as it comes from own sources.
type amendmentPrice struct {
	name   string
	price  func(*facilityfile.Economy) float64
	volume func(*plant.Month) float64
}

// amendmentPrices are those that a file has.
func amendmentPrices(f *facilityfile.File) []amendmentPrice {
	var out []amendmentPrice
	for i := range f.Planning.Economy.Amendments {
		name := f.Model.Amendments[i].Material.Name
		for _, a := range []amendmentPrice{
			{name + ", bought", func(e *facilityfile.Economy) float64 { return e.Amendments[i].Bought }, func(m *plant.Month) float64 { return m.Amendments[i].Bought }},
			{name + ", of own sources", func(e *facilityfile.Economy) float64 { return e.Amendments[i].Own }, func(m *plant.Month) float64 { return m.Amendments[i].Own }},
		} {
			if a.price(&f.Planning.Economy) != 0 {
				out = append(out, a)
			}
		}
	}
	return out
}

// ends are the prices of items with everything drawn at either end.
func ends(f *facilityfile.File) [2][]float64 {
	var out [2][]float64
	for k := range out {
		at := make([]float64, len(f.Planning.Inputs))
		for i := range at {
			at[i] = float64(k)
		}
		_, e := f.Planning.At(f.Model, at)
		for _, it := range e.Prices.Items(money.Use{}) {
			out[k] = append(out[k], it.Price.Amount)
		}
		out[k][product], _ = soldAt(&e.ProductPrice)
	}
	return out
}

// larger returns that of two numbers which is farther from zero.
func larger(a, b float64) float64 {
	if math.Abs(a) > math.Abs(b) {
		return a
	}
	return b
}

// soldAt returns the price by which product is counted: the file's, or the mean of its
// twelve, or the farthest from zero if that comes to nothing.
func soldAt(months *[12]float64) (price float64, note string) {
	sum, most, same := 0.0, 0.0, true
	for _, p := range months {
		sum, most = sum+p, larger(most, p)
		same = same && p == months[0]
	}
	if same {
		return months[0], ""
	}
	const few = "the file has prices by month: "
	if mean := sum / float64(len(months)); mean != 0 {
		return mean, few + "the price here is their mean, and the quantity counts each month by its own"
	}
	return most, few + "the price here is one of them, and the quantity counts each month by its own"
}

// missingNote says what counts as missing the target, and whether that has a price.
func missingNote(e *facilityfile.Economy) string {
	note := "dry solids that leave untreated beyond what the target allows"
	if e.Prices.Missing.Amount == 0 {
		note += "; the file gives them no price"
	}
	return note
}

// chipsNote says how chips of several sources are counted.
func chipsNote(e *facilityfile.Economy) string {
	if e.ChipSources == nil {
		return ""
	}
	return "the price is that of the first source, and those of others count by theirs"
}
