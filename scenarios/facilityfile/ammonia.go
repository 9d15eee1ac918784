package facilityfile

import (
	"slices"

	"loamcast/facility/material"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// The accounts of ammonia, as the file says them.
const (
	byNitrogen = "by nitrogen released"
	byFormula  = "by formula"
)

var accountRows = []row[material.Chemistry]{
	{Key{Path: "account", Words: "what ammonia is reckoned from: the nitrogen that decay releases and the carbon that decays with it, or a formula of the solids, whatever their nitrogen",
		Choices: []string{byNitrogen, byFormula}, Default: elseAs(byNitrogen, assumption)},
		chosen(func(c *material.Chemistry, word string) {
			c.Microbes = material.Microbes{}
			if word == byNitrogen {
				c.Microbes = material.DefaultMicrobes()
			}
		})},
}

var microbeRows = []row[material.Chemistry]{
	{Key{Path: "microbial_carbon_to_nitrogen", Words: "carbon to nitrogen in the cells of microbes, by mass", Dimension: units.Ratio, Low: 2, High: 40,
		Usual:   &Usual{4, 15, "bacteria 4 to 8, fungi 10 to 15, from memory"},
		Default: orElse(material.DefaultMicrobes().CarbonToNitrogen, "from memory")},
		number(func(c *material.Chemistry) *float64 { return &c.Microbes.CarbonToNitrogen })},
	{Key{Path: "growth_efficiency", Words: "part of the carbon that decays which microbes build into cells; less keeps less nitrogen", Dimension: units.Fraction, Low: 0, High: 0.9,
		Usual:   &Usual{0.1, 0.5, "a third, from memory: 30 parts of carbon then need one of nitrogen, Compost Fundamentals, Washington State University, read"},
		Default: orElse(material.DefaultMicrobes().Efficiency, "30 parts of carbon need one of nitrogen, Compost Fundamentals, Washington State University, read")},
		number(func(c *material.Chemistry) *float64 { return &c.Microbes.Efficiency })},
}

func ammoniaKeys() []Key {
	group := optional("ammonia", "what the ammonia that leaves is reckoned from", "the defaults")
	return append([]Key{group}, under("ammonia", slices.Concat(accountRows, microbeRows), nil)...)
}

// ammonia reads the account of ammonia, the same for vessel and pad.
func (r *reader) ammonia() {
	a := r.root.MapIf("ammonia")
	c := &r.m.Chemistry
	read(a, accountRows, c)
	if c.Microbes.Counted() {
		read(a, microbeRows, c)
	} else if a.Good("account") {
		refuse(a, microbeRows, "it does not count with account: "+byFormula, "remove it, or write account: "+byNitrogen)
	}
	r.m.Active.Chemistry, r.m.Pile.Chemistry = *c, *c
}

// refuse complains of keys that the file has and nothing would use.
func refuse[R any](m *yamlfile.Map, rows []row[R], message, hint string) {
	for i := range rows {
		if key := rows[i].Path; m.Has(key) {
			m.Error(key, message, hint)
		}
	}
}
