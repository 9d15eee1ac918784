package report

import (
	"fmt"
	"math"

	"loamcast/facility/mix"
	"loamcast/scenarios/mixplan"
)

// card is the loading card of a batch.
func (m mixText) card() {
	steps := m.a.Card
	_, unit := scaleMass(0, m.sys)
	loose := volume.label(m.sys)
	scale := func(kg float64) string { n, _ := scaleMass(kg, m.sys); return n }
	m.table(fmt.Sprintf("Loading card, for each of %s, in this order", batches(m.a.Design.Batches)), []column{
		words([]string{"Load", ""}, cellsOf(steps, func(s *mixplan.Step) string { return printable(s.Name) })),
		{group: "add", headings: []string{"loose", loose}, cells: cellsOf(steps, func(s *mixplan.Step) string { return m.fixed(s.Loose, volume, 1) })},
		{group: "add", headings: []string{"weight", unit}, cells: cellsOf(steps, func(s *mixplan.Step) string { return scale(s.Add) })},
		{group: "then", headings: []string{"scale", unit}, cells: cellsOf(steps, func(s *mixplan.Step) string { return scale(s.Scale) })},
		{group: "then", headings: []string{"volume", loose}, cells: cellsOf(steps, func(s *mixplan.Step) string { return m.fixed(s.Volume, volume, 1) })},
		{group: "then", headings: []string{"moisture", "%"}, cells: cellsOf(steps, func(s *mixplan.Step) string { return m.fixed(s.Moisture, share, 0) })},
		{group: "then", headings: []string{"C:N", ""}, cells: cellsOf(steps, func(s *mixplan.Step) string { return fmt.Sprintf("%.0f", s.CarbonRatio) })},
		{group: "then", headings: []string{"air space", "%"}, cells: cellsOf(steps, func(s *mixplan.Step) string { return m.fixed(s.AirSpace, share, 0) })},
	})
}

// properties sets the mix against its targets.
func (m mixText) properties() {
	list := m.a.Properties
	m.table("The mix against its targets", []column{
		words([]string{"Property"}, cellsOf(list, func(p *mixplan.Property) string { return qualityName(p.Name) })),
		{headings: []string{"asked"}, cells: cellsOf(list, func(p *mixplan.Property) string { return m.asked(p.Name, p.Window) })},
		{headings: []string{"this mix"}, cells: cellsOf(list, func(p *mixplan.Property) string { return m.quality(p.Name, p.Design) })},
		{headings: []string{"margin"}, cells: cellsOf(list, m.margin)},
		{headings: []string{fmt.Sprintf("as run, %.2f:1", m.a.AsRun.ChipsToCake)}, cells: cellsOf(list, func(p *mixplan.Property) string { return m.quality(p.Name, p.AsRun) })},
	})
}

func (m mixText) asked(q mixplan.Quality, w mix.Window) string {
	switch {
	case w.Low > 0 && w.High > 0:
		return m.quality(q, w.Low) + " to " + m.quality(q, w.High)
	case w.Low > 0:
		return "at least " + m.quality(q, w.Low)
	case w.High > 0:
		return "at most " + m.quality(q, w.High)
	}
	return "nothing"
}

func (m mixText) margin(p *mixplan.Property) string {
	switch {
	case !p.Asked:
		return "-"
	case p.Binds:
		return "binds"
	case p.Margin < 0:
		return "misses by " + m.difference(p.Name, -p.Margin)
	}
	return m.difference(p.Name, p.Margin)
}

// materials lists what there is to load.
func (m mixText) materials() {
	list := m.a.Materials
	loose := volume.label(m.sys)
	m.table("What there is to load, and what a vessel takes of it", []column{
		words([]string{"Material", ""}, cellsOf(list, func(x *mixplan.Material) string { return printable(x.Name) })),
		{headings: []string{"moisture", "%"}, cells: cellsOf(list, func(x *mixplan.Material) string { return m.fixed(x.Moisture, share, 0) })},
		{headings: []string{"C:N", ""}, cells: cellsOf(list, func(x *mixplan.Material) string { return fmt.Sprintf("%.0f", x.CarbonToNitrogen) })},
		{headings: []string{"nitrogen", "% dry"}, cells: cellsOf(list, func(x *mixplan.Material) string { return m.fixed(x.Nitrogen, share, 2) })},
		{headings: []string{"loose", density.label(m.sys)}, cells: cellsOf(list, func(x *mixplan.Material) string { return m.fixed(x.BulkDensity, density, 0) })},
		{headings: []string{"a vessel", loose}, cells: cellsOf(list, func(x *mixplan.Material) string { return m.fixed(x.Used, volume, 1) })},
		{headings: []string{"on hand for it", loose}, cells: cellsOf(list, func(x *mixplan.Material) string {
			if math.IsInf(x.Available, 1) {
				return "any"
			}
			return m.fixed(x.Available, volume, 1)
		})},
	})
}

// sweep is the what-if on the solids of the cake.
func (m mixText) sweep() {
	list := m.a.Sweep
	if len(list) == 0 {
		return
	}
	columns := []column{
		{headings: []string{"Cake", "solids %"}, cells: cellsOf(list, func(p *mixplan.Point) string { return m.fixed(p.CakeSolids, share, 1) })},
		{headings: []string{"chips", "to cake"}, cells: cellsOf(list, func(p *mixplan.Point) string { return fmt.Sprintf("%.2f", p.Design.ChipsToCake) })},
		{headings: []string{"moisture", "%"}, cells: cellsOf(list, func(p *mixplan.Point) string { return m.fixed(p.Design.Moisture, share, 1) })},
		{headings: []string{"C:N", ""}, cells: cellsOf(list, func(p *mixplan.Point) string { return fmt.Sprintf("%.1f", p.Design.CarbonToNitrogen) })},
		{headings: []string{"air space", "%"}, cells: cellsOf(list, func(p *mixplan.Point) string { return m.fixed(p.Design.FreeAirSpace, share, 0) })},
		{headings: []string{"fresh", volume.label(m.sys)}, cells: cellsOf(list, func(p *mixplan.Point) string {
			return fmt.Sprintf("%.2f", volume.in(p.Design.FreshVolume, m.sys)/mass.in(p.Design.CakeDry, m.sys))
		})},
		{headings: []string{"dry cake", mass.label(m.sys)}, cells: cellsOf(list, func(p *mixplan.Point) string { return m.fixed(p.Design.CakeDry, mass, 2) })},
	}
	if m.a.Design.Priced {
		columns = append(columns, column{headings: []string{"cost", "USD"},
			cells: cellsOf(list, func(p *mixplan.Point) string { return m.fixed(p.Design.CostPerDry, perDry, 2) })})
	}
	m.table(fmt.Sprintf("If the cake had other solids: fresh chips and cost per %s of dry cake, dry cake per vessel", mass.label(m.sys)), append(columns,
		words([]string{"", "what decides"}, cellsOf(list, m.decides))))
}

// decides names what a point of the sweep hangs on.
func (m mixText) decides(p *mixplan.Point) string {
	names := func(list []mix.Target) []string {
		var out []string
		for _, t := range list {
			out = append(out, qualityName(mixplan.QualityOf(t)))
		}
		return out
	}
	about := ""
	if !p.Settled {
		about = " (approximate)"
	}
	if len(p.Misses) > 0 {
		var missed []mix.Target
		for _, x := range p.Misses {
			missed = append(missed, x.Target)
		}
		return "misses " + list(names(missed)) + about
	}
	return list(names(p.Binding)) + about
}

// notes are the published ranges that the mix leaves.
func (m mixText) notes() {
	if len(m.a.Notes) > 0 {
		m.blank()
	}
	for _, n := range m.a.Notes {
		m.para("Note: %s of %s; published for a mix is %s (%s).",
			qualityName(n.Name), m.quality(n.Name, n.Value), m.asked(n.Name, n.Range), n.Source)
	}
	m.blank()
	m.para("! This designs a mix from the file's figures; test the cake and chips you load. Mix 4 to 5 minutes a batch (common practice, no source).")
}
