package setback

import (
	"context"
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Year  string  // by its label; empty for the first and the last that is kept
	Name  string  // of the one setback to try; empty for all
	Runs  int     // with each setback and without; 0 for the usual number
	Wrong float64 // chance at most that a verdict is not true; 0 for [vesselplan.DefaultWrong]
}

// How many runs there are with each setback and without: at least, usually, at most.
const leastRuns, usualRuns, mostRuns = 10, 64, 10_000

// Ask simulates each setback beside the same runs without it. An error is an
// *answer.OptionError, carries the replication, the simulated date and the event, or is
// ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	switch {
	case o.Runs == 0:
		o.Runs = usualRuns
	case o.Runs < leastRuns:
		return nil, answer.WrongOption("replications", "%d: ask for %d or more", o.Runs, leastRuns)
	}
	if o.Wrong == 0 {
		o.Wrong = vesselplan.DefaultWrong
	}
	a := &Answer{Basis: setup.Basis(f).Replicated(o.Runs), Wrong: o.Wrong, Money: f.Planning.Priced, Classes: f.Model.Vessels.ClassCount() > 1}
	list := f.Planning.Setbacks
	if len(list) == 0 {
		list, a.Assumed = usual(f), true
	}
	list, err := named(list, o.Name)
	if err != nil {
		return nil, err
	}
	years, err := a.years(ctx, s, setup, o.Year)
	if err != nil {
		return nil, err
	}
	t := &trials{study: s, growths: f.Planning.ShareOut(o.Runs), progress: setup.Part("simulating")}
	for i := range list {
		one := Setback{Setback: list[i], Class: f.Model.Vessels.ClassName(list[i].Class)}
		t.total += len(years) * len(firstDays(&one, a.Start)) * o.Runs
		a.Setbacks = append(a.Setbacks, one)
	}
	t.total += len(years) * o.Runs
	for _, y := range years {
		without, err := t.without(ctx, y.Year)
		if err != nil {
			return nil, err
		}
		for i := range a.Setbacks {
			one := &a.Setbacks[i]
			if one.Fails() && one.LoadDry == 0 {
				one.LoadDry = loadDry(without, one.Setback.Class)
			}
			year := y
			for _, from := range firstDays(one, a.Start.AddYears(y.Year)) {
				with, err := t.with(ctx, &one.Setback, y.Year, from)
				if err != nil {
					return nil, err
				}
				year.Begins = append(year.Begins, a.compare(from, months(a.Start.AddYears(y.Year), from), with, without))
			}
			year.rank(o.Wrong)
			one.Years = append(one.Years, year)
		}
	}
	return a, nil
}

// usual are what is tried where the file lists nothing: one of the largest vessels out
// for six weeks, and three months, those that are coldest outdoors, in which cake, chips
// and air are wetter, it is colder, and more comes in. Assumptions.
func usual(f *facilityfile.File) []facilityfile.Setback {
	winter := facilityfile.Setback{Name: "wet winter", Begins: coldest(f.Model.Active.Site.Temperature), For: calendar.Span{Months: 3}}
	winter.Spell.CakeSolids, winter.Spell.ChipMoisture = -0.015, 0.05
	winter.Spell.Temperature, winter.Spell.Humidity, winter.Spell.Production = -2, 0.05, 0.05
	out := facilityfile.Setback{Name: "vessel out", For: calendar.Span{Days: 42}, Vessels: 1, Class: largest(f)}
	if f.Model.Vessels.Installed == 0 {
		return []facilityfile.Setback{winter}
	}
	return []facilityfile.Setback{out, winter}
}

// coldest returns the first of the three months in a row that are coldest.
func coldest(months [12]float64) time.Month {
	best, least := 0, 0.0
	for i := range months {
		sum := months[i] + months[(i+1)%12] + months[(i+2)%12]
		if i == 0 || sum < least {
			best, least = i, sum
		}
	}
	return time.Month(best + 1)
}

// largest returns the class of the largest vessels that are installed.
func largest(f *facilityfile.File) int {
	best, most := 0, 0.0
	for class := range f.Model.Vessels.ClassCount() {
		one := f.Model.AsClass(class)
		if one.Vessels.Installed > 0 && one.Vessels.Volume > most {
			best, most = class, one.Vessels.Volume
		}
	}
	return best
}

// named returns the setback of a name, or all.
func named(list []facilityfile.Setback, name string) ([]facilityfile.Setback, error) {
	if name == "" {
		return list, nil
	}
	names := ""
	for i := range list {
		if list[i].Name == name {
			return list[i : i+1], nil
		}
		if i > 0 {
			names += ", "
		}
		names += strconv.Quote(list[i].Name)
	}
	return nil, answer.WrongOption("name", "%q: there are %s", name, names)
}

// years returns the years that are asked about: that of a label, or the first and, if
// another, the last that keeps the target with all before it, as when has it.
func (a *Answer) years(ctx context.Context, s *study.Study, setup answer.Setup, label string) ([]Year, error) {
	if label != "" {
		for year := range a.Horizon {
			if l := a.Label(year); l == label || l == "FY"+label || strings.HasPrefix(l, label+"/") {
				return []Year{{Year: year}}, nil
			}
		}
		return nil, answer.WrongOption("year", "%q: the horizon is %s to %s", label, a.Label(0), a.Label(a.Horizon-1))
	}
	when, err := vesselplan.Ask(ctx, s, setup.Named("the last year that is kept"), vesselplan.Options{})
	if err != nil {
		return nil, err
	}
	years := []Year{{Year: 0}}
	switch last := when.All.Rows[0].LastKept; {
	case last == 0:
		years[0].LastKept = true
	case last > 0:
		years = append(years, Year{Year: last, LastKept: true})
	}
	return years, nil
}

// firstDays returns the days on which a setback may begin in a year: the first of each month,
// or that of its season which comes first.
func firstDays(s *Setback, year calendar.Date) (days []calendar.Date) {
	for month := range calendar.MonthsPerYear {
		if day := year.AddMonths(month); s.Fails() || day.Month == s.Begins {
			days = append(days, day)
		}
	}
	return days
}

// months returns how many months of a year are over on the first of one.
func months(year, from calendar.Date) int {
	return (from.Year-year.Year)*calendar.MonthsPerYear + int(from.Month) - int(year.Month)
}
