package sidebyside

import (
	"context"
	"fmt"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// level is the confidence of the intervals of differences.
const level = 0.95

// DefaultReplications are enough to tell a difference of some parts in a hundred, which
// the same chance events for both leave little else in.
const DefaultReplications = 20

// Ask compares two files under the seed of the first. Growth scenarios are shared out
// over the replications by their weights, and what is uncertain is drawn, in each file as
// it has it. Too few replications are an *answer.OptionError. Any other error carries the
// replication, the simulated date and the event, or is ctx's. The answer does not depend
// on the number of workers.
func Ask(ctx context.Context, first, second *study.Study, setups [2]answer.Setup, replications int) (*Answer, error) {
	if replications < 2 || replications > facilityfile.MaxReplications {
		return nil, answer.WrongOption("replications", "%d: it must be from 2 to %d", replications, facilityfile.MaxReplications)
	}
	a := &Answer{Basis: setups[0].Basis(first.File).Replicated(replications), Second: setups[1].Basis(second.File)}
	if a.Differences = differences(first.File, second.File); len(a.Differences) == 0 {
		return a, nil
	}
	a.Years = min(first.File.Model.Years, second.File.Model.Years)
	a.NoCosts = noCosts(first.File, second.File)
	var runs [2][]outcome
	for i, s := range []*study.Study{first, second} {
		s, err := s.UnderSeed(first.File.Seed)
		if err != nil {
			return nil, err
		}
		named := setups[i].Named([]string{"first file", "second file"}[i])
		if runs[i], err = a.runs(ctx, s, named, replications); err != nil {
			return nil, err
		}
		if a.Orders[i], err = orders(ctx, s, named); err != nil {
			return nil, err
		}
	}
	return a, a.effects(runs)
}

// noCosts says why what the plants cost cannot be compared.
func noCosts(a, b *facilityfile.File) string {
	switch {
	case !a.Planning.Priced || !b.Planning.Priced:
		return "not both files have prices"
	case a.Currency != b.Currency:
		return fmt.Sprintf("one file is in %s, the other in %s", a.Currency, b.Currency)
	case a.Planning.Economy.Rates.Stated != b.Planning.Economy.Rates.Stated:
		return "the prices are of different years"
	case a.Model.Years != b.Model.Years || a.Model.Start != b.Model.Start:
		return "the files are of other years"
	}
	return ""
}

// orders asks when the next vessels must be ordered.
func orders(ctx context.Context, s *study.Study, setup answer.Setup) (*vesselplan.Answer, error) {
	defaults, err := question.Read(vesselplan.Question.Options, nil)
	if err != nil {
		return nil, err
	}
	a, err := vesselplan.Question.Ask(ctx, s, setup, defaults)
	if err != nil {
		return nil, err
	}
	return a.(*vesselplan.Answer), nil
}

// outcome is what is kept of a run: each measure in the mean of a year.
type outcome []float64

// measure is something that plants do differently, in the mean of a year.
type measure struct {
	name     string
	quantity document.Quantity
	of       func(*plant.Month) float64 // summed over months
}

var measures = []measure{
	{"dry solids brought", document.Mass, func(m *plant.Month) float64 { return m.Feed.Dry }},
	{"dry solids untreated", document.Mass, (*plant.Month).Untreated},
	{"loads", document.Count, func(m *plant.Month) float64 { return m.Loads.Filled }},
	{"loads that fail to comply", document.Count, func(m *plant.Month) float64 { return m.Release.Failed }},
	{"fresh chips bought", document.Volume, func(m *plant.Month) float64 { return m.Chips.Bought }},
	{"compost", document.Volume, func(m *plant.Month) float64 { return m.Product.Volume }},
	{"power", document.EnergyKWh, func(m *plant.Month) float64 { return m.Work.BlowerEnergy + m.Work.MachineEnergy }},
}

// byContract is measured where one of the files has a contract.
var byContract = measure{"dry solids hauled by contract", document.Mass, func(m *plant.Month) float64 { return m.Holding.ContractDry }}

// measures are those of two files.
func (a *Answer) measures() []measure {
	if a.Basis.Contracts || a.Second.Contracts {
		return slices.Insert(slices.Clone(measures), 2, byContract)
	}
	return measures
}

// Names of the effects that are not sums over months.
const (
	missedName = "years in ten that miss the target"
	costName   = "cost, the same in each year"
)

// runs simulates one of the files.
func (a *Answer) runs(ctx context.Context, s *study.Study, setup answer.Setup, n int) ([]outcome, error) {
	growths := s.File.Planning.ShareOut(n)
	var runs []study.Run
	for rep := range n {
		runs = append(runs, study.Run{Case: &study.Case{Growth: growths[rep]}, Replication: rep})
	}
	return study.Each(ctx, s, runs, func(r *study.Result) (outcome, error) { return a.reduce(&s.File.Planning, r) }, setup.Part("runs"))
}

// reduce measures a run.
func (a *Answer) reduce(p *facilityfile.Planning, r *study.Result) (outcome, error) {
	months := r.Record.Months[:a.Years*calendar.MonthsPerYear]
	var out outcome
	for _, m := range a.measures() {
		out = append(out, plant.Sum(months, m.of)/float64(a.Years))
	}
	missed := 0
	for y := range a.Years {
		if p.Target.Missed(months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]) {
			missed++
		}
	}
	out = append(out, 10*float64(missed)/float64(a.Years))
	if a.NoCosts != "" {
		return out, nil
	}
	plan, err := costs.Plan(p, r)
	if err != nil {
		return nil, err
	}
	return append(out, plan.Cost().Annual), nil
}

// effects pairs the runs of both files.
func (a *Answer) effects(runs [2][]outcome) error {
	all := append(slices.Clone(a.measures()), measure{name: missedName, quantity: document.Count}, measure{name: costName, quantity: document.MoneyAYear})
	for k, m := range all[:len(runs[0][0])] {
		var values [2][]float64
		for i := range runs {
			for _, r := range runs[i] {
				values[i] = append(values[i], r[k])
			}
		}
		d, err := stats.PairedMean(values[1], values[0], level)
		if err != nil {
			return err
		}
		a.Effects = append(a.Effects, Effect{m.name, m.quantity, mean(values[0]), mean(values[1]), d})
	}
	return nil
}

func mean(xs []float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
}
