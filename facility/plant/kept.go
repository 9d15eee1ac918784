package plant

import "loamcast/facility/process"

// Keep shows keep the tables of courses of the plant, and from now on those that it makes
// for the air of spells, before anything is read from them; one that classes share more
// than once. Plants that [Plant.With] makes of it read the same tables as far as their
// physics are the same; tables that they make for other physics are not shown, since
// these may be drawn anew for every run.
func (p *Plant) Keep(keep func(*process.Responses)) {
	dryers := []*dryer{p.padDryer}
	keep(p.padCourses)
	for i := range p.kinds {
		keep(p.kinds[i].courses)
		dryers = append(dryers, p.kinds[i].dryer)
	}
	for _, d := range dryers {
		if d != nil {
			keep(d.table)
		}
	}
	p.weather.mu.Lock()
	defer p.weather.mu.Unlock()
	p.weather.keep = keep
	for _, sky := range p.weather.made {
		sky.plant.Keep(keep)
	}
}
