package sizing

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/recycle"
	"loamcast/facility/screening"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/study"
)

// Answer is what arithmetic says of a facility file, with the growth that the file
// itself has and what it changes on dates.
type Answer struct {
	answer.Basis
	Vessels, Warnings int
	Years             []Year
	Sources           []Source // where several plants send cake
	Stages            []Stage  // the one that is passed first first, then the tightest
	// Handbook is the first year, from 0, in whose highest month the handbook's estimate
	// of vessels ([plant.Plant.StaticNeed]) passes those that are there; Never if none. It
	// knows neither the chips that come back nor loads that leave early.
	Handbook int
	Seasons  []Season // in which loads do not comply, or chips do not become steady
	Classes  []Class  // of the vessels; none where there is one only
	Hauls    bool     // a contract takes cake in some year
}

// Class is what the vessels of one class sustain at the end of the first and the last
// year, kg dry per day, of loads that stay as long as is aimed at.
type Class struct {
	Name        string
	Installed   int // on the first day
	First, Last float64
}

// Year is what a year of the horizon brings, kg dry of cake and feedstocks per day.
type Year struct {
	Label      string
	Mean, Peak float64 // of the year, and of its highest month
	Highest    time.Month
	Feedstocks float64 // of Mean
	Contract   Contract
}

// Source is what a plant sends that is one of several, in the mean of the first year, kg
// per day.
type Source struct {
	Name     string
	Dry, Wet float64
}

// Stage is what a stage sustains alone, as [plant.Plant.Capacities] has it.
type Stage struct {
	Name string
	At   []float64 // kg dry per day at the end of each year; NaN where it limits nothing
	// PassedByPeak and PassedByMean are the years, from 0, from whose highest month, and
	// whose mean, on it does not sustain what comes; Never if none. A stage that a store
	// carries over the seasons is never passed by a month.
	PassedByPeak, PassedByMean int
}

func (s *Stage) first() float64 { return s.At[0] }
func (s *Stage) last() float64  { return s.At[len(s.At)-1] }

// Never is the year in which a stage is passed that is not.
const Never = math.MaxInt

// Season is a month whose loads do not do what is expected of them.
type Season struct {
	Month    time.Month
	Class    string   // of the vessel; empty where there is one only
	Unmet    []string // criteria
	Unsteady bool     // recovered chips do not become the same from load to load
}

// seasons are the months whose loads stand for the year.
var seasons = [...]time.Month{time.January, time.April, time.July, time.October}

// Ask reckons what a file's plant sustains. The error is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup) (*Answer, error) {
	m := &s.File.Model
	a := &Answer{Basis: setup.Basis(s.File), Vessels: m.Vessels.Installed, Warnings: len(s.File.Warnings)}
	needs, err := a.needs(ctx, m)
	if err != nil {
		return nil, err
	}
	p, err := plant.New(*m)
	if err != nil {
		return nil, err
	}
	a.Years = make([]Year, m.Years)
	for y := range a.Years {
		a.Years[y] = a.year(m, y)
		a.Years[y].Contract = contractOf(p, a.Start.AddYears(y+1).AddDays(-1), a.Years[y].Mean)
	}
	a.Hauls = m.Contracted()
	for i := range m.Feed.Sources {
		s := &m.Feed.Sources[i]
		a.Sources = append(a.Sources, Source{s.Name, s.Base, s.Wet()})
	}
	a.stages(p, needs)
	a.classes(p, needs)
	a.Handbook = a.handbook(p)
	return a, nil
}

// needs are those of the loads of four months, in the mean, also of the classes of
// vessels.
func (a *Answer) needs(ctx context.Context, m *plant.Model) (mean plant.Needs, err error) {
	n := 0.0
	for class, part := range m.ByLoads() {
		one, name := m.AsClass(class), m.Vessels.ClassName(class)
		for _, month := range seasons {
			s, err := recycle.New(&one, month).Steady(ctx, recycle.AsRun(&one, month))
			switch {
			case errors.Is(err, screening.ErrNotSteady):
				a.Seasons = append(a.Seasons, Season{Month: month, Class: name, Unsteady: true})
				continue
			case err != nil:
				return mean, err
			}
			if unmet := s.Journey.Unmet(); len(unmet) > 0 {
				a.Seasons = append(a.Seasons, Season{Month: month, Class: name, Unmet: unmet})
			}
			n += part
			mean = mean.Plus(s.Needs(&one).Times(part))
		}
	}
	if n > 0 {
		mean = mean.Times(1 / n)
	}
	return mean, nil
}

// classes reckons the vessels of each class.
func (a *Answer) classes(p *plant.Plant, needs plant.Needs) {
	v := &p.Vessels
	if v.ClassCount() == 1 {
		return
	}
	endOf := func(y int) []float64 { return p.CapacityByClass(a.Start.AddYears(y+1).AddDays(-1), needs) }
	first, last := endOf(0), endOf(len(a.Years)-1)
	for i := range first {
		a.Classes = append(a.Classes, Class{v.ClassName(i), v.InClass(i), first[i], last[i]})
	}
}

// year sums up what a year brings.
func (a *Answer) year(m *plant.Model, y int) Year {
	from := a.Start.AddYears(y)
	out := Year{Label: a.Label(y)}
	for i := range 12 {
		mid := from.AddMonths(i).AddDays(14)
		perDay := m.Feed.Expected(mid, float64(a.Start.DaysUntil(mid))/daysPerYear)
		for j := range m.Feedstocks {
			perDay += m.Feedstocks[j].PerDay[mid.Month-1]
			out.Feedstocks += m.Feedstocks[j].PerDay[mid.Month-1] / 12
		}
		out.Mean += perDay / 12
		if perDay > out.Peak {
			out.Peak, out.Highest = perDay, mid.Month
		}
	}
	return out
}

const daysPerYear = 365.25

// overSeasons are the stages whose stores carry a surplus from one season to another.
var overSeasons = []plant.Stage{plant.AtDemand, plant.AtDeliveries, plant.AtAmendments}

// stages reckons every stage on the last day of each year.
func (a *Answer) stages(p *plant.Plant, needs plant.Needs) {
	index := map[plant.Stage]int{}
	for y := range a.Years {
		year := &a.Years[y]
		for _, c := range p.Capacities(a.Start.AddYears(y+1).AddDays(-1), needs) {
			i, known := index[c.Stage]
			if !known {
				i = len(a.Stages)
				index[c.Stage] = i
				s := Stage{Name: c.Stage.String(), At: make([]float64, len(a.Years)), PassedByPeak: Never, PassedByMean: Never}
				for i := range s.At {
					s.At[i] = math.NaN()
				}
				a.Stages = append(a.Stages, s)
			}
			s := &a.Stages[i]
			s.At[y] = c.CakeDry
			if year.Mean > c.CakeDry {
				s.PassedByMean = min(s.PassedByMean, y)
			}
			if year.Peak > c.CakeDry && !slices.Contains(overSeasons, c.Stage) {
				s.PassedByPeak = min(s.PassedByPeak, y)
			}
		}
	}
	slices.SortStableFunc(a.Stages, func(x, y Stage) int {
		return cmp.Or(cmp.Compare(min(x.PassedByMean, x.PassedByPeak), min(y.PassedByMean, y.PassedByPeak)), cmp.Compare(x.last(), y.last()))
	})
}

func (a *Answer) handbook(p *plant.Plant) int {
	for y := range a.Years {
		then := p.AsOf(a.Start.AddYears(y + 1).AddDays(-1))
		if need := then.StaticNeed(float64(y) + 0.5); need.PeakMonth > float64(then.Vessels.Installed) {
			return y
		}
	}
	return Never
}

// passed returns the stages that do not sustain the mean, or the highest month, of some year.
func (a *Answer) passed() []Stage {
	return slices.DeleteFunc(slices.Clone(a.Stages), func(s Stage) bool { return min(s.PassedByMean, s.PassedByPeak) == Never })
}
