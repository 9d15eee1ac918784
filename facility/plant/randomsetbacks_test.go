package plant

import (
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// setbacks draws outages and spells, none for half of the facilities each. Spells have
// one air of their own, if any, so that facilities share its courses.
func (d draw) setbacks(m *Model, weather bool) {
	m.Outages, m.Spells = nil, nil
	for range max(0, d.int("outages", -2, 2)) {
		m.Outages = append(m.Outages, Outage{
			Date: d.date("vessels fail"), For: d.time("repair of vessels", sim.Hour, 90*sim.Day),
			Vessels: d.int("vessels that fail", 1, 12), Class: d.int("class that fails", 0, m.Vessels.ClassCount()-1),
		})
	}
	from := d.date("first spell")
	for range max(0, d.int("spells", -2, 2)) {
		s := Spell{From: from, For: calendar.Span{Months: d.int("months of a spell", 0, 5), Days: d.int("days of a spell", 1, 30)},
			CakeSolids: d.one("thicker cake in a spell", 0, -0.02), ChipMoisture: d.one("wetter chips in a spell", -0.05, 0, 0.1),
			Production: d.between("more production in a spell", -0.5, 0.5)}
		if weather && d.yes("other air in a spell") {
			s.Temperature, s.Humidity = -4, 0.1
		}
		m.Spells = append(m.Spells, s)
		from = s.For.After(from).AddDays(d.int("days between spells", 0, 60))
	}
}
