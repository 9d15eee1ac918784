package document

import (
	"fmt"
	"strings"
	"time"

	"loamcast/sim/calendar"
)

// MonthNames names months in a row: "Aug to Oct" or "Apr, May and Dec".
func MonthNames(months []time.Month) string {
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
	return Listed(runs)
}

// Listed joins words: "a", "a and b", "a, b and c".
func Listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// Day writes a day in words: "1 July 2037".
func Day(d calendar.Date) string {
	return strings.ReplaceAll(fmt.Sprintf("%d %s %d", d.Day, d.Month, d.Year), " ", NoBreak)
}

// Quarter writes the quarter of a day: "Q3 2037".
func Quarter(d calendar.Date) string { return fmt.Sprintf("Q%d %d", (int(d.Month)+2)/3, d.Year) }

// QuarterInWords writes the quarter of a day: "the third quarter of 2037".
func QuarterInWords(d calendar.Date) string {
	name := [...]string{"first", "second", "third", "fourth"}[(int(d.Month)-1)/3]
	return fmt.Sprintf("the %s quarter of %d", name, d.Year)
}

// Month cuts a day to its month: "2037-07".
func Month(d calendar.Date) string { return d.String()[:len("2037-07")] }

// DaysInWords writes days with at most one decimal: "19.5 days", "1 day".
func DaysInWords(days float64) string {
	text := strings.TrimSuffix(fmt.Sprintf("%.1f", days), ".0")
	if text == "1" {
		return "1" + NoBreak + "day"
	}
	return text + NoBreak + "days"
}

// SpanInWords writes a span as the calendar counts it: "12 months", "252 days", "1
// month and 16 days".
func SpanInWords(s calendar.Span) string {
	var parts []string
	if s.Months != 0 {
		parts = append(parts, Counted(s.Months, "month"))
	}
	if s.Days != 0 || s.Months == 0 {
		parts = append(parts, Counted(s.Days, "day"))
	}
	return Listed(parts)
}

// SpanRecord is a span in JSON, in its months and days.
func SpanRecord(s calendar.Span) Record {
	return Record{{Name: "months", Quantity: Count, Value: s.Months}, {Name: "days", Quantity: Count, Value: s.Days}}
}
