package cycleplan

import (
	"fmt"
	"strings"

	"loamcast/facility/process"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// dayByDay is the course by day, then by week on the pad, for the screen.
func (l *Load) dayByDay() doc.Table {
	num := func(heads []string, q doc.Quantity, decimals int, of func(*Row) float64) doc.Col[Row] {
		return doc.Num("", heads, q, decimals, of)
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("Day by day in the vessel, then week by week on the curing pad")}, l.Days,
		doc.Txt("", []string{"Day", ""}, doc.Hours, func(r *Row) any { return strings.TrimSuffix(doc.Fixed(r.Hours, doc.Hours, 1).In(units.SI), ".0") }),
		doc.Left([]string{"", "where"}, func(r *Row) any { return r.place() }),
		num([]string{"temp.", "{unit}"}, doc.Degrees, 0, func(r *Row) float64 { return r.Temperature }),
		num([]string{"moisture", "%"}, doc.Share, 1, func(r *Row) float64 { return r.Moisture }),
		num([]string{"dry solids", "left %"}, doc.Share, 1, func(r *Row) float64 { return r.DryLeft }),
		num([]string{"mean air", "{unit}"}, doc.AirFlow, 0, func(r *Row) float64 { return r.Flow }),
		num([]string{"least oxygen", "% vol."}, doc.Count, 1, func(r *Row) float64 { return r.Oxygen }),
		num([]string{"water removed", "{unit}"}, doc.Mass, 2, func(r *Row) float64 { return r.Water }))
}

func (r *Row) place() string {
	if r.OnPad {
		return "pad"
	}
	return "vessel"
}

// total is a line of what the load gives and takes.
type total struct {
	name           doc.Text
	vessel, curing any
}

// totals are what the load gives and takes in the vessel and on the pad.
func (l *Load) totals() doc.Table {
	var lines []total
	line := func(name doc.Text, of func(*Stage) any) {
		lines = append(lines, total{name, of(&l.Vessel), of(&l.Curing)})
	}
	in := func(name string, q doc.Quantity, decimals int, of func(*Stage) float64) {
		line(doc.Say(name+", %s", doc.Unit{Quantity: q}), func(s *Stage) any { return doc.Fixed(of(s), q, decimals) })
	}
	heat := func(name string, of func(*Stage) float64) {
		line(doc.Words("  "+name+", %"), func(s *Stage) any {
			if s.Energy.Generated == 0 {
				return nil
			}
			return fmt.Sprintf("%.0f", 100*of(s)/s.Energy.Generated)
		})
	}
	line(doc.Words("dry solids lost, % of those at its start"), func(s *Stage) any { return doc.Fixed(s.DryLoss/s.DryIn, doc.Share, 1) })
	destroyed := func(of string, d func(*Stage) Destruction) {
		line(doc.Words(of+", % of those at its start"), func(s *Stage) any { return doc.Fixed(d(s).Lost/d(s).In, doc.Share, 1) })
	}
	destroyed("volatile solids destroyed", func(s *Stage) Destruction { return s.Volatile })
	destroyed("  those of the cake", func(s *Stage) Destruction { return s.Cake })
	in("water evaporated", doc.Mass, 2, func(s *Stage) float64 { return s.Vapour })
	in("condensate that runs back", doc.Mass, 2, func(s *Stage) float64 { return s.Condensate })
	in("leachate", doc.Mass, 2, func(s *Stage) float64 { return s.Leachate })
	in("ammonia given off", doc.ScaleMass, doc.Significant, func(s *Stage) float64 { return s.Ammonia })
	in("air, mean", doc.AirFlow, 0, func(s *Stage) float64 { return s.AirMean })
	in("air, peak", doc.AirFlow, 0, func(s *Stage) float64 { return s.AirPeak })
	perDry := doc.Unit{Quantity: doc.AirPerDry}
	line(doc.Say("air, mean, %s dry", perDry), func(s *Stage) any { return doc.Bare(s.MeanPerDry, doc.AirPerDry) })
	line(doc.Say("air, peak, %s dry", perDry), func(s *Stage) any { return doc.Bare(s.PeakPerDry, doc.AirPerDry) })
	in("blower energy", doc.EnergyKWh, doc.Significant, func(s *Stage) float64 { return s.Blower })
	line(doc.Say("blower energy, kWh/%s dry", doc.Unit{Quantity: doc.Mass}), func(s *Stage) any { return perMass{s.Blower, s.DryIn} })
	in("highest temperature", doc.Degrees, 0, func(s *Stage) float64 { return s.PeakTemperature })
	line(doc.Words("lowest oxygen in the pores, % vol."), func(s *Stage) any { return doc.Fixed(s.LeastOxygen, doc.Count, 1) })
	in("heat set free", doc.Energy, doc.Significant, func(s *Stage) float64 { return s.Energy.Generated })
	heat("evaporating water", func(s *Stage) float64 { return s.Energy.AirLatent })
	heat("warming air", func(s *Stage) float64 { return s.Energy.AirDry })
	heat("through walls or surface", func(s *Stage) float64 { return s.Energy.Wall })
	heat("kept, or carried off with matter", func(s *Stage) float64 { return s.Energy.Stored + s.Energy.Carried })
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What it gives and takes")}, lines,
		doc.Left([]string{"Totals"}, func(t *total) any { return t.name }),
		doc.Txt("", []string{doc.PlainSpaces("vessel, " + inDays(l.Stay))}, doc.Count, func(t *total) any { return t.vessel }),
		doc.Txt("", []string{doc.PlainSpaces("pad, " + inDays(l.Cured))}, doc.Count, func(t *total) any { return t.curing }))
}

// perMass is an energy, kWh, for a mass, kg.
type perMass struct{ energy, mass float64 }

// In implements [doc.Part].
func (p perMass) In(sys units.System) string {
	return fmt.Sprintf("%.1f", p.energy/doc.Mass.In(p.mass, sys))
}

// months is the table of loads for the screen.
func (a *Answer) months() doc.Table {
	const moisture, day, loss, air = "moisture %", "day", "dry loss %", "air {unit}"
	heads := func(first string) []string { return []string{first, "", "", ""} }
	num := func(group, head string, q doc.Quantity, decimals int, of func(*Load) float64) doc.Col[Load] {
		return doc.Num(group, heads(head), q, decimals, of)
	}
	when := func(m Moment) string {
		if !m.OK {
			return "-"
		}
		return doc.Fixed(m.Hours, doc.Hours, 1).In(units.SI)
	}
	passes := doc.Txt(day, []string{"first", "{mark}", ""}, doc.Degrees, func(l *Load) any { return when(l.Passes) })
	passes.Mark = a.Landmark
	cols := []doc.Col[Load]{
		doc.Left([]string{"Month", "", ""}, func(l *Load) any {
			if !l.settles() {
				return l.Month.String()[:3] + "~"
			}
			return l.Month.String()[:3]
		}),
		num(moisture, "mixed", doc.Share, 0, func(l *Load) float64 { return l.Moisture }),
		num(moisture, "out", doc.Share, 0, func(l *Load) float64 { return l.MoistureOut }),
		num(moisture, "screened", doc.Share, 0, func(l *Load) float64 { return l.MoistureScreened }),
		passes,
	}
	for i, x := range a.Loads[0].Criteria {
		cols = append(cols, doc.Txt(day, stacked(doc.Printable(x.Name)), doc.Hours, func(l *Load) any {
			if c := &l.Criteria[i]; c.Kind == process.Aired && c.Met.OK {
				return "yes"
			}
			if l.Criteria[i].OnPad {
				return when(l.Criteria[i].Met) + "p"
			}
			return when(l.Criteria[i].Met)
		}))
	}
	cols = append(cols,
		num(day, "leaves", doc.Hours, 1, func(l *Load) float64 { return l.Stay }),
		num(loss, "vessel", doc.Share, 1, (*Load).LossInVessel),
		num(loss, "all", doc.Share, 1, (*Load).Loss),
		num(air, "mean", doc.AirPerDry, doc.Significant, func(l *Load) float64 { return l.Vessel.MeanPerDry }),
		num(air, "peak", doc.AirPerDry, doc.Significant, func(l *Load) float64 { return l.Vessel.PeakPerDry }))
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("A load of each month; days are from the start of the load")}, a.Loads, cols...)
}

// stacked breaks a name into three headings, one below the other.
func stacked(name string) []string {
	const rows, longest = 3, 12
	words := strings.SplitN(name, " ", rows)
	for len(words) < rows {
		words = append(words, "")
	}
	for i, w := range words {
		words[i] = doc.Shorten(w, longest)
	}
	return words
}
