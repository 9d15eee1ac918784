package fiscal

import (
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Naming is when the years of a plan begin and how they are called.
type Naming struct {
	Begins time.Month
	Own    facilityfile.FiscalYear // as the file has them
}

// named reports whether years are called as the file calls them: "FY2028". Years that
// begin in January are those of the calendar, whatever the file says.
func (n Naming) named() bool { return n.Own.Given() && n.Begins != time.January }

// Name names the year that begins in a calendar year.
func (n Naming) Name(year int) string {
	from := calendar.Date{Year: year, Month: n.Begins, Day: 1}
	if n.named() {
		return n.Own.Name(from)
	}
	return answer.YearLabel(from)
}

// Named returns the year in the name of the one that begins in a calendar year: 2028 for
// FY2028, July 2027 to June 2028, and 2027 for 2027/28.
func (n Naming) Named(year int) int {
	if n.named() && !n.Own.ByBeginning {
		return year + 1
	}
	return year
}

// Begun returns the calendar year in which the year of a name begins, as Named has it.
func (n Naming) Begun(name int) int { return name - n.Named(0) }

// InWords is a year in a sentence, by its label: "2028", "fiscal year 2027/28" or
// "FY2028".
func (n Naming) InWords(label string) string {
	if n.named() || n.Begins == time.January {
		return label
	}
	return "fiscal" + document.NoBreak + "year" + document.NoBreak + label
}

// Word is what such years are called: "fiscal year", or "year" if they are those of
// the calendar.
func (n Naming) Word() string {
	if n.Begins == time.January {
		return "year"
	}
	return "fiscal year"
}
