package facilityfile

import (
	"fmt"
	"time"

	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// FiscalYear is how the owner of a plant counts and names the years of his budgets.
// The zero value is of a file that says nothing.
type FiscalYear struct {
	Begins time.Month // with its first day; 0 where the file has no fiscal year
	// ByBeginning names a year by the calendar year in which it begins, and not by
	// that in which it ends.
	ByBeginning bool
}

// Given reports whether the file has fiscal years other than those of the calendar.
func (f FiscalYear) Given() bool { return f.Begins > time.January }

// Name names the fiscal year that begins with a day: "FY2028" for July 2027 to June
// 2028, unless it is named by its beginning.
func (f FiscalYear) Name(from calendar.Date) string {
	year := from.Year
	if !f.ByBeginning && from.Month != time.January {
		year++
	}
	return fmt.Sprintf("FY%d", year)
}

const byBeginning = "by its beginning"

var fiscalRows = []row[FiscalYear]{
	{Key{Path: "begins", Words: "month and day with which it begins, the first of a month", Choices: firsts(), Example: "07-01", UsedBy: ForPlanning},
		firstOfMonth(func(f *FiscalYear) *time.Month { return &f.Begins })},
	{Key{Path: "named", Words: "by which of its two calendar years: July 2027 to June 2028 is FY2028 by its end", Choices: []string{"by its end", byBeginning},
		Default: elseAs("by its end", commonPractice), UsedBy: ForPlanning},
		chosen(func(f *FiscalYear, word string) { f.ByBeginning = word == byBeginning })},
}

func fiscalKeys() []Key {
	at := optional("fiscal_year", "years of budgets, by which chips and product are planned", "the calendar's")
	at.UsedBy = ForPlanning
	return append([]Key{at}, under("fiscal_year", fiscalRows, func(p Parts) *FiscalYear { return &p.Planning.FiscalYear })...)
}

// firsts are the first days of the months, as a file has them.
func firsts() []string {
	var days []string
	for m := time.January; m <= time.December; m++ {
		days = append(days, fmt.Sprintf("%02d-01", m))
	}
	return days
}

// firstOfMonth is a month by its first day. Another day is told apart from what is no
// day, for it cannot be had.
func firstOfMonth[R any](at func(*R) *time.Month) field[R] {
	return field[R]{kind: Choice, read: func(m *yamlfile.Map, k *Key, into *R) {
		if !m.Has(k.Path) {
			m.OneOf(k.Path, k.Example)
			return
		}
		text := m.Text(k.Path)
		day, err := time.Parse("01-02", text)
		switch {
		case !m.Good(k.Path):
		case err != nil:
			m.Error(k.Path, fmt.Sprintf("%q is not a day of the year", text), "write month and day, such as "+k.Example)
		case day.Day() != 1:
			m.Error(k.Path, fmt.Sprintf("%q is not the first of a month, and years are planned by whole months", text), fmt.Sprintf("write %02d-01", day.Month()))
		default:
			*at(into) = day.Month()
		}
	}}
}

// fiscalYear reads how budgets are counted.
func (r *reader) fiscalYear() {
	g := r.root.MapIf("fiscal_year")
	if !g.Present() {
		return
	}
	read(g, fiscalRows, &r.p.FiscalYear)
	if g.Good("begins") && !r.p.FiscalYear.Given() && g.Has("named") {
		g.Error("named", "a fiscal year that is a year of the calendar has its name", "remove this line")
	}
}
