package answer

import "loamcast/facility/plant"

// Tool is how one kind of machine or crew spent its time. Kinds of which there
// are always enough are left out.
type Tool struct {
	Name  string
	Years []ToolYear // in order of Answer.Years
}

// ToolYear is a year of a tool, all units together.
type ToolYear struct {
	Scheduled Spread // unit-hours, by its working hours
	Busy      Spread // unit-hours at work within them
	Overtime  Spread // unit-hours at work outside of them, to finish what was begun
	Down      Spread // unit-hours out of order, at any hour
	Use       Spread // Busy ÷ Scheduled
	PeakUse   Spread // the same in the month of the year in which it is highest
}

// tools returns the use of every tool that is limited, in the plant's order.
func (r Run) tools() []Tool {
	var out []Tool
	for i, name := range plant.ToolNames {
		tool := Tool{Name: name}
		for y := range r.Records[0].Years {
			tool.Years = append(tool.Years, r.toolYear(i, inYear(y)))
		}
		if len(tool.Years) > 0 && tool.Years[0].Scheduled.Mean > 0 {
			out = append(out, tool)
		}
	}
	return out
}

func (r Run) toolYear(tool int, of span) ToolYear {
	scheduled := func(m *plant.Month) float64 { return m.Tools[tool].Scheduled }
	busy := func(m *plant.Month) float64 { return m.Tools[tool].Busy }
	return ToolYear{
		Scheduled: r.sum(of, scheduled),
		Busy:      r.sum(of, busy),
		Overtime:  r.sum(of, func(m *plant.Month) float64 { return m.Tools[tool].Overtime }),
		Down:      r.sum(of, func(m *plant.Month) float64 { return m.Tools[tool].Down }),
		Use: spread(r.Records, func(rec *plant.Record) float64 {
			return perUnit(sum(of(rec), busy), sum(of(rec), scheduled))
		}),
		PeakUse: r.most(of, func(m *plant.Month) float64 { return perUnit(busy(m), scheduled(m)) }),
	}
}
