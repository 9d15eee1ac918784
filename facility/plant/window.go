package plant

import "slices"

// Window returns the model of some years of the horizon, from the year first on,
// counted from 0: what a question about these years needs, at a fraction of the
// work. The year before is its warm-up, at the loads of that year, so that what
// went on earlier is forgotten; dated changes of earlier years are in force from
// its beginning, while triggers are not known to have come true, and pulses and
// breakdowns fall on other days than in the whole run.
func (m Model) Window(first, years int) Model {
	m.Years = years
	if first == 0 {
		return m
	}
	before, start := m.Begin(), m.Start
	m.Start = start.AddYears(first)
	m.WarmUp = 1
	// What is there on the first day is long gone by then, and nobody knows what the plant
	// has years from now: the warm-up fills it.
	m.Opening = nil
	days := before.DaysUntil(m.Begin())
	later := func(g Growth) Growth { return Later{Growth: g, Years: YearsBetween(start, m.Start)} }
	m.Feed.Growth = later(m.Feed.Growth)
	m.Feed.regrow(later)
	m.beginLater(days)
	return m
}

// WarmedUp returns the model with fewer years of warm-up, or as many.
func (m Model) WarmedUp(years int) Model {
	before := m.Begin()
	m.WarmUp = years
	m.beginLater(before.DaysUntil(m.Begin()))
	return m
}

// beginLater reads the working hours on a clock that starts so many days later.
func (m *Model) beginLater(days int) {
	m.Mixer.Hours = m.Mixer.Hours.Later(days)
	m.Vessels.Hours = m.Vessels.Hours.Later(days)
	m.Screening.Hours = m.Screening.Hours.Later(days)
	if m.Dewatering.Hours != nil {
		m.Dewatering.Hours = m.Dewatering.Hours.Later(days)
	}
	m.Changes = slices.Clone(m.Changes)
	for i := range m.Changes {
		if c := &m.Changes[i]; c.Hours != nil {
			c.Hours = c.Hours.Later(days)
		}
	}
}
