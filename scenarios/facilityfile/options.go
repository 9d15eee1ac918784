package facilityfile

import (
	"loamcast/scenarios/money"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// usualLife of what is built, years: common practice, no source.
const usualLife = 20

// asset reads what a change costs. Its year and lead time are those of the
// change.
func (r *reader) asset(c *yamlfile.Map, name string) money.Asset {
	a := money.Asset{
		Name:         name,
		Cost:         money.Price{Amount: c.QuantityOr("cost", units.Money, 0, yamlfile.NonNegative()), Escalation: r.capitalRise},
		Life:         c.QuantityOr("life", units.Duration, usualLife*secondsPerYear, yamlfile.Between(secondsPerYear, 100*secondsPerYear)) / secondsPerYear,
		SalvageShare: c.QuantityOr("salvage", units.Fraction, 0, yamlfile.Between(0, 1)),
		Maintenance:  c.QuantityOr("upkeep", units.AnnualRate, 0, yamlfile.Between(0, 0.5)),
		Running:      r.p.Economy.Rates.General(daysPerYear * c.QuantityOr("running", units.MoneyPerTime, 0)),
	}
	for _, key := range []string{"cost", "life", "salvage", "upkeep", "running"} {
		if c.Has(key) && c.Good(key) && !r.p.Priced && r.root.Good("money") {
			c.Error(key, "costs count only where the file has a section on money", "add money, or remove what this costs")
			return a
		}
	}
	for _, key := range []string{"life", "salvage", "upkeep"} {
		if c.Has(key) && c.Good(key) && !c.Has("cost") {
			c.Error(key, "it concerns what the change costs, which is not written", "add a line such as cost: 420,000 USD")
			return a
		}
	}
	return a
}

// priced warns of a step that plans would take at no cost.
func (r *reader) priced(c *yamlfile.Map) {
	if r.p.Priced && !c.Has("cost") && !c.Has("running") {
		r.doc.WarnAt(c.Position(), c.Path()+" costs nothing", "add cost, running, or both; 0 USD if it is so")
	}
}

// options reads the plans to choose from, each with its steps.
func (r *reader) options(committed []planned) {
	names := newNames("an option")
	for _, o := range r.root.ListIf("options") {
		option := Option{Name: names.read(o)}
		var list []planned
		for _, s := range o.List("steps") {
			p := r.step(s, s.TextOr("name", option.Name))
			r.when(s, &p)
			r.priced(s)
			list = append(list, p)
			option.Steps = append(option.Steps, p.Step)
		}
		r.fits(committed, list)
		r.p.Options = append(r.p.Options, option)
	}
}

// catalogue reads the steps that a search may take, when and as often as it
// likes.
func (r *reader) catalogue(committed []planned) {
	names := newNames("a step")
	var all []planned
	for _, c := range r.root.ListIf("catalogue") {
		p := r.step(c, names.read(c))
		for _, key := range []string{"date", "when"} {
			if c.Has(key) {
				c.Error(key, "the search chooses when to build this", "remove it; a plan with dates of its own is one of the options")
			}
		}
		r.lead(c, &p, p.Vessels > 0)
		p.Most = c.IntOr("most", 1, yamlfile.Between(1, mostUnits))
		r.priced(c)
		r.p.Catalogue = append(r.p.Catalogue, p.Step)
		r.roomFor(committed, []planned{p})
		p.CakeSolids *= float64(p.Most)
		all = append(all, p)
	}
	r.solidsAfter(committed, all)
}
