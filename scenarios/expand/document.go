package expand

import (
	"fmt"
	"slices"
	"strconv"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// Document tells the cheapest plan that keeps the service target and the next:
// what each plan costs and how sure that is, what comes when, and how the plans
// were found. Where there is too much for a screen, the last plans are left to the
// files.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.Headline())
	d.Add(a.facts())
	a.service(d)
	if a.Invented {
		d.Para("%s: %s", doc.Name(a.Facility, 40), doc.Invented)
	}
	d.Add(a.costs(), a.plans(), a.years(), doc.Gap{})
	a.steps(d)
	if a.Adaptive != nil {
		d.Para("%s", a.Adaptive.words(a))
		d.Add(a.signs())
	}
	d.Add(doc.Gap{})
	a.method(d)
	d.Figures = a.figures()
	return d
}

// facts are what files say of the whole search.
func (a *Answer) facts() doc.Facts {
	short := any(nil)
	if !a.Keeps() {
		short = a.Short.String()
	}
	return doc.Facts{
		{Name: "growth", Value: doc.Record{{Name: "name", Value: a.Growth.Name}, {Name: "weight", Quantity: doc.Share, Value: a.Growth.Weight}}},
		{Name: "prices_of", Value: a.Stated},
		{Name: "real_discount", Quantity: doc.AnnualRate, Value: a.Real},
		{Name: "keeps_target", Value: a.Keeps()},
		{Name: "kept_through", Value: a.yearOrNone(a.Through)},
		{Name: "short_then", Value: short},
		{Name: "as_it_is", Value: doc.Record{
			{Name: "kept_through", Value: a.yearOrNone(a.AsIs)},
			{Name: "missed_from", Value: a.yearOrNone(a.AsIsMissed)},
			{Name: "short_then", Value: a.AsIsShort.Name()},
		}},
		{Name: "chance_first_is_cheapest", Quantity: doc.Share, Value: a.OfThese},
		{Name: "chance_first_is_cheapest_that_keeps_target", Quantity: doc.Share, Value: a.Chance},
		{Name: "settled", Value: a.Settled},
		{Name: "judged_by_runs_because", Value: noneIfEmpty(a.ByRuns)},
		{Name: "procedure", Value: "Kim and Nelson 2001, the same replications for all plans"},
		{Name: "indifference", Quantity: doc.Money, Value: a.Indifference},
		{Name: "with_other_seeds", Value: a.Doubt.file()},
		{Name: "configurations", Value: a.Configurations},
		{Name: "configurations_simulated", Value: a.Simulated},
		{Name: "years_simulated", Value: a.YearsSimulated},
		{Name: "replications_allowed", Value: a.Most},
	}
}

func noneIfEmpty(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// yearOrNone is a year's label, or nil if it is none of the horizon.
func (a *Answer) yearOrNone(year int) any {
	if year < 0 || year >= a.Horizon {
		return nil
	}
	return a.Label(year)
}

// service says how well the first plan keeps the target.
func (a *Answer) service(d *doc.Document) {
	p := &a.Plans[0]
	text := doc.Say("Service target: %v.", a.Target)
	if a.Through >= 0 {
		doubt := "too near to the target to be certain"
		if p.Sure() {
			doubt = "and every year is kept"
		}
		text = text.Then(" How sure: in its worst year%s %s of the first plan miss it, %s.", a.worst(p), a.missing(p), doubt)
		if a.ByRuns == "" {
			most := "none misses a year"
			if n := slices.Max(p.Missed[:a.Through+1]); n > 0 {
				most = fmt.Sprintf("in no year more than %d miss it", n)
			}
			text = text.Then(" That follows from what the plant carries with each step; of the %d whole runs that check it %s.", p.Replications, most)
		} else {
			text = text.Then(" It is judged by whole runs, because %s.", a.ByRuns)
		}
	}
	if a.Alone {
		text = text.Then(" All this is for the growth “%s” alone (%s).", doc.Printable(a.Growth.Name), doc.With(a.Growth.Weight, doc.Share, 0))
	}
	d.Para("%s", text)
	if a.Doubt != nil {
		d.Para("%s", a.Doubt.words(a.Stated))
	}
}

// words say how far the first plan rests on what is not known of what the plant
// carries, in the money of a year.
func (q *Doubt) words(stated int) doc.Text {
	text := doc.Say("By other runs of what the plant carries it may cost %s of %d (90"+doc.NoBreak+"%%).",
		doc.AmountRange(q.Range.Low, q.Range.High, q.Range.Estimate), stated)
	likeliest, told := Plan{Steps: q.Likeliest}, q.Caution >= 1
	if told {
		text = text.Then(" To be sure of the target costs %s: in the likeliest case %s would do.", doc.AmountOf(q.Caution), likeliest.InWords())
	}
	switch r := q.Rival; {
	case r == nil:
		return text
	case told && slices.Equal(r.Steps, q.Likeliest):
		return text.Then(" The chance that this keeps the target is %s.", doc.Estimated(r.Keeps))
	default:
		rival := Plan{Steps: r.Steps}
		return text.Then(" For %s less, %s may do: the chance that this keeps the target is %s.", doc.AmountOf(r.Less), rival.InWords(), doc.Estimated(r.Keeps))
	}
}

// file is the same for files.
func (q *Doubt) file() any {
	if q == nil {
		return nil
	}
	likeliest := Plan{Steps: q.Likeliest}
	return doc.Record{
		{Name: "present_worth_low90", Quantity: doc.Money, Value: q.Range.Low},
		{Name: "present_worth_high90", Quantity: doc.Money, Value: q.Range.High},
		{Name: "to_be_sure", Quantity: doc.Money, Value: q.Caution},
		{Name: "likeliest_in_words", Value: likeliest.InWords()},
		{Name: "chance_first_keeps", Quantity: doc.Share, Value: q.Keeps},
		{Name: "chance_none_cheaper_keeps", Quantity: doc.Share, Value: q.Stays},
		{Name: "rival", Value: q.Rival.file()},
	}
}

// file is the same for files.
func (r *Rival) file() any {
	if r == nil {
		return nil
	}
	rival := Plan{Steps: r.Steps}
	return doc.Record{
		{Name: "in_words", Value: rival.InWords()},
		{Name: "costs_less", Quantity: doc.Money, Value: r.Less},
		{Name: "chance_keeps", Quantity: doc.Share, Value: r.Keeps},
	}
}

// signsTold are the signs told on the screen: the first to come.
const signsTold = 3

// words say what it means to order when signs are seen, and not on dates.
func (s *Adaptive) words(a *Answer) doc.Text {
	var parts []doc.Text
	for i, step := range s.Steps {
		if i == signsTold && len(s.Steps) > signsTold+1 {
			parts = append(parts, doc.Words(fmt.Sprintf("%d more in expand-signs.csv", len(s.Steps)-i)))
			break
		}
		name := stepName(step.Name)
		if step.Count > 1 {
			name = fmt.Sprintf("%d × %s", step.Count, name)
		}
		switch {
		case step.Production == 0:
			parts = append(parts, doc.Say("“%s” on its date", name))
		case step.To.Before(a.Start.AddYears(a.Horizon)):
			parts = append(parts, doc.Say("“%s” at %s (%d to %d)", name, doc.Show(step.Production, doc.MassPerDay), step.From.Year, step.To.Year))
		default:
			parts = append(parts, doc.Say("“%s” at %s (from %d on, or never: %s)", name, doc.Show(step.Production, doc.MassPerDay), step.From.Year, doc.With(step.Never, doc.Share, 0)))
		}
	}
	cost := doc.Words("about as much as")
	switch d := s.OverDated; {
	case d.High < 0:
		cost = doc.Say("%s less (%s) than", doc.AmountOf(-d.Estimate).Of(a.Stated), doc.AmountRange(-d.High, -d.Low, d.Estimate))
	case d.Low > 0:
		cost = doc.Say("%s more (%s) than", doc.AmountOf(d.Estimate).Of(a.Stated), doc.AmountRange(d.Low, d.High, d.Estimate))
	}
	missed := "none of %d whole runs misses a year"
	if s.Missed > 0 {
		missed = fmt.Sprintf("in no year do more than %d of %%d whole runs miss the target", s.Missed)
	}
	return doc.Say("The first plan, ordered when it is seen to be needed and not on dates, as soon as the mean production of the last twelve months passes a mark in dry solids: %s. That costs %s on dates, and "+missed+".",
		doc.Join("; ", parts...), cost, s.Replications)
}

// worst names the worst year of a plan, if any run misses one.
func (a *Answer) worst(p *Plan) string {
	if p.Share.Estimate == 0 {
		return ""
	}
	return ", " + a.Label(p.Worst) + ","
}

// steps lists what comes when, and by when to order it.
func (a *Answer) steps(d *doc.Document) {
	d.Para("In service from (order by):")
	for i := range a.Plans {
		var parts []doc.Text
		for _, s := range a.Plans[i].Steps {
			name, when := stepName(s.Name), doc.Month(s.OrderBy)
			if s.Count > 1 {
				name = strconv.Itoa(s.Count) + doc.NoBreak + "×" + doc.NoBreak + name
			}
			if s.Brings != "" {
				name += " (" + doc.Name(s.Brings, 30) + ")"
			}
			switch {
			case s.Late:
				when += ", before the start!"
			case s.Later:
				when += ", no decision yet"
			}
			parts = append(parts, doc.Say("%s %s (%s)", name, doc.Month(s.InService), when))
		}
		if len(parts) == 0 {
			parts = []doc.Text{doc.Words("nothing")}
		}
		d.Add(doc.Paragraph{Label: strconv.Itoa(i + 1), Item: true, Text: doc.Join("; ", parts...), Rank: max(0, i-leastPlans+1)})
	}
}

// method says how the plans were found, and what is left open.
func (a *Answer) method(d *doc.Document) {
	if a.Keeps() && !a.AsItIs() {
		through := "in no year"
		if a.AsIs >= 0 {
			through = "through " + a.Label(a.AsIs)
		}
		d.Para("As it is the plant keeps the target %s%s; what is short then is %s.", through, a.near(), a.AsIsShort)
	}
	a.chances(d)
	d.Para("%[2]d of %[1]s ways to put the steps together were tried, and these plans simulated whole: %[3]s years. Steps come at the start of a year; those of the last %[4]d years are no decision yet: how long they would serve is not looked at.%[5]s",
		units.FormatNumber(float64(a.Configurations)), a.Simulated, units.FormatNumber(float64(a.YearsSimulated)), int(tail*float64(a.Horizon)), a.whatOpenMeans())
	d.Para("! It chooses from the steps and prices of the file; bids, the authority and a licensed engineer decide.")
}

// chances say how sure it is that the first plan keeps the target, and that none is cheaper.
// Of the latter whole runs of a small catalogue say that it is an upper bound: where a cheaper
// plan is near to the target, a point that its years are told to miss too much makes much of
// the chance, so that it keeps the target more often than is told.
func (a *Answer) chances(d *doc.Document) {
	var parts []doc.Text
	if a.Doubt != nil {
		parts = append(parts, doc.Say("plan 1 keeps the target: %s", doc.Estimated(a.Doubt.Keeps)))
		cheaper := doc.Say("no cheaper plan does: %s at most", doc.Estimated(a.Chance))
		if a.Doubt.Rival != nil {
			cheaper = cheaper.Then(", as it is chosen to be sure")
		}
		parts = append(parts, cheaper)
	}
	if len(a.Plans) > 1 {
		parts = append(parts, doc.Say("plan 1 is the cheapest of these: %s (Kim and Nelson's procedure, differences below %s do not matter, and the same chance events for all)",
			doc.Estimated(a.OfThese), doc.AmountOf(a.Indifference).Of(a.Stated)))
	}
	if len(parts) == 0 {
		return
	}
	text := doc.Say("Chance that %s.", doc.Join("; that ", parts...))
	if len(a.Plans) > 1 && !a.Settled {
		text = text.Then(" More replications would tell more.")
	}
	d.Para("%s", text)
}

// whatOpenMeans explains the word where the table has it.
func (a *Answer) whatOpenMeans() string {
	for i := range a.Plans {
		if !a.Plans[i].Sure() {
			return " Open: too near to the target, or too few runs, to tell."
		}
	}
	return ""
}

// near says which years of the plant as it is are too near to the target to tell.
func (a *Answer) near() doc.Text {
	from, to, some := a.Near()
	if !some {
		return doc.Text{}
	}
	years := a.Label(from)
	if to > from {
		years += " to " + a.Label(to)
	}
	return doc.Say(" for sure (%s, too near to the target to tell, count as missed here)", years)
}
