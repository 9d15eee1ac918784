package plant

import "loamcast/sim/stats"

// MonthlyClass is how the vessels of one class were used.
type MonthlyClass struct {
	Installed    float64 // at the month's end
	Mean         float64 // in use, mean over time
	Loads        float64 // filled
	Wet, CakeDry float64 // of these loads: all of the mix, and the cake mixed in, dry
}

// classUse follows the use of one class, where there are several.
type classUse struct {
	inUse                *stats.TimeWeighted
	installed, dayBefore int // now, and at the end of the day before
}

// openClasses begins to follow the classes of vessels, where there are several.
func (p *plant) openClasses() {
	if len(p.kinds) == 1 {
		return
	}
	p.classes = make([]classUse, len(p.kinds))
	for i := range p.classes {
		p.classes[i].inUse = stats.NewTimeWeighted(0, 0)
	}
}

// openClassMonth begins the sums of a month.
func (p *plant) openClassMonth() {
	if len(p.classes) > 0 {
		p.month.Classes = make([]MonthlyClass, len(p.classes))
	}
}

// closeClassMonth ends them.
func (p *plant) closeClassMonth() {
	now := int64(p.k.Now())
	for i := range p.classes {
		m, inUse := &p.month.Classes[i], p.classes[i].inUse
		m.Mean = inUse.Mean(now)
		m.Installed = float64(p.classes[i].dayBefore)
		inUse.Reset(now)
	}
}

// noteInstalled remembers the vessels that there are at the end of a day.
func (p *plant) noteInstalled() {
	p.installedBefore = p.installed
	for i := range p.classes {
		p.classes[i].dayBefore = p.classes[i].installed
	}
}

// vesselsInUse tells the meters that the number of vessels in use changed by one of a
// class.
func (p *plant) vesselsInUse(class int, change float64) {
	now := int64(p.k.Now())
	p.monthVessels.Add(now, change)
	p.yearVessels.Add(now, change)
	if len(p.classes) > 0 {
		p.classes[class].inUse.Add(now, change)
	}
}

// filled measures a load that is ready to be fetched.
func (p *plant) filled(l *load) {
	if len(p.classes) == 0 {
		return
	}
	m := &p.month.Classes[p.vessels[l.vessel].class]
	m.Loads++
	m.Wet += l.parcel.Total()
	m.CakeDry += l.cakeDry
}
