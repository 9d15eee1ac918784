package mixplan

import (
	"fmt"
	"math"

	"loamcast/facility/mix"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// card is the loading card of a batch on the screen.
func (a *Answer) card() doc.Table {
	col := func(group, head, unit string, q doc.Quantity, decimals int, of func(*Step) float64) doc.Col[Step] {
		return doc.Num(group, []string{head, unit}, q, decimals, of)
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Say("Loading card, for each of %s, in this order", batches(a.Design.Batches))}, a.Card,
		doc.Left([]string{"Load", ""}, func(s *Step) any { return s.Name }),
		col("add", "loose", "{unit}", doc.Volume, 1, func(s *Step) float64 { return s.Loose }),
		col("add", "weight", "{unit}", doc.ScaleMass, doc.Significant, func(s *Step) float64 { return s.Add }),
		col("then", "scale", "{unit}", doc.ScaleMass, doc.Significant, func(s *Step) float64 { return s.Scale }),
		col("then", "volume", "{unit}", doc.Volume, 1, func(s *Step) float64 { return s.Volume }),
		col("then", "moisture", "{unit}", doc.Share, 0, func(s *Step) float64 { return s.Moisture }),
		col("then", "C:N", "", doc.Ratio, 0, func(s *Step) float64 { return s.CarbonRatio }),
		col("then", "air space", "{unit}", doc.Share, 0, func(s *Step) float64 { return s.AirSpace }))
}

// shownProperties sets the mix against its targets.
func (a *Answer) shownProperties() doc.Table {
	col := func(head string, of func(*Property) any) doc.Col[Property] {
		return doc.Txt("", []string{head}, doc.Count, of)
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("The mix against its targets")}, a.Properties,
		doc.Left([]string{"Property"}, func(p *Property) any { return p.Name.String() }),
		col("asked", func(p *Property) any { return asked(p.Name, p.Window) }),
		col("this mix", func(p *Property) any { return p.Name.value(p.Design) }),
		col("margin", func(p *Property) any {
			switch p.Standing() {
			case NotAsked:
				return nil
			case OnBound:
				return "binds"
			case Outside:
				return doc.Say("misses by %s", p.Name.difference(-p.Margin))
			}
			return p.Name.difference(p.Margin)
		}),
		col(fmt.Sprintf("as run, %.2f:1", a.AsRun.ChipsToCake), func(p *Property) any { return p.Name.value(p.AsRun) }))
}

// shownMaterials lists what there is to load.
func (a *Answer) shownMaterials() doc.Table {
	col := func(head, unit string, q doc.Quantity, decimals int, of func(*Material) float64) doc.Col[Material] {
		return doc.Num("", []string{head, unit}, q, decimals, of)
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What there is to load, and what a vessel takes of it")}, a.Materials,
		doc.Left([]string{"Material", ""}, func(m *Material) any { return m.Name }),
		col("moisture", "{unit}", doc.Share, 0, func(m *Material) float64 { return m.Moisture }),
		col("C:N", "", doc.Ratio, 0, func(m *Material) float64 { return m.CarbonToNitrogen }),
		col("nitrogen", "{unit} dry", doc.Share, 2, func(m *Material) float64 { return m.Nitrogen }),
		col("loose", "{unit}", doc.Density, 0, func(m *Material) float64 { return m.BulkDensity }),
		col("a vessel", "{unit}", doc.Volume, 1, func(m *Material) float64 { return m.Used }),
		doc.Txt("", []string{"on hand for it", "{unit}"}, doc.Volume, func(m *Material) any {
			if math.IsInf(m.Available, 1) {
				return "any"
			}
			return doc.Fixed(m.Available, doc.Volume, 1)
		}))
}

// shownSweep is the what-if on the solids of the cake.
func (a *Answer) shownSweep() doc.Table {
	col := func(head, unit string, q doc.Quantity, decimals int, of func(*Point) float64) doc.Col[Point] {
		return doc.Num("", []string{head, unit}, q, decimals, of)
	}
	columns := []doc.Col[Point]{
		col("Cake", "solids {unit}", doc.Share, 1, func(p *Point) float64 { return p.CakeSolids }),
		col("chips", "to cake", doc.Ratio, 2, func(p *Point) float64 { return p.Design.ChipsToCake }),
		col("moisture", "{unit}", doc.Share, 1, func(p *Point) float64 { return p.Design.Moisture }),
		col("C:N", "", doc.Ratio, 1, func(p *Point) float64 { return p.Design.CarbonToNitrogen }),
		col("air space", "{unit}", doc.Share, 0, func(p *Point) float64 { return p.Design.FreeAirSpace }),
		doc.Txt("", []string{"fresh", "{unit}"}, doc.Volume, func(p *Point) any {
			return perDry{p.Design.FreshVolume, p.Design.CakeDry}
		}),
		col("dry cake", "{unit}", doc.Mass, 2, func(p *Point) float64 { return p.Design.CakeDry }),
	}
	cost := ""
	if a.Design.Priced {
		cost = " and cost" + a.whose() + ","
		columns = append(columns, doc.Num("", []string{"cost", "{currency}"}, doc.MoneyPerDry, 2, func(p *Point) float64 { return p.Design.CostPerDry }))
	}
	return doc.TableOf(doc.Table{In: doc.Screen,
		Title: doc.Say("If the cake had other solids: fresh chips%s per %s of dry cake, dry cake per vessel", cost, doc.Unit{Quantity: doc.Mass})}, a.Sweep,
		append(columns, doc.Left([]string{"", "what decides"}, func(p *Point) any { return p.decided() }))...)
}

// perDry is a loose volume for each unit of mass of dry cake.
type perDry struct{ volume, dry float64 }

// In implements [doc.Part].
func (p perDry) In(sys units.System) string {
	return fmt.Sprintf("%.2f", doc.Volume.In(p.volume, sys)/doc.Mass.In(p.dry, sys))
}

// decided names what a point of the sweep hangs on.
func (p *Point) decided() string {
	var names []string
	for _, q := range p.Qualities() {
		names = append(names, q.String())
	}
	text := doc.Listed(names)
	if !p.Met() {
		text = "misses " + text
	}
	if !p.Settled {
		text += " (approximate)"
	}
	return text
}

// facts are what the answer states once.
func (a *Answer) facts(d *doc.Document) {
	d.Fact("month", doc.Count, int(a.Month))
	if a.Class != "" {
		d.Fact("vessel_class", doc.Count, a.Class)
	}
	d.Fact("cake_solids", doc.Share, a.CakeSolids)
	d.Fact("met", doc.Count, a.Met())
	d.Fact("settled", doc.Count, a.Settled)
	d.Fact("no_chips", doc.Count, a.NoChips())
	d.Fact("ratio_is_the_files", doc.Count, a.AsFile())
	d.Fact("binding", doc.Count, targetNames(a.Binding))
	d.Fact("used_up", doc.Count, append([]string{}, a.UsedUp...))
	d.Fact("held_back_by", doc.Count, a.Exhausted())
	d.Add(misses(a.Misses))
	d.Fact("design", doc.Count, doc.RecordOf(&a.Design, batchColumns...))
	d.Fact("design_does_not_meet", doc.Count, append([]string{}, a.Design.Unmet...))
	d.Fact("as_run", doc.Count, doc.RecordOf(&a.AsRun, batchColumns...))
}

// files are the tables of JSON and CSV.
func (a *Answer) files(d *doc.Document) {
	step := func(key string, t doc.Table) doc.Table {
		t.In = doc.Files
		return doc.TableOf(t, a.Card, append([]doc.Col[Step]{doc.Key(key, func(s *Step) any { return s.Name }).Means("material that is added in this step of the loading card, in their order")}, stepColumns...)...)
	}
	d.Add(
		step("name", doc.Table{Name: "loading_card"}), step("material", doc.Table{File: "mix-card"}),
		doc.TableOf(doc.Table{In: doc.Files, Name: "materials"}, a.Materials, materialColumns...),
		doc.TableOf(doc.Table{In: doc.Files, Name: "properties"}, a.Properties, propertyColumns...),
		a.sweep(),
		doc.TableOf(doc.Table{In: doc.Files, Name: "notes"}, a.Notes,
			doc.Any("name", func(n *Note) any { return n.Name.String() }),
			doc.Any("value", func(n *Note) any { return doc.Measured{Value: n.Value, Quantity: n.Name.quantity()} }),
			doc.Any("source", func(n *Note) any { return n.Source })))
}

// sweep has a row for each solids content; a file of its own only if asked for.
func (a *Answer) sweep() doc.Table {
	t := doc.Table{In: doc.Files, Name: "sweep"}
	if len(a.Sweep) > 0 {
		t.File = "mix-cake-solids"
	}
	columns := []doc.Col[Point]{doc.Val("cake_solids", doc.Share, func(p *Point) float64 { return p.CakeSolids }).Means("solids of the wet mass of the cake, as assumed in the row")}
	columns = append(columns, doc.Lift(func(p *Point) *Batch { return &p.Design }, batchColumns...)...)
	return doc.TableOf(t, a.Sweep, append(columns,
		doc.Any("binding", func(p *Point) any { return targetNames(p.Binding) }).Means("targets that the mix just meets"),
		doc.In("misses", func(p *Point) any { return misses(p.Misses) }),
		doc.Any("met", func(p *Point) any { return p.Met() }).Means("whether the mix meets all targets"),
		doc.Any("settled", func(p *Point) any { return p.Settled }).Means("whether the search came to rest"))...)
}

// targetNames names targets for files.
func targetNames(list []mix.Target) []string {
	names := make([]string, len(list))
	for i, t := range list {
		names[i] = t.String()
	}
	return names
}

// misses are the targets missed, as they are asked for in the file.
func misses(list []mix.Miss) doc.Table {
	of := func(m *mix.Miss, v float64) any {
		return doc.Measured{Value: v, Quantity: QualityOf(m.Target).quantity()}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "misses"}, list,
		doc.Any("target", func(m *mix.Miss) any { return m.Target.String() }),
		doc.Any("required", func(m *mix.Miss) any { return of(m, m.Required) }),
		doc.Any("reached", func(m *mix.Miss) any { return of(m, m.Reached) }))
}
