package sizing

import (
	"fmt"
	"math"
	"strings"

	doc "loamcast/scenarios/document"
)

// Document tells what the file describes, and what arithmetic says of it.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.Headline())
	d.Sheet = true
	for i := range a.Seasons {
		a.Seasons[i].tell(d)
	}
	d.Para("The file can be used (%s): %s, %s, %s from %v.", warnings(a.Warnings),
		doc.Name(a.Facility, 60), doc.Counted(a.Vessels, "vessel"), doc.Counted(a.Horizon, "year"), a.Start)
	d.Para("Nothing is simulated here: it is arithmetic on full loads of January, April, July and October with the chips that they give back, " +
		"on the file's own growth and on what it changes on dates. Queues, variation and time lost between stages are left out: " +
		"what it finds short is short, and what it finds enough may not be (loamcast when).")
	if len(a.Sources) > 0 {
		var parts []doc.Text
		for i := range a.Sources {
			s := &a.Sources[i]
			parts = append(parts, doc.Say("%s %s dry at %s solids", doc.Name(s.Name, 30), doc.Show(s.Dry, doc.MassPerDay), doc.Show(s.Dry/s.Wet, doc.Share)))
		}
		d.Para("Cake of %s, in the mean of the months: %s.", a.Years[0].Label, doc.Join("; ", parts...))
	}
	if y := &a.Years[0]; len(a.Feedstocks) > 0 {
		d.Para("Of what %s brings, %s of dry solids in the mean are cake and %s what else arrives: %s. Stages are reckoned for cake; a kilogram of the rest counts as one of cake.",
			y.Label, doc.Show(y.Mean-y.Feedstocks, doc.MassPerDay), doc.Bare(y.Feedstocks, doc.MassPerDay), doc.Listed(printable(a.Feedstocks)))
	}
	d.Add(doc.Paragraph{Text: a.handbookText()})
	if text := a.byClass(); !text.Empty() {
		d.Add(doc.Paragraph{Text: text})
	}
	if text := a.byContract(); !text.Empty() {
		d.Add(doc.Paragraph{Text: text})
	}
	if a.Invented {
		d.Para(doc.Invented)
	}
	d.Fact("handbook_peak_month_short_from", doc.Count, a.yearOf(a.Handbook))
	d.Add(a.shown(), a.stagesTable(), a.yearsTable(), a.seasonsTable())
	if len(a.Sources) > 0 {
		d.Add(a.sourcesTable())
	}
	if len(a.Classes) > 0 {
		d.Add(a.classesTable())
	}
	return d
}

// byClass says what the vessels of each class sustain.
func (a *Answer) byClass() doc.Text {
	var parts []doc.Text
	for i := range a.Classes {
		c := &a.Classes[i]
		text := doc.Say("%d %s, %s", c.Installed, doc.Name(c.Name, 30), doc.Show(c.First, doc.MassPerDay))
		if c.Last != c.First {
			text = text.Then(" (%s in the end)", doc.Bare(c.Last, doc.MassPerDay))
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return doc.Text{}
	}
	return doc.Say("Vessels by class, and what they sustain of loads that stay as long as is aimed at: %s.", doc.Join("; ", parts...))
}

func (a *Answer) classesTable() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "vessel_classes", File: "vessel-classes"}, a.Classes,
		doc.Key("class", func(c *Class) any { return c.Name }).Means("class of the vessels"),
		doc.Any("installed", func(c *Class) any { return c.Installed }).Means("vessels of the class that the plant has"),
		doc.Val("sustains_dry_first_year", doc.MassPerDay, func(c *Class) float64 { return c.First }).Means("production that is sustained for ever by the plant of the first year, by arithmetic without queues and chance", doc.Dry),
		doc.Val("sustains_dry_last_year", doc.MassPerDay, func(c *Class) float64 { return c.Last }).Means("production that is sustained for ever by the plant of the last year, by arithmetic without queues and chance", doc.Dry))
}

func warnings(n int) string {
	if n == 0 {
		return "no warnings"
	}
	return doc.Counted(n, "warning")
}

// named is how many of the stages that are passed the headline names.
const named = 3

// Headline names the stages that do not sustain what comes, the first first.
func (a *Answer) Headline() doc.Text {
	last := a.Years[len(a.Years)-1]
	passed := a.passed()
	if len(passed) == 0 {
		text := doc.Say("By arithmetic every stage sustains what comes until the end of %s", last.Label)
		if s := a.tightest(); s != nil {
			text = text.Then("; of the %s the last year takes most, %s", s.Name, doc.WholePercent(last.Mean/s.last()))
		}
		return text.Then(".")
	}
	var parts []doc.Text
	for i := range passed[:min(named, len(passed))] {
		parts = append(parts, a.exceeds(&passed[i]))
	}
	text := doc.Say("By arithmetic alone %s.", doc.Join("; ", parts...))
	if more := len(passed) - named; more > 0 {
		text = text.Then(" So for %d more, below.", more)
	}
	return text
}

// exceeds says when a stage is passed.
func (a *Answer) exceeds(s *Stage) doc.Text {
	at := min(s.PassedByMean, s.PassedByPeak)
	text := doc.Say("%s sustain%s %s of dry solids", s.Name, ending(s.Name), doc.Show(s.At[at], doc.MassPerDay))
	month := &a.Years[at]
	switch {
	case s.PassedByMean == 0:
		return text.Then(", and already the mean of %s is %s", month.Label, doc.Bare(month.Mean, doc.MassPerDay))
	case at == s.PassedByMean:
		return text.Then(": the mean of %s is %s", month.Label, doc.Bare(month.Mean, doc.MassPerDay))
	case s.PassedByMean == Never:
		return text.Then(": %s of %s brings %s", month.Highest, month.Label, doc.Bare(month.Peak, doc.MassPerDay))
	}
	mean := &a.Years[s.PassedByMean]
	return text.Then(": %s of %s brings %s, and the mean of %s is %s", month.Highest, month.Label, doc.Bare(month.Peak, doc.MassPerDay),
		mean.Label, doc.Bare(mean.Mean, doc.MassPerDay))
}

// ending is that of a verb behind the name of a stage.
func ending(stage string) string {
	if strings.HasSuffix(stage, "s") {
		return ""
	}
	return "s"
}

// tightest is the stage of which the last year takes the most.
func (a *Answer) tightest() *Stage {
	var least *Stage
	for i := range a.Stages {
		if s := &a.Stages[i]; math.IsNaN(s.last()) {
			continue
		} else if least == nil || s.last() < least.last() {
			least = s
		}
	}
	return least
}

// handbookText sets the handbook's estimate, which `when` and `run` tell too, beside what
// vessels sustain.
func (a *Answer) handbookText() doc.Text {
	const why = "The handbook's estimate of vessels, by fresh chips and the residence aimed at,"
	if a.Handbook == Never {
		return doc.Say(why+" passes those that are there in no month until the end of %s.", a.Years[len(a.Years)-1].Label)
	}
	return doc.Say(why+" first passes those that are there in the highest month of %s.", a.Years[a.Handbook].Label)
}

// tell says what is wrong with the loads of a month.
func (s *Season) tell(d *doc.Document) {
	if s.Unsteady {
		d.Para("In %s%s recovered chips do not become the same from load to load: what loads need is then not known of it.", s.Month, s.ofClass(" in %s vessels"))
		return
	}
	d.Para("%s loads%s do not meet %s and would be hauled away: see `loamcast cycle --month %s`.", s.Month, s.ofClass(" of %s vessels"), doc.Listed(printable(s.Unmet)), strings.ToLower(s.Month.String()[:3]))
}

// printable are names of a file as a text has them.
func printable(names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = doc.Printable(name)
	}
	return out
}

// ofClass names the class of the vessel in some words, if there are several.
func (s *Season) ofClass(words string) string {
	if s.Class == "" {
		return ""
	}
	return fmt.Sprintf(words, doc.Name(s.Class, 30))
}

// shown is the table on the screen.
func (a *Answer) shown() doc.Table {
	first, last := a.Years[0], a.Years[len(a.Years)-1]
	const sustains = "sustains, {unit}"
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Say("What stages sustain; %s brings %s of dry solids a day, %s in %s; %s %s, %s in %s",
		first.Label, doc.Show(first.Mean, doc.Mass), doc.Bare(first.Peak, doc.Mass), first.Highest,
		last.Label, doc.Bare(last.Mean, doc.Mass), doc.Bare(last.Peak, doc.Mass), last.Highest)}, a.Stages,
		doc.Left([]string{"Stage", ""}, func(s *Stage) any { return doc.Capital(s.Name) }),
		doc.Num(sustains, []string{first.Label, ""}, doc.MassPerDay, doc.Significant, func(s *Stage) float64 { return s.first() }),
		doc.Num(sustains, []string{last.Label, ""}, doc.MassPerDay, doc.Significant, func(s *Stage) float64 { return s.last() }),
		doc.Txt("passed first by the", []string{"top month", "of"}, doc.Count, func(s *Stage) any { return a.yearOf(s.PassedByPeak) }),
		doc.Txt("passed first by the", []string{"mean", "of"}, doc.Count, func(s *Stage) any { return a.yearOf(s.PassedByMean) }))
}

// yearOf is a year's label, nothing for Never.
func (a *Answer) yearOf(y int) any {
	if y == Never {
		return nil
	}
	return a.Years[y].Label
}

// stagesTable, yearsTable and seasonsTable are for files.
func (a *Answer) stagesTable() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "stages", File: "stages"}, a.Stages,
		doc.Key("stage", func(s *Stage) any { return s.Name }).Means("part of the plant that may limit what it passes on"),
		doc.Val("sustains_dry_first_year", doc.MassPerDay, func(s *Stage) float64 { return s.first() }).Means("production that is sustained for ever by the plant of the first year, by arithmetic without queues and chance", doc.Dry),
		doc.Val("sustains_dry_last_year", doc.MassPerDay, func(s *Stage) float64 { return s.last() }).Means("production that is sustained for ever by the plant of the last year, by arithmetic without queues and chance", doc.Dry),
		doc.Any("passed_by_highest_month_of", func(s *Stage) any { return a.yearOf(s.PassedByPeak) }).Means("first year whose highest month brings more than the stage sustains"),
		doc.Any("passed_by_mean_of", func(s *Stage) any { return a.yearOf(s.PassedByMean) }).Means("first year whose mean brings more than the stage sustains"))
}

func (a *Answer) yearsTable() doc.Table {
	cols := []doc.Col[Year]{
		doc.Key("year", func(y *Year) any { return y.Label }).Means("year of the horizon"),
		doc.Val("arrives_dry", doc.MassPerDay, func(y *Year) float64 { return y.Mean }).Means("production, mean over the year", doc.Dry),
		doc.Val("arrives_dry_highest_month", doc.MassPerDay, func(y *Year) float64 { return y.Peak }).Means("production in the highest month of the year", doc.Dry),
		doc.Any("highest_month", func(y *Year) any { return y.Highest.String() }).Means("month of the year with the highest production"),
	}
	if len(a.Feedstocks) > 0 {
		cols = append(cols, doc.Val("cake_arrives_dry", doc.MassPerDay, func(y *Year) float64 { return y.Mean - y.Feedstocks }).Means("production of cake, feedstocks left out, mean over the year", doc.Dry),
			doc.Val("feedstocks_arrive_dry", doc.MassPerDay, func(y *Year) float64 { return y.Feedstocks }).Means("feedstocks that come beside cake, mean over the year", doc.Dry))
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "years", File: "check-years"}, a.Years, append(cols, a.contractColumns()...)...)
}

func (a *Answer) sourcesTable() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "sources", File: "sources"}, a.Sources,
		doc.Key("source", func(s *Source) any { return s.Name }).Means("plant that sends cake"),
		doc.Val("sends_dry", doc.MassPerDay, func(s *Source) float64 { return s.Dry }).Means("solids that the source sends, mean of the first year", doc.Dry),
		doc.Val("sends_wet", doc.MassPerDay, func(s *Source) float64 { return s.Wet }).Means("cake that the source sends as weighed, mean of the first year", doc.Wet))
}

func (a *Answer) seasonsTable() doc.Table {
	cols := []doc.Col[Season]{doc.Key("month", func(s *Season) any { return s.Month.String() }).Means("month of the year in which a load fails")}
	if len(a.Classes) > 0 {
		cols = append(cols, doc.Key("class", func(s *Season) any { return s.Class }).Means("class of the vessels"))
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "months_that_fail"}, a.Seasons, append(cols,
		doc.Any("not_met", func(s *Season) any { return s.Unmet }).Means("criteria that a load of the month does not meet"),
		doc.Any("unsteady", func(s *Season) any { return s.Unsteady }).Means("whether the loop of chips has no steady load in the month"))...)
}
