package facilityfile

import (
	"fmt"

	"loamcast/scenarios/money"
	"loamcast/scenarios/yamlfile"
)

// asset reads what a change costs. Its year and lead time are those of the
// change.
func (r *reader) asset(c *yamlfile.Map, name string) money.Asset {
	a := money.Asset{Name: name, Cost: money.Price{Escalation: r.capitalRise}, Running: r.p.Economy.Rates.General(0)}
	read(c, assetRows, &a)
	for i := range assetRows {
		key := assetRows[i].Path
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
	if r.p.Priced && !c.Has("cost") && !c.Has("running") && !c.Has(changeContract.Path) {
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
			r.toCome(p)
			r.priced(s)
			list = append(list, p)
			option.Steps = append(option.Steps, p.Step)
		}
		r.fits(committed, list)
		r.p.Options = append(r.p.Options, option)
	}
}

// toCome refuses a step that would have been decided before the run starts: it can
// no longer be chosen.
func (r *reader) toCome(p planned) {
	if p.timeGood && r.root.Good("start") && p.Date.Before(r.m.Start) {
		p.at.Error("date", fmt.Sprintf("this is before %v, when the run starts, and can no longer be chosen", r.m.Start),
			"write a later date; what is decided already is one of the changes")
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
		read(c, mostRows, &p.Step)
		r.priced(c)
		r.p.Catalogue = append(r.p.Catalogue, p.Step)
		r.roomFor(committed, []planned{p})
		p.CakeSolids *= float64(p.Most)
		all = append(all, p)
	}
	r.solidsAfter(committed, all)
	r.oneContract(all)
}
