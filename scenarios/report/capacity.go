package report

import (
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

var broughtFields = []field[simulate.CapacityYear]{
	{name: "arrived_dry", kind: massPerDay, spread: func(y *simulate.CapacityYear) answer.Spread { return y.Arrived }},
	{name: "arrived_dry_peak_month", kind: massPerDay, spread: func(y *simulate.CapacityYear) answer.Spread { return y.ArrivedPeak }},
	{name: "mixed_dry", kind: massPerDay, spread: func(y *simulate.CapacityYear) answer.Spread { return y.Carried }},
	{name: "mixed_dry_peak_month", kind: massPerDay, spread: func(y *simulate.CapacityYear) answer.Spread { return y.CarriedPeak }},
}

var sustainFields = []field[simulate.Stage]{
	{name: "sustains_dry", kind: massPerDay, value: func(s *simulate.Stage) float64 { return s.Sustains }},
	{name: "headroom", kind: share, value: func(s *simulate.Stage) float64 { return s.Headroom }},
}

// capacityTable has a row for each stage and year, the tightest stage of a year
// first, beside what arrived and was mixed.
func capacityTable(a *simulate.Answer, sys units.System) [][]string {
	header := columnTitles([]string{"year", "stage"}, sustainFields, sys)
	rows := [][]string{columnTitles(header, broughtFields, sys)}
	for i := range a.Capacities {
		y := &a.Capacities[i]
		for j := range y.Stages {
			row := appendCells([]string{y.Label, y.Stages[j].Name}, &y.Stages[j], sustainFields, sys)
			rows = append(rows, appendCells(row, y, broughtFields, sys))
		}
	}
	return rows
}

func jsonCapacities(years []simulate.CapacityYear, sys units.System) []object {
	list := make([]object, len(years))
	for i := range years {
		y := &years[i]
		stages := make([]object, len(y.Stages))
		for j := range y.Stages {
			stages[j] = append(object{{"stage", y.Stages[j].Name}}, record(&y.Stages[j], sustainFields, sys)...)
		}
		list[i] = append(append(object{{"year", y.Label}}, record(y, broughtFields, sys)...), member{"stages", stages})
	}
	return list
}

// namedStages is how many stages the screen names, the tightest first.
const namedStages = 3

// capacity says what arrives in the last year and which stages sustain least.
func (s summary) capacity() []string {
	last := len(s.a.Capacities) - 1
	if last < 0 || len(s.a.Capacities[last].Stages) == 0 {
		return nil
	}
	y := &s.a.Capacities[last]
	var stages []string
	for _, stage := range y.Stages[:min(namedStages, len(y.Stages))] {
		text := strings.ReplaceAll(stage.Name, " ", noBreak) + noBreak + s.number(stage.Sustains, massPerDay)
		stages = append(stages, text)
	}
	return wrap(fmt.Sprintf("%s brings %s dry (%s in its peak month); at its end stages sustain, tightest first: %s",
		y.Label, s.show(y.Arrived.P50, massPerDay), s.number(y.ArrivedPeak.P50, massPerDay), strings.Join(stages, ", ")), label("Capacity"), label(""))
}
