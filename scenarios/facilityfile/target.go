package facilityfile

import (
	"fmt"
	"math"

	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// The service target where the file sets none, common practice, no source.
const (
	usualDiverted = 0.01 // of a year's dry solids
	usualRuns     = 0.95 // in which no more is diverted
)

// target reads by what a year is judged.
func (r *reader) target() {
	t := r.root.MapIf("target")
	diverted := t.QuantityOr("diverted_at_most", units.Fraction, usualDiverted, yamlfile.Between(0, 0.5))
	runs := t.QuantityOr("runs", units.Fraction, usualRuns, yamlfile.Between(0.5, 0.999))
	r.p.Target = Target{DivertedLimit: diverted, MissShare: rounded(1 - runs)}
}

// rounded takes away what subtraction leaves in the last places, so that 1 − 0.95
// is 0.05.
func rounded(x float64) float64 { return math.Round(x*1e12) / 1e12 }

// scenarios reads the ways in which production may grow. Left out, there is one:
// that of solids.growth.
func (r *reader) scenarios() {
	if !r.root.Has("growth_scenarios") {
		r.p.Growths = []GrowthScenario{{Name: "as expected", Weight: 1, Growth: r.grown.Growth, Source: r.grown.source}}
		return
	}
	names := newNames("a growth scenario")
	sum, good := 0.0, true
	for _, s := range r.root.List("growth_scenarios") {
		scenario := GrowthScenario{
			Name:   names.read(s),
			Weight: s.Quantity("weight", units.Fraction, yamlfile.Positive(), yamlfile.AtMost(1)),
			Growth: r.form(s.Map("growth")),
			Source: s.TextOr("source", ""),
		}
		sum += scenario.Weight
		good = good && s.Good("weight")
		r.p.Growths = append(r.p.Growths, scenario)
	}
	if good && r.root.Good("growth_scenarios") && math.Abs(sum-1) > 1e-6 {
		r.root.Error("growth_scenarios", "the weights add up to "+units.FormatDigits(sum, units.Fraction, r.units, 6), "let them add up to 100 %")
	}
}

// names sees to it that the entries of a list have names of their own.
type names struct {
	what  string // with its article, for messages
	taken map[string]bool
}

func newNames(what string) names { return names{what, map[string]bool{}} }

// read reads the name of an entry.
func (n names) read(m *yamlfile.Map) string {
	name := m.Text("name")
	if m.Good("name") && n.taken[name] {
		m.Error("name", fmt.Sprintf("there is already %s %q", n.what, name), "give it a name of its own")
	}
	n.taken[name] = true
	return name
}
