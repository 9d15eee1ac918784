package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/options"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// ExpandTerminal writes the cheapest plan that keeps the service target and the
// next: the answer, what each plan costs and how sure that is, what comes when, and
// how the plans were found. Where there is too much for a screen, the last plans
// are left to the files.
func ExpandTerminal(w io.Writer, a *expand.Answer, sys units.System) error {
	e := expandText{newPage(sys), a, len(a.Plans)}
	e.all()
	for len(e.text) > screenLines && e.shown > 1 {
		e = expandText{newPage(sys), a, e.shown - 1}
		e.all()
	}
	return e.writeTo(w)
}

type expandText struct {
	*page
	a     *expand.Answer
	shown int // plans
}

func (e expandText) all() {
	e.para("%s", e.headline())
	e.service()
	if e.a.Invented {
		e.para("%s: %s", shorten(printable(e.a.Facility), 40), inventedNotice)
	}
	e.costs()
	e.blank()
	e.steps()
	e.blank()
	e.method()
}

// headline is the answer in words that can be repeated.
func (e expandText) headline() string {
	a, first := e.a, &e.a.Plans[0]
	last := a.Label(a.Years - 1)
	switch {
	case !a.Keeps():
		return e.furthest()
	case len(first.Steps) == 0:
		return fmt.Sprintf("Nothing need be built: the plant as it is keeps the service target in every year through %s.%s", last, e.next())
	case a.AsIs == a.Years-1:
		return fmt.Sprintf("The plant as it is keeps the service target in every year through %s, but %s %s itself back: %s.%s",
			last, stepsInWords(first), verb(len(first.Steps) == 1, "pays", "pay"), e.worth(first), e.next())
	}
	return fmt.Sprintf("The cheapest plan that keeps the service target in every year through %s is %s: %s.%s",
		last, stepsInWords(first), e.worth(first), e.next())
}

// furthest is the answer where the catalogue has no plan that keeps the target.
func (e expandText) furthest() string {
	a, first := e.a, &e.a.Plans[0]
	text := fmt.Sprintf("No plan of the catalogue keeps the service target through %s. ", a.Label(a.Years-1))
	switch {
	case a.Through < 0:
		text += "It is missed in the first year, whatever is built at once"
	case len(first.Steps) == 0:
		text += fmt.Sprintf("The plant as it is keeps it through %s, and no step makes it last longer", a.Label(a.Through))
	default:
		text += fmt.Sprintf("What comes furthest is %s, which keeps it through %s: %s", stepsInWords(first), a.Label(a.Through), e.worth(first))
	}
	return text + fmt.Sprintf(". What is short then is %s.", answer.Lack(a.Short))
}

// worth says what a plan costs.
func (e expandText) worth(p *expand.Plan) string {
	text := amount(p.Present.Estimate) + " present worth with the running of the plant"
	if p.High > p.Low {
		text += fmt.Sprintf(" (%s in 8 of 10 runs)", amounts(p.Low, p.High, p.Present.Estimate))
	}
	if build := p.Build(); build > 0 {
		text += fmt.Sprintf(", %s of it for building", amount(build))
	}
	return text
}

// next says what the next best costs more.
func (e expandText) next() string {
	if len(e.a.Plans) < 2 {
		return ""
	}
	p := &e.a.Plans[1]
	d := p.OverFirst
	return fmt.Sprintf(" The next best, %s, costs %s more (%s, 95%s%% interval).", stepsInWords(p),
		amount(d.Estimate), amounts(d.Low, d.High, d.Estimate), noBreak)
}

// amount writes an amount as people say it: "1.3 million USD", "340,000 USD".
func amount(v float64) string {
	number, unit := sized(v, v)
	return number + noBreak + unit
}

// amounts writes a range of amounts about one of some size.
func amounts(low, high, size float64) string {
	from, _ := sized(low, size)
	to, unit := sized(high, size)
	return from + " to " + to + noBreak + unit
}

// sized writes an amount to three digits of a size, in the unit that suits it.
func sized(v, size float64) (number, unit string) {
	const million, digits = 1e6, 3
	step := math.Pow(10, math.Floor(math.Log10(max(1, math.Abs(size))))-digits+1)
	v = math.Round(v/step) * step
	if math.Abs(size) >= million {
		return units.FormatNumber(v / million), "million" + noBreak + "USD"
	}
	return units.FormatNumber(v), "USD"
}

// stepsInWords lists the steps of a plan with their years.
func stepsInWords(p *expand.Plan) string {
	if len(p.Steps) == 0 {
		return "building nothing"
	}
	var parts []string
	for _, name := range stepNames(p) {
		var years []string
		for _, s := range p.Steps {
			if s.Name != name {
				continue
			}
			text := fmt.Sprint(s.InService.Year)
			if s.Count > 1 {
				text += fmt.Sprintf(" (%d of them)", s.Count)
			}
			years = append(years, text)
		}
		parts = append(parts, fmt.Sprintf("“%s” in %s", stepName(name), list(years)))
	}
	if last := len(parts) - 1; last > 0 {
		parts[last] = "and " + parts[last]
	}
	return strings.Join(parts, ", ")
}

// stepName is the name of a step as text has room for.
func stepName(name string) string { return shorten(printable(name), 30) }

// stepNames lists the steps that a plan takes, each once, the earliest first.
func stepNames(p *expand.Plan) []string {
	var names []string
	for _, s := range p.Steps {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	return names
}

// service says how well the first plan keeps the target.
func (e expandText) service() {
	a, p := e.a, &e.a.Plans[0]
	text := fmt.Sprintf("Service target: %v.", a.Target)
	if a.Through >= 0 {
		text += fmt.Sprintf(" How sure: in its worst year%s %d of %d runs of the first plan miss it (95%s%% interval %s to %s)%s.",
			e.worst(p), p.Missed[p.Worst], p.Replications, noBreak, e.fixed(p.Share.Low, share, 0), e.with(p.Share.High, share, 0), doubt(p))
	}
	if a.OtherGrowths > 0 {
		text += fmt.Sprintf(" All this is for the growth %q (%s).", printable(a.Growth.Name), e.with(a.Growth.Weight, share, 0))
	}
	e.para("%s", text)
}

// worst names the worst year where there is one.
func (e expandText) worst(p *expand.Plan) string {
	if p.Missed[p.Worst] == 0 {
		return ""
	}
	return ", " + e.a.Label(p.Worst) + ","
}

func doubt(p *expand.Plan) string {
	if p.Verdict == stats.Below {
		return ", and the test finds every year kept"
	}
	return ", too near to the target to be certain"
}

// costs is the table of the plans.
func (e expandText) costs() {
	plans := e.a.Plans[:e.shown]
	cell := func(of func(*expand.Plan) string) []string { return cellsOf(plans, of) }
	thousand := func(of func(*expand.Plan) float64) []string {
		return cell(func(p *expand.Plan) string { return thousands(of(p)) })
	}
	numbers := make([]string, len(plans))
	for i := range numbers {
		numbers[i] = fmt.Sprint(i + 1)
	}
	title := "The cheapest plan of each set of steps, all of them needed"
	if n := len(e.a.Plans) - e.shown; n > 0 {
		title += fmt.Sprintf("; %d more in expand.csv (--out)", n)
	}
	e.table(title, []column{
		{headings: []string{"Plan", ""}, cells: numbers},
		{group: fmt.Sprintf("present worth, thousand USD of %d", e.a.Stated), headings: []string{"all costs", "mean"}, cells: thousand(func(p *expand.Plan) float64 { return p.Present.Estimate })},
		{group: fmt.Sprintf("present worth, thousand USD of %d", e.a.Stated), headings: []string{"P10–P90", "of runs"}, cells: cell(func(p *expand.Plan) string { return thousands(p.Low) + "–" + thousands(p.High) })},
		{group: fmt.Sprintf("present worth, thousand USD of %d", e.a.Stated), headings: []string{"of it", "building"}, cells: thousand((*expand.Plan).Build)},
		{group: "more than plan 1", headings: []string{"thousand", "USD"}, cells: cell(e.overFirst)},
		{group: "target missed, worst year", headings: []string{"runs", ""}, cells: cell(func(p *expand.Plan) string { return fmt.Sprintf("%d of %d", p.Missed[p.Worst], p.Replications) })},
		{group: "target missed, worst year", headings: []string{"by test", ""}, cells: cell(keptByTest)},
	})
}

// overFirst writes what a plan costs more than the first, with its interval.
func (e expandText) overFirst(p *expand.Plan) string {
	d := p.OverFirst
	if p == &e.a.Plans[0] {
		return "-"
	}
	return fmt.Sprintf("%s (%s–%s)", thousands(d.Estimate), thousands(d.Low), thousands(d.High))
}

// keptByTest is the test's word on a plan.
func keptByTest(p *expand.Plan) string {
	if p.Verdict == stats.Below {
		return "kept"
	}
	return "open"
}

// thousands writes an amount in thousands of USD.
func thousands(v float64) string {
	v = math.Round(v / 1000)
	if v == 0 {
		return "0" // also for −0
	}
	if math.Abs(v) < 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.0f,%03.0f", math.Trunc(v/1000), math.Mod(math.Abs(v), 1000))
}

// steps lists what comes when, and by when to order it.
func (e expandText) steps() {
	e.para("In service from (order by):")
	for i := range e.a.Plans[:e.shown] {
		p := &e.a.Plans[i]
		var parts []string
		for _, s := range p.Steps {
			name := stepName(s.Name)
			if s.Count > 1 {
				name = fmt.Sprintf("%d%s×%s%s", s.Count, noBreak, noBreak, name)
			}
			when := month(s.OrderBy.String())
			if s.Late {
				when += ", before the start!"
			}
			parts = append(parts, fmt.Sprintf("%s %s (%s)", name, month(s.InService.String()), when))
		}
		if len(parts) == 0 {
			parts = []string{"nothing"}
		}
		e.text = append(e.text, wrap(strings.Join(parts, "; "), fmt.Sprintf("%4d  ", i+1), "      ")...)
	}
}

// method says how the plans were found, and what is left open.
func (e expandText) method() {
	a := e.a
	if a.Keeps() && a.AsIs < a.Years-1 {
		e.para("As it is the plant keeps the target %s%s; what is short then is %s.", e.through(a.AsIs), e.near(), answer.Lack(a.AsIsShort))
	}
	if len(a.Plans) > 1 {
		text := fmt.Sprintf("Chance that plan 1 is the cheapest of these: %s (Kim and Nelson's procedure, differences below %s do not matter, and the same luck for all).",
			options.Percent(a.Chance), amount(a.Indifference))
		if !a.Settled {
			text += " More replications would tell more."
		}
		e.para("%s", text)
	}
	e.para("Of %s ways to put the steps together, %d were simulated year by year until it was clear how long they last, and the plans whole: %s years in all. Steps come into service at the start of a year; open: too near to the target, or too few runs, to tell.",
		units.FormatNumber(float64(a.Configurations)), a.Simulated, units.FormatNumber(float64(a.YearsSimulated)))
	e.para("! It chooses from the steps and prices of the file; bids, the authority and a licensed engineer decide.")
}

// near says which years of the plant as it is are too near to the target to tell.
func (e expandText) near() string {
	a := e.a
	if a.AsIsMissed <= a.AsIs+1 {
		return ""
	}
	years := e.a.Label(a.AsIs + 1)
	if last := a.AsIsMissed - 1; last > a.AsIs+1 {
		years += " to " + e.a.Label(last)
	}
	return fmt.Sprintf(" for sure (%s, too near to the target to tell, count as missed here)", years)
}

func (e expandText) through(year int) string {
	if year < 0 {
		return "in no year"
	}
	return "through " + e.a.Label(year)
}
