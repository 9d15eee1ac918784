package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	doc "loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// contract returns about which shares of the dry solids that come a contract hauls in
// each year with the vessels of the file, over all growths by weight.
func (s *steady) contract() []float64 {
	out, fed := make([]float64, s.years), make([]float64, s.years)
	for i, stage := range s.stages {
		hauling := stage.Hauling(func(m *plant.Month) float64 { return m.Holding.ContractDry })
		for year := range out {
			from := float64(year * capability.Quarters)
			if stage.After > from || i+1 < len(s.stages) && s.stages[i+1].After <= from || hauling == nil {
				continue // not in force when the year begins, or nothing known
			}
			for g, d := range s.demand {
				out[year] += s.study.File.Planning.Growths[g].Weight * hauling.Dry(d, year)
			}
		}
	}
	for year := range out {
		for g, d := range s.demand {
			fed[year] += s.study.File.Planning.Growths[g].Weight * d.Mean(year) * calendar.DaysPerYear
		}
		out[year] /= fed[year]
	}
	return out
}

// byContract says that a contract takes part in what the vessels keep, and how much it
// hauls in the last year that they keep and the year after.
func (a *Answer) byContract() doc.Text {
	if !a.Hauls {
		return doc.Text{}
	}
	const first = "A contract hauls cake that finds no vessel in time, and what it hauls counts as kept: more vessels are due later than without it."
	if a.Contract == nil {
		return doc.Words(first + " How much that is: loamcast run.")
	}
	row := &a.All.Rows[0]
	years := []int{max(0, row.LastKept)}
	if next := row.LastKept + 1; next > years[0] && next < len(a.Contract) {
		years = append(years, next)
	}
	var parts []doc.Text
	for _, y := range years {
		parts = append(parts, doc.Say("%s of those of %s", doc.With(a.Contract[y], doc.Share, 1), a.Label(y)))
	}
	return doc.Say(first+" Of the dry solids that come it hauls, with these vessels, about %s.", doc.Join(", ", parts...))
}

// contractFiles are the shares by year in files, where a contract hauls any.
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
		doc.Key("year", func(r *inYear) any { return r.label }),
		doc.Val("contract_share", doc.Share, func(r *inYear) float64 { return r.share }))
}
