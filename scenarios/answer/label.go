package answer

import (
	"fmt"
	"time"

	"loamcast/sim/calendar"
)

// YearLabel names a year by the day on which it begins: "2027", or "2027/28"
// when it does not begin in January.
func YearLabel(from calendar.Date) string {
	if from.Month == time.January {
		return fmt.Sprint(from.Year)
	}
	return fmt.Sprintf("%d/%02d", from.Year, (from.Year+1)%100)
}
