package answer

import "loamcast/sim/calendar"

// YearLabel names a year of the horizon by the day on which it begins: "2027",
// or "2027/28" when it does not begin in January.
func YearLabel(from calendar.Date) string { return label(from) }
