package vesselplan

import (
	"slices"

	doc "loamcast/scenarios/document"
)

// ByContract says that a contract takes part in what the vessels keep, and how much it
// hauls in the last year that they keep.
func (a *Answer) ByContract() doc.Text {
	if !a.Hauls {
		return doc.Text{}
	}
	const first = "A contract hauls cake that finds no vessel in time, and what it hauls counts as kept: more vessels are due later than without it."
	if len(a.Contract) == 0 {
		return doc.Words(first + " How much that is: loamcast run.")
	}
	last := len(a.Contract) - 1
	text := doc.Say(first+" With these vessels it hauls %s of the dry solids that come in %s", doc.With(a.Contract[last], doc.Share, 1), a.Label(last))
	if most := slices.Index(a.Contract, slices.Max(a.Contract)); most != last {
		text = text.Then(" and %s in %s, the most of the years before", doc.With(a.Contract[most], doc.Share, 1), a.Label(most))
	}
	return text.Then(", in the mean of the whole runs that check this answer.")
}

// contractFiles are the shares by year in files.
func (a *Answer) contractFiles() doc.Table {
	type inYear struct {
		label string
		share float64
	}
	var rows []inYear
	for y, share := range a.Contract {
		rows = append(rows, inYear{a.Label(y), share})
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "by_contract", File: "when-contract"}, rows,
		doc.Key("year", func(r *inYear) any { return r.label }).Means("year of the horizon"),
		doc.Val("contract_share", doc.Share, func(r *inYear) float64 { return r.share }).Means("part of the dry solids that come in which is hauled by contract, mean of the runs"))
}
