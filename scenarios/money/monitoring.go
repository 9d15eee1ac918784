package money

// frequencies is Table 1 of 40 CFR 503.16 (read): dry metric tons in 365 days,
// from which lower bound, and samplings a year.
var frequencies = []struct {
	from   float64 // kg dry a year, inclusive
	events int     // a year
}{
	{15_000e3, 12},
	{1_500e3, 6},
	{290e3, 4},
}

// MonitoringEvents returns how often in a year biosolids are sampled at least
// for pollutants, pathogens and vector attraction, by the dry solids of that
// year in kg (40 CFR 503.16, Table 1, read). Without solids there is nothing to
// sample. The permitting authority may ask for more.
func MonitoringEvents(dry float64) int {
	if !(dry > 0) {
		return 0
	}
	for _, f := range frequencies {
		if dry >= f.from {
			return f.events
		}
	}
	return 1
}
