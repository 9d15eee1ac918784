package fiscal

import (
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
)

// manyRuns is how many replications a P90 and a chance of a few per cent want.
const manyRuns = "100"

// Offered are the options of the questions that are answered by month and fiscal year.
var Offered = []question.Option{
	{Name: "years", Kind: question.Integer, Default: "2", Words: "fiscal years to plan (if not given, fewer where the horizon holds fewer)"},
	{Name: "fiscal-year", Kind: question.Month, Words: "month in which fiscal years begin, by name or number (default: as the file's fiscal_year, or jan)"},
	{Name: "from", Kind: question.Integer, Words: "first fiscal year, as it is named: 2028 for FY2028, 2027 for 2027/28 (default: the first whole one)"},
	{Name: "growth", Words: "name of one growth scenario (default: all, by their weights)"},
	{Name: "replications", Kind: question.Integer, Default: manyRuns, Low: 1, High: facilityfile.MaxReplications, Words: "number of replications"},
}

// OptionsOf reads them.
func OptionsOf(v question.Values) Options {
	return Options{
		Begins: v.Month("fiscal-year"), From: v.Int("from"), Years: v.Int("years"), OrFewer: !v.Given("years"),
		Growth: v.Text("growth"), Replications: v.Int("replications"),
	}
}
