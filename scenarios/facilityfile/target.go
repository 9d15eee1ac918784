package facilityfile

import (
	"fmt"
	"math"
	"strconv"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// Target is the service target by which a year is judged. A run keeps it if at
// most DivertedLimit, a fraction, of the year's dry solids leaves untreated and if
// the cake waits at most DelayLimit days in the mean for what is short; a year is
// good if at most MissShare of the runs, a fraction, miss it.
type Target struct{ DivertedLimit, DelayLimit, MissShare float64 }

// Missed reports whether a run misses the target in some months.
func (t Target) Missed(months []plant.Month) bool {
	return plant.UntreatedShare(months) > t.DivertedLimit || plant.CakeDelay(months) > t.DelayLimit
}

// Beyond returns the dry solids, kg, that leave untreated in a year's months beyond
// what the target allows. It is more than 0 exactly if the target is missed by what
// leaves untreated; what waits too long is not in it.
func (t Target) Beyond(months []plant.Month) float64 {
	untreated, fed := 0.0, 0.0
	for i := range months {
		untreated += months[i].Untreated()
		fed += months[i].Feed.Dry
	}
	return max(0, untreated-t.DivertedLimit*max(fed, untreated))
}

// String says what a year must keep.
func (t Target) String() string {
	days := "days"
	if t.DelayLimit == 1 {
		days = "day"
	}
	percent := func(x float64) string { return exact(100*x) + "\u00a0%" }
	return fmt.Sprintf("at most %s of a year's dry solids leaves untreated and cake waits at most %s\u00a0%s on average for a vessel or whatever is short, in %s of the runs",
		percent(t.DivertedLimit), exact(t.DelayLimit), days, percent(1-t.MissShare))
}

// exact writes a number with as many digits as it was given.
func exact(x float64) string { return strconv.FormatFloat(rounded(x), 'g', 6, 64) }

// target reads by what a year is judged.
func (r *reader) target() {
	read(r.root.MapIf("target"), targetRows, &r.p.Target)
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
		scenario := GrowthScenario{Name: names.read(s), Growth: r.form(neededGrowth(s))}
		read(s, scenarioRows, &scenario)
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
