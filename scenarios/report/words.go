package report

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// glossary are the words that answers use, in the order of the alphabet.
var glossary = []fact{
	{"cake", doc.Words("dewatered solids as they come from the treatment plant")},
	{"capacity, what a stage sustains", doc.Words("the production that a stage passes on for ever, by arithmetic on full loads, without queues and chance")},
	{"chips, fresh and recovered", doc.Words("wood chips as delivered, and those that the screen gives back to be used again")},
	{"diverted", doc.Words("cake that did not fit the holding and was hauled away untreated")},
	{"dry, wet", doc.Words("mass of solids alone, and mass as weighed, water included")},
	{"expected value, mean", doc.Words("the average over replications")},
	{"free air space", doc.Words("the part of a load's volume that is air between particles")},
	{"holding", doc.Words("where cake, or solids upstream that become cake, waits until a load is made")},
	{"horizon", doc.Words("the years that are simulated and told of")},
	{"in force, in service", doc.Words("from the day on which something ordered can be used")},
	{"lead time", doc.Words("from the order until the day of first use")},
	{"load", doc.Words("what fills one vessel")},
	{"missed year", doc.Words("a year in which more leaves untreated, or cake waits longer, than the service target allows")},
	{"open", doc.Words("a question that the runs made so far do not settle at the certainty asked for")},
	{"P10, P50, P90", doc.Words("one run in ten is below, half are, nine in ten are")},
	{"pad", doc.Words("where lots cure after the vessel")},
	{"present worth", doc.Words("what payments of all years are worth on the first day, at the discount rate")},
	{"replication, run", doc.Words("one play of the whole horizon, with days, weather, breakdowns and deliveries of its own")},
	{"residence", doc.Words("time of a load in its vessel, as aimed at or as it was")},
	{"seed", doc.Words("the number from which all chance events follow; another seed is another set of them")},
	{"service target", doc.Words("what a year must keep, and in how many of the runs")},
	{"sign", doc.Words("something seen at the plant on which an order is given, in place of a date")},
	{"turnaround", doc.Words("time from tipping a vessel until it can be filled again")},
}

// words explains what the answers say.
func words(b answer.Basis) *doc.Document {
	d := doc.New("words", b, doc.Text{})
	d.Add(told("", glossary))
	return d
}
