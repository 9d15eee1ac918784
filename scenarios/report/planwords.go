package report

import (
	"fmt"
	"strings"

	"loamcast/sim/calendar"
)

func vesselCount(n int) string {
	if n == 1 {
		return "1 vessel"
	}
	return fmt.Sprintf("%d vessels", n)
}

func verb(one bool, singular, plural string) string {
	if one {
		return singular
	}
	return plural
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// quarterOf writes the quarter of a day: "Q3 2037".
func quarterOf(d calendar.Date) string { return fmt.Sprintf("Q%d %d", (int(d.Month)+2)/3, d.Year) }

func quarterName(d calendar.Date) string {
	name := [...]string{"first", "second", "third", "fourth"}[(int(d.Month)-1)/3]
	return fmt.Sprintf("the %s quarter of %d", name, d.Year)
}

// lastQuarter returns a day in the last quarter that is over by the beginning of
// a day: what must be done by then can be planned for its end.
func lastQuarter(d calendar.Date) calendar.Date { return d.AddMonths(-3) }

// dayName writes a day in words: "1 July 2037".
func dayName(d calendar.Date) string {
	return strings.ReplaceAll(fmt.Sprintf("%d %s %d", d.Day, d.Month, d.Year), " ", noBreak)
}
