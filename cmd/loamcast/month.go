package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/facilityfile"
)

const monthHelp = "month by name or number (default: the one in which the file starts)"

// parseMonth reads "jan", "January" or "1"; an empty text is the month in which
// the file starts.
func parseMonth(text string, f *facilityfile.File) (time.Month, error) {
	if text == "" {
		return f.Model.Start.Month, nil
	}
	if m, ok := monthNamed(text); ok {
		return m, nil
	}
	return 0, usageError{fmt.Errorf("--month %q: write a month such as jan, july or 7", text)}
}

// monthNamed reads "jan", "January" or "1".
func monthNamed(text string) (m time.Month, ok bool) {
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= 12 {
		return time.Month(n), true
	}
	const shortest = 3 // letters
	if name := strings.ToLower(text); len(name) >= shortest {
		for m := time.January; m <= time.December; m++ {
			if strings.HasPrefix(strings.ToLower(m.String()), name) {
				return m, true
			}
		}
	}
	return 0, false
}
