package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/options"
	"loamcast/scenarios/units"
)

// OptionsTerminal writes the comparison of options: what to choose, the choices
// in the order of their rank, what each costs under the growth scenarios, and how
// they were compared. Where there are too many choices for a screen, the last are
// left to the files.
func OptionsTerminal(w io.Writer, a *options.Answer, sys units.System) error {
	o := optionsText{newPage(sys), a, len(a.Choices)}
	o.all()
	for len(o.text) > screenLines && o.shown > leastShown {
		o = optionsText{newPage(sys), a, o.shown - 1}
		o.all()
	}
	return o.writeTo(w)
}

// leastShown is how many choices are shown however long the text gets.
const leastShown = 3

type optionsText struct {
	*page
	a     *options.Answer
	shown int // choices
}

func (o optionsText) all() {
	o.head()
	o.ranking()
	if len(o.a.Growths) > 1 {
		o.scenarios()
	}
	o.blank()
	o.steps()
	o.method()
}

func (o optionsText) head() {
	a := o.a
	o.para("%s", printable(a.Headline()))
	for _, doubt := range a.Doubts() {
		o.para("%s", printable(doubt))
	}
	o.para("%s: %s from %s; %s, %s, seed %d. Costs: present worth, USD of %d, %s above inflation; ±: half a 95%s%% interval.",
		shorten(printable(a.Facility), 40), counted(len(a.Years), "year"), a.Start, counted(a.Replications, "replication"),
		counted(len(a.Growths), "growth scenario"), a.Seed, a.Stated, o.with(a.Real, yearly, 1), noBreak)
	if a.Invented {
		o.para(inventedNotice)
	}
}

// ranked returns the choices shown, the first ranked first. The plant as it is is
// always among them.
func (o optionsText) ranked() []choiceRow {
	all := choiceRows(o.a)
	out := all[:o.shown:o.shown]
	for _, row := range all[o.shown:] {
		if row.AsIs {
			out[len(out)-1] = row
		}
	}
	return out
}

// thousands writes an amount in thousands of USD.
func (o optionsText) thousands(v float64) string {
	v = math.Round(v / 1000)
	if v == 0 {
		return "0" // also for −0
	}
	if math.Abs(v) < 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%s,%03.0f", fmt.Sprintf("%.0f", math.Trunc(v/1000)), math.Mod(math.Abs(v), 1000))
}

// The lengths between which names of choices are cut to fit.
const mostName, leastName = 34, 12

// choiceTable adds a table whose first column ranks and names the choices, cut so
// far that the table fits.
func (o optionsText) choiceTable(title string, list []choiceRow, headings []string, rest []column) {
	for longest := mostName; ; longest-- {
		cells := make([]string, len(list))
		for i := range list {
			cells[i] = fmt.Sprintf("%d %s", list[i].rank, shorten(printable(list[i].Name), longest))
		}
		columns := append([]column{words(headings, cells)}, rest...)
		if width := utf8.RuneCountInString(layOut(columns, screenColumns)[0]); width <= screenColumns || longest == leastName {
			o.table(title, columns)
			return
		}
	}
}

// ranking is the table of the choices over all growth scenarios.
func (o optionsText) ranking() {
	list := o.ranked()
	cell := cellsOf[choiceRow]
	columns := []column{
		{group: "thousand USD", headings: []string{"present", "worth"}, cells: cell(list, func(c *choiceRow) string { return o.thousands(c.All.Present.Estimate) })},
		{group: "thousand USD", headings: []string{"over the", "first"}, cells: cell(list, func(c *choiceRow) string { return o.overFirst(c.All) })},
		{group: "thousand USD", headings: []string{"each", "year"}, cells: cell(list, func(c *choiceRow) string { return o.thousands(c.All.Annual) })},
		{group: "USD per dry", headings: []string{mass.label(o.sys), "of feed"}, cells: cell(list, func(c *choiceRow) string { return o.fixed(c.All.PerDry, perDry, 0) })},
		{headings: []string{"diverted", "%"}, cells: cell(list, func(c *choiceRow) string { return o.fixed(c.All.Share, share, 1) })},
		{group: "service target", headings: []string{"missed", "from"}, cells: cell(list, o.missesFrom)},
		{group: "service target", headings: []string{"runs, in", "worst year"}, cells: cell(list, func(c *choiceRow) string { return options.Percent(c.Service.Share.Estimate) })},
	}
	if o.a.AirKept {
		years := float64(len(o.a.Years))
		columns = append(columns, column{headings: []string{"h/year", "over air"}, cells: cell(list, func(c *choiceRow) string { return fmt.Sprintf("%.0f", c.All.HoursOver/years) })})
	}
	title := "The choices in order of rank"
	if len(o.a.Growths) > 1 {
		title += ", all growth scenarios together"
	}
	o.choiceTable(title+o.left()+o.notCertain(), list, []string{"Choice", ""}, columns)
}

// left says how many choices are not shown.
func (o optionsText) left() string {
	if n := len(o.a.Choices) - o.shown; n > 0 {
		return fmt.Sprintf("; %d more in options.csv", n)
	}
	return ""
}

// overFirst writes what a choice costs over the first, with its half-width.
func (o optionsText) overFirst(s options.Summary) string {
	d := s.OverFirst
	if d.Estimate == 0 && d.HalfWidth() == 0 {
		return "-"
	}
	return fmt.Sprintf("%s ± %s", o.thousands(d.Estimate), o.thousands(d.HalfWidth()))
}

func (o optionsText) missesFrom(c *choiceRow) string {
	text := "never"
	if y := c.Service.FirstMissed; y >= 0 {
		text = o.a.Years[y]
	}
	if !c.Service.Sure {
		text += " ?"
	}
	return text
}

// mostScenarios is how many growth scenarios there is room for.
const mostScenarios = 4

// scenarios is the table of the choices by growth scenario, with their regret.
func (o optionsText) scenarios() {
	list := o.ranked()
	cell := cellsOf[choiceRow]
	var columns []column
	marked := false
	for g, growth := range o.a.Growths[:min(mostScenarios, len(o.a.Growths))] {
		group := fmt.Sprintf("%s, %s", shorten(printable(growth.Name), 12), options.Percent(growth.Weight))
		columns = append(columns,
			column{group: group, headings: []string{"cost"}, cells: cell(list, func(c *choiceRow) string {
				text := o.thousands(c.Growths[g].Present.Estimate)
				if !c.Growths[g].Keeps {
					marked = true
					text += "*"
				}
				return text
			})},
			column{group: group, headings: []string{"regret"}, cells: cell(list, func(c *choiceRow) string { return o.thousands(c.Growths[g].Regret) })})
	}
	columns = append(columns,
		column{group: "regret", headings: []string{"mean"}, cells: cell(list, func(c *choiceRow) string { return o.thousands(c.Regret) })},
		column{group: "regret", headings: []string{"worst"}, cells: cell(list, func(c *choiceRow) string { return o.thousands(c.WorstRegret) })})
	title := "By growth scenario, thousand USD (regret: over the cheapest in the same scenario"
	if marked {
		title += "; * misses"
	}
	title += ")"
	o.choiceTable(title, list, []string{"Choice"}, columns)
}

// steps says how often the steps that wait for a sign were taken.
func (o optionsText) steps() {
	var parts []string
	for _, c := range o.ranked() {
		for _, s := range c.Steps {
			switch {
			case !s.Triggered:
			case s.Taken == 0:
				parts = append(parts, fmt.Sprintf("“%s” in no run", printable(s.Name)))
			default:
				parts = append(parts, fmt.Sprintf("“%s” in %s of the runs, in service by %s in half of these", printable(s.Name), options.Percent(s.Taken), month(s.InService.String())))
			}
		}
	}
	if len(parts) > 0 {
		o.para("Steps that wait for a sign are taken: %s.", strings.Join(parts, "; "))
	}
}

// month cuts a date to its month.
func month(date string) string { return date[:len("2027-01")] }

// notCertain explains the mark of missesFrom.
func (o optionsText) notCertain() string {
	for _, c := range o.ranked() {
		if !c.Service.Sure {
			return "; ?: uncertain"
		}
	}
	return ""
}

// method says how the choices were compared.
func (o optionsText) method() {
	a := o.a
	o.para("Service target: %v. What keeps it is first, then what misses it in the fewest years or one more; each by cost with tipping.", a.Target)
	o.para("Same replications for all (common random numbers), in rounds until the first is cheapest with 95%s%% chance (Bonferroni, paired t; Chen et al. 2000) and the target not in doubt: %d of at most %d.",
		noBreak, a.Replications, a.Most)
	o.para("! It compares the options and prices that the file gives; bids, financing and rates are not in it.")
}
