package report

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
)

var toolFields = []field[answer.ToolYear]{
	{name: "scheduled_unit_hours", kind: count, spread: func(y *answer.ToolYear) answer.Spread { return y.Scheduled }},
	{name: "at_work_unit_hours", kind: count, spread: func(y *answer.ToolYear) answer.Spread { return y.Busy }},
	{name: "overtime_unit_hours", kind: count, spread: func(y *answer.ToolYear) answer.Spread { return y.Overtime }},
	{name: "out_of_order_unit_hours", kind: count, spread: func(y *answer.ToolYear) answer.Spread { return y.Down }},
	{name: "use", kind: share, spread: func(y *answer.ToolYear) answer.Spread { return y.Use }},
	{name: "use_peak_month", kind: share, spread: func(y *answer.ToolYear) answer.Spread { return y.PeakUse }},
}

// toolsTable has a row for each tool and year.
func toolsTable(a *answer.Answer, sys units.System) [][]string {
	header := columnTitles([]string{"tool", "year"}, toolFields, sys)
	rows := [][]string{header}
	for _, tool := range a.Tools {
		for i := range tool.Years {
			row := []string{tool.Name, a.Years[i].Label}
			rows = append(rows, appendCells(row, &tool.Years[i], toolFields, sys))
		}
	}
	return rows
}

func jsonTools(a *answer.Answer, sys units.System) []object {
	list := []object{}
	for _, tool := range a.Tools {
		for i := range tool.Years {
			key := object{{"tool", tool.Name}, {"year", a.Years[i].Label}}
			list = append(list, append(key, record(&tool.Years[i], toolFields, sys)...))
		}
	}
	return list
}
