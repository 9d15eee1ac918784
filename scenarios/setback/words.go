package setback

import (
	"fmt"
	"slices"
	"time"

	doc "loamcast/scenarios/document"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// subject names what happens: "One vessel (large) out for 6 weeks", or "“wet winter”, 3
// months from December 2033 on".
func (s *Setback) subject(y *Year) doc.Text {
	if s.Season() {
		from := y.Begins[0].From
		return doc.Say("“%s”, %s from %s on", doc.Name(s.Name, longestName), lasting(s.For), monthOf(from))
	}
	what := doc.Capital(counted(s.Vessels))
	if s.Class != "" {
		what += " (" + doc.Name(s.Class, longestName) + ")"
	}
	return doc.Say("%s out for %s", what, lasting(s.For))
}

// counted writes a number of vessels, small ones in words.
func counted(n int) string {
	words := [...]string{"no vessels", "one vessel", "two vessels", "three vessels", "four vessels"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprintf("%d vessels", n)
}

// lasting writes how long something lasts, in whole weeks where it is so.
func lasting(s calendar.Span) string {
	const week = 7
	if s.Months == 0 && s.Days%week == 0 {
		return doc.Counted(s.Days/week, "week")
	}
	return doc.SpanInWords(s)
}

func monthOf(d calendar.Date) string { return fmt.Sprintf("%s %d", d.Month, d.Year) }

// monthsOf names months of beginnings, in their order: "Jan to May and Dec".
func (y *Year) monthsOf(places []int) string {
	if len(places) == 1 {
		return y.Begins[places[0]].From.Month.String()
	}
	var list []time.Month
	for _, i := range slices.Sorted(slices.Values(places)) {
		list = append(list, y.Begins[i].From.Month)
	}
	return doc.MonthNames(list)
}

// inWords names the year, and says what it is.
func (y *Year) inWords(a *Answer) string {
	if y.LastKept {
		return a.Label(y.Year) + ", the last year in which the target is kept"
	}
	return a.Label(y.Year)
}

// least returns the places of the beginnings that cost least, as far as can be told.
func (y *Year) least() []int { return append([]int{y.Least}, y.Alike...) }

// mass writes dry solids with as many decimals as they deserve.
func mass(kg float64) doc.Text {
	switch size := max(kg, -kg); {
	case size < 950:
		return doc.Say("%s", doc.With(kg, doc.Mass, 2))
	case size < 95_000:
		return doc.Say("%s", doc.With(kg, doc.Mass, 1))
	}
	return doc.Say("%s", doc.With(kg, doc.Mass, 0))
}

// lost says what leaves untreated beyond what would, with its interval.
func (a *Answer) lost(b *Begin) doc.Text {
	decimals := 1
	if b.Untreated.Mean < 950 {
		decimals = 2
	}
	if b.Untreated.Mean >= 95_000 {
		decimals = 0
	}
	text := doc.Say("%s dry more leave untreated (%s to %s)", mass(b.Untreated.Mean),
		doc.Fixed(b.Untreated.Interval.Low, doc.Mass, decimals), doc.Fixed(b.Untreated.Interval.High, doc.Mass, decimals))
	text = text.Then("%s", b.inFailed())
	if a.Money && b.Tipping.Interval.Low > 0 {
		text = text.Then(", for %s in tipping", doc.AmountOf(b.Tipping.Mean).Of(a.PricesOf))
	}
	return text
}

// waitsFrom is the least longer waiting that is told, days.
const waitsFrom = 0.1

// waits says how much longer cake waits.
func (b *Begin) waits() string {
	if b.Delay.Mean < waitsFrom {
		return "cake waits no longer"
	}
	return fmt.Sprintf("cake waits %.1f"+doc.NoBreak+"days longer", b.Delay.Mean)
}

// chances says what becomes of the chance of missing the target.
func (a *Answer) chances(b *Begin) string {
	without, with := doc.Chance(b.Without), doc.Chance(b.Missed)
	const of = "the chance of missing the target within twelve months from then "
	switch {
	case b.Without.Estimate == 0 && b.Missed.Estimate > 0:
		return of + "is " + with + a.side(b) + ", and no run misses it without"
	case b.Missed.Estimate == b.Without.Estimate:
		return of + "stays at " + with + a.side(b)
	case b.Missed.Estimate < b.Without.Estimate:
		return of + "is " + with + ", " + without + " without it" + a.side(b)
	}
	return of + "rises from " + without + " to " + with + a.side(b)
}

// side says on which side of what the target leaves the chance with the setback lies, where
// that is not the good one.
func (a *Answer) side(b *Begin) string {
	if b.Verdict == stats.Below {
		return ""
	}
	return fmt.Sprintf(" (%s: the target leaves %s)", judged(b.Verdict), doc.ShareText(a.Target.MissShare))
}

// harmless reports whether a year's setback loses nothing that is told, whenever it begins.
func (y *Year) harmless() bool {
	for i := range y.Begins {
		if b := &y.Begins[i]; !b.Nothing() || b.Delay.Mean >= waitsFrom || b.Missed.Estimate != b.Without.Estimate {
			return false
		}
	}
	return true
}

// says tells in a sentence what a setback costs in a year.
func (a *Answer) says(s *Setback, y *Year) doc.Text {
	subject, in := s.subject(y), a.Label(y.Year)
	if s.Season() {
		b := &y.Begins[0]
		if y.harmless() {
			return doc.Say("%s: nothing is lost, and %s.", subject, b.waits())
		}
		return doc.Say("%s: %s; %s; %s.", subject, a.lost(b), b.waits(), a.chances(b))
	}
	most := &y.Begins[y.Most]
	switch {
	case y.harmless():
		return doc.Say("%s in %s: nothing is lost, whenever that begins, and cake hardly waits longer.", subject, in)
	case !y.Told():
		return doc.Say("%s in %s costs about the same whenever it begins, as far as %d runs tell. From %s on %s, %s, and %s.",
			subject, in, a.Replications, monthOf(most.From), a.cost(most), most.waits(), a.chances(most))
	}
	return doc.Say("%s in %s costs least when it begins in %s (%s) and most from %s on: %s; %s.", subject, in, y.monthsOf(y.least()), y.leastCost(),
		monthOf(most.From), a.cost(most), a.chances(most))
}

// cost is what is lost, or, where nothing is, how long cake waits.
func (a *Answer) cost(b *Begin) doc.Text {
	if b.Nothing() {
		return doc.Say("no more leaves untreated, but %s", b.waits())
	}
	return a.lost(b)
}

// leastCost is the cost of the months that cost least, shortly: up to that of the dearest of
// those that cannot be told apart, so that none of them is told cheaper than it looks.
func (y *Year) leastCost() doc.Text {
	least := &y.Begins[y.Least]
	dearest, slowest := least, least
	for _, i := range y.Alike {
		b := &y.Begins[i]
		if b.Untreated.Mean > dearest.Untreated.Mean {
			dearest = b
		}
		if b.Delay.Mean > slowest.Delay.Mean {
			slowest = b
		}
	}
	switch {
	case dearest.Nothing() && slowest.Delay.Mean < waitsFrom:
		return doc.Words("nothing is lost")
	case dearest.Nothing():
		return doc.Words(slowest.waits())
	case dearest == least:
		return mass(least.Untreated.Mean)
	}
	return doc.Say("%s at most in the mean; %d runs do not tell them apart", mass(dearest.Untreated.Mean), len(least.untreated))
}

// inFailed says how much of what is lost lies in loads that fail, if it is a part worth
// telling.
func (b *Begin) inFailed() doc.Text {
	const worth, all = 0.1, 0.95
	if b.Failed.Mean < worth*b.Untreated.Mean || b.Failed.Interval.Low <= 0 {
		return doc.Text{}
	}
	if b.Failed.Mean >= all*b.Untreated.Mean {
		return doc.Words(", nearly all of it in loads that fail to meet time and temperature")
	}
	return doc.Say(", %s of it in loads that fail to meet time and temperature", mass(b.Failed.Mean))
}
