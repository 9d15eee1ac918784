package costs

import (
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/money"
)

// Columns are the parts of a present worth, for files; that of contracts where there may
// be one.
func Columns[T any](contracts bool, of func(*T) *money.Amounts) []doc.Col[T] {
	var cols []doc.Col[T]
	for _, part := range money.Parts() {
		if part == money.Contract && !contracts {
			continue
		}
		cols = append(cols, doc.Val("present_worth_of_"+part.String(), doc.Money, func(x *T) float64 { return of(x)[part] }).Means(partMeanings[part]+", as a part of the present worth"))
	}
	return cols
}

// partMeanings say what the parts are.
var partMeanings = map[money.Part]string{
	money.Capital: "buying and replacing assets", money.Salvage: "what assets fetch, or are worth at the end", money.Maintenance: "upkeep, as a share of what was paid for assets",
	money.Running: "other yearly costs of assets", money.Labour: "wages", money.Power: "electricity", money.Fuel: "fuel", money.Carbon: "the price of the carbon given off for power and fuel",
	money.Chips: "chips and amendments", money.Tipping: "hauling away and tipping what is not treated", money.Contract: "hauling by contract", money.Missing: "missing the service target, at its price",
	money.Sampling: "sampling and analyses", money.Sales: "product sold",
}

// groups are the parts of a cost that are drawn in one ink.
var groups = []struct {
	name  string
	ink   doc.Ink
	parts []money.Part
}{
	{"building, less its worth at the end", doc.Blue, []money.Part{money.Capital, money.Salvage}},
	{"upkeep, overhead, sampling", doc.SkyBlue, []money.Part{money.Maintenance, money.Running, money.Sampling}},
	{"labour", doc.Orange, []money.Part{money.Labour}},
	{"power, fuel and the price of their carbon", doc.Purple, []money.Part{money.Power, money.Fuel, money.Carbon}},
	{"chips", doc.Green, []money.Part{money.Chips}},
	{"hauling away and tipping", doc.Vermilion, []money.Part{money.Tipping}},
	{"hauling by contract", doc.Yellow, []money.Part{money.Contract}},
	{"missing the target, at its price", doc.Faded, []money.Part{money.Missing}},
	{"product sold", doc.Grey, []money.Part{money.Sales}},
}

// Bars stack the parts of a present worth: costs to the right of zero, what
// brings money to the left.
func Bars(byPart *money.Amounts) []doc.Span {
	var bars []doc.Span
	left, right := 0.0, 0.0
	for _, g := range groups {
		v := 0.0
		for _, part := range g.parts {
			v += byPart[part]
		}
		if g.parts[0] == money.Contract && v == 0 {
			continue // most files have no contract
		}
		from := &right
		if v < 0 {
			from = &left
		}
		bars = append(bars, doc.Span{From: *from, To: *from + v, Ink: g.ink})
		*from += v
	}
	return bars
}

// Key explains the bars, and a black dot as the whole with its P10 and P90; missing and
// contracts say that missing the target and hauling by contract are among them.
func Key(missing, contracts bool) []doc.KeyEntry {
	var key []doc.KeyEntry
	for _, g := range groups {
		if g.parts[0] == money.Missing && !missing || g.parts[0] == money.Contract && !contracts {
			continue
		}
		key = append(key, doc.KeyEntry{Name: g.name, Ink: g.ink})
	}
	return append(key, doc.KeyEntry{Name: "all together; line: 80 % of runs", Ink: doc.Black, Dot: true})
}
