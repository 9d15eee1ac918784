package report

import (
	"fmt"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// What the plans for chips and for product have in common.

// monthly is the head of a plan by month and fiscal year.
type monthly struct {
	facility     string
	invented     bool
	begins       time.Month
	replications int
	seed         uint64
	level        answer.Level
	growths      []fiscal.Share
}

// What the screen has room for: the months of the first year where there are
// few years, and otherwise years alone; words about the first of them.
const (
	mostYearsWithMonths = 2
	mostFiscalYears     = 14
	mostBudgets         = 3
)

// basis says whose figures these are and what they mean.
func (p *page) basis(m monthly) {
	text := fmt.Sprintf("%s, %s, seed %d%s. P10 to P90 is where %.0f %% of them lie.",
		shorten(printable(m.facility), 40), counted(m.replications, "replication"), m.seed, growthText(m.growths), 100*(m.level.High-m.level.Low))
	if m.begins != time.January {
		text += fmt.Sprintf(" Fiscal years begin in %s.", m.begins)
	}
	p.para("%s", text)
	if m.invented {
		p.para(inventedNotice)
	}
}

func growthText(list []fiscal.Share) string {
	switch len(list) {
	case 0:
		return ""
	case 1:
		return ", growth " + printable(list[0].Name)
	}
	parts := make([]string, len(list))
	for i, g := range list {
		parts[i] = fmt.Sprintf("%s %.0f %%", printable(g.Name), 100*g.Weight)
	}
	return ", growth by weight (" + strings.Join(parts, ", ") + ")"
}

// runsBetween is "eight runs in ten between 3,900 and 4,400".
func (p *page) runsBetween(s answer.Spread, q quantity, level answer.Level) string {
	low, high := p.number(s.P10, q), p.number(s.P90, q)
	if low == high {
		return fmt.Sprintf("%s runs in ten at %s", tenths(level), low)
	}
	return fmt.Sprintf("%s runs in ten between %s and %s", tenths(level), low, high)
}

func tenths(level answer.Level) string {
	names := [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	return names[int(10*(level.High-level.Low)+0.5)]
}

// chance writes an estimated chance. What was seen in no replication may yet
// happen: then it is below the end of its interval.
func chance(c stats.Interval) string {
	if c.Estimate == 0 {
		return "less than " + shareText(c.High)
	}
	return shareText(c.Estimate)
}

// chanceInterval adds the interval.
func chanceInterval(c stats.Interval) string {
	return fmt.Sprintf("%s"+noBreak+"(%s–%s)", shareText(c.Estimate), bareShare(c.Low), shareText(c.High))
}

// shareText writes a share with as many digits as replications can give.
func shareText(share float64) string { return bareShare(share) + noBreak + "%" }

func bareShare(share float64) string {
	v := 100 * share
	if near := min(v, 100-v); near > 1e-9 && near < 0.95 {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

// monthsText names months in a row: "Aug to Oct" or "Apr, May and Dec".
func monthsText(months []time.Month) string {
	var runs []string
	for i := 0; i < len(months); {
		end := i
		for end+1 < len(months) && months[end+1] == months[end]%12+1 {
			end++
		}
		switch first, last := months[i].String()[:3], months[end].String()[:3]; end - i {
		case 0:
			runs = append(runs, first)
		case 1:
			runs = append(runs, first, last)
		default:
			runs = append(runs, first+" to "+last)
		}
		i = end + 1
	}
	return list(runs)
}

// monthName is the row of a month in a table.
func monthName(m fiscal.Month) string { return fmt.Sprintf("%s %d", m.Month.String()[:3], m.Year) }

// lift takes fields of a part as fields of the whole.
func lift[A, B any](fields []field[B], part func(*A) *B) []field[A] {
	out := make([]field[A], len(fields))
	for i, f := range fields {
		out[i] = field[A]{name: f.name, kind: f.kind}
		if f.spread != nil {
			out[i].spread = func(a *A) answer.Spread { return f.spread(part(a)) }
		} else {
			out[i].value = func(a *A) float64 { return f.value(part(a)) }
		}
	}
	return out
}

// chanceFields are an estimated chance and the ends of its interval.
func chanceFields[T any](name string, of func(*T) stats.Interval) []field[T] {
	return []field[T]{
		{name: name, kind: share, value: func(t *T) float64 { return of(t).Estimate }},
		{name: name + "_low", kind: share, value: func(t *T) float64 { return of(t).Low }},
		{name: name + "_high", kind: share, value: func(t *T) float64 { return of(t).High }},
	}
}

func jsonGrowths(list []fiscal.Share) []object {
	out := make([]object, len(list))
	for i, g := range list {
		out[i] = object{{"name", g.Name}, {"weight_percent", number(100 * g.Weight)}, {"replications", g.Replications}}
	}
	return out
}

func jsonInterval(c stats.Interval) object {
	return object{{"estimate_percent", number(100 * c.Estimate)}, {"low_percent", number(100 * c.Low)}, {"high_percent", number(100 * c.High)}}
}

func jsonLevel(l answer.Level) object {
	return object{{"p10", number(l.Low)}, {"p90", number(l.High)}}
}

// pricePer is a price per volume.
var pricePer = quantity{units.MoneyPerVolume, 1}
