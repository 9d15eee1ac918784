package facilityfile

import (
	"fmt"
	"strings"

	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// The built-in programs, as the file says which.
const (
	byClock      = "by the clock"
	untilMet     = "until the criteria are met"
	steepestRamp = 60 // °C in an hour
)

var programRows = []row[process.Model]{
	{Key{Path: "built_in", Words: "which built-in program, where program is left out", Choices: []string{untilMet, byClock}, Default: elseAs(untilMet, assumption)},
		chosen(func(m *process.Model, word string) {
			if word == untilMet {
				m.Program = process.DefaultHold(m.Criteria)
			}
		})},
	{Key{Path: "turndown", Words: "least part of the air that a blower can give; below it, it blows on and off", Dimension: units.Fraction, Low: 0, High: 1,
		Usual: &Usual{0, 0.5, "a fifth to a half with a variable-speed drive, common practice, no source"}, Default: orElse(process.DefaultTurndown, commonPractice)},
		number(func(m *process.Model) *float64 { return &m.Blower.Turndown })},
}

var rampRows = []row[process.Segment]{
	{Key{Path: "ramp_per_hour", Words: "how far the setpoint comes down in an hour when this part begins, from what the load has; 0 °C for at once", Dimension: units.TemperatureDifference, Low: 0, High: steepestRamp,
		Usual: &Usual{0, 5, "a few degrees an hour, common practice, no source"}, Default: orElse(process.DefaultRamp, assumption)},
		number(func(s *process.Segment) *float64 { return &s.Ramp })},
}

// waiting is what a part of the program waits for, as the file says it.
type waiting struct {
	criterion                  string
	temperature, held, longest float64 // °C, h, h
}

var (
	untilRows = []row[waiting]{
		{Key{Path: "until", Words: "name of the criterion that ends this part once it is met; for is then the least time", Default: elseAs("time alone", ""), Example: "pathogen reduction"},
			text(func(w *waiting) *string { return &w.criterion })},
	}
	keptRows = []row[waiting]{
		{Key{Path: "held", Words: "temperature that ends this part once it was kept without a break; in place of until", Dimension: units.Temperature, Low: coolest, High: hottest, When: "with held_for", Example: "55 °C"},
			number(func(w *waiting) *float64 { return &w.temperature })},
		{Key{Path: "held_for", Words: "how long it is kept", Dimension: units.Duration, Low: hour / 2, High: calendar.SecondsPerYear, When: "with held", Example: "3 day"},
			scaled(1, hour, func(w *waiting) *float64 { return &w.held })},
	}
	longestRows = []row[waiting]{
		{Key{Path: "longest", Words: "when this part ends all the same", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear, When: "with until or held", Example: "14 day"},
			scaled(1, hour, func(w *waiting) *float64 { return &w.longest })},
	}
)

// program reads the parts of the program of a vessel's air.
func (r *reader) program(a *yamlfile.Map, v *process.Model) {
	if !a.Has("program") {
		read(a, programRows[:1], v)
		return
	}
	if a.Has("built_in") {
		a.Error("built_in", "the program is given already, by its parts", "keep one of built_in and program")
	}
	defaults := process.DefaultVesselModel().Program
	v.Program = nil
	list := a.List("program")
	for i, s := range list {
		segment := process.Segment{MinFlow: defaults[min(i, len(defaults)-1)].MinFlow}
		read(s, segmentRows, &segment)
		read(s, rampRows, &segment)
		segment.Until = r.ending(s, &segment, i == len(list)-1)
		v.Program = append(v.Program, segment)
	}
}

// ending reads what a part of the program waits for; nil for nothing but time.
func (r *reader) ending(s *yamlfile.Map, segment *process.Segment, last bool) *process.Ending {
	var w waiting
	held, until := s.Has("held") || s.Has("held_for"), s.Has("until")
	if held || until || s.Has("longest") { // even where it is out of place
		read(s, longestRows, &w)
	}
	switch {
	case !held && !until:
		if s.Has("longest") && s.Good("longest") {
			s.Error("longest", "this part waits for nothing, and lasts as long as for says", "add until or held, or remove longest")
		}
		return nil
	case held && until:
		s.Error("until", "this part waits for a temperature already", "keep one of until and held")
		return nil
	case last:
		key := "until"
		if held {
			key = "held"
		}
		s.Error(key, "the last part of a program goes on until the load is unloaded", "remove it, or add a part after it")
		return nil
	}
	end := &process.Ending{Longest: w.longest}
	if s.Good("for", "longest") && w.longest < segment.Hours {
		s.Error("longest", "shorter than the least time, which for says", "lengthen it, or shorten for")
		return nil
	}
	if held {
		read(s, keptRows, &w)
		end.Own = true
		end.Criterion = process.Criterion{Name: "temperature held", Temperature: w.temperature, Hours: w.held}
	} else {
		read(s, untilRows, &w)
		end.Criterion = r.criterionNamed(s, w.criterion)
	}
	if !s.Good("until", "held", "held_for", "longest") {
		return nil
	}
	return end
}

// criterionNamed returns the criterion that a part of the program waits for.
func (r *reader) criterionNamed(s *yamlfile.Map, name string) process.Criterion {
	var names []string
	for _, c := range r.m.Active.Criteria {
		if c.Name == name {
			return c
		}
		names = append(names, c.Name)
	}
	if s.Good("until") {
		s.Error("until", fmt.Sprintf("there is no criterion %q", name), "write one of: "+strings.Join(names, ", "))
	}
	return process.Criterion{}
}
