package cycleplan

// Slowest returns the load that meets its last criterion latest, the earlier of
// two.
func (a *Answer) Slowest() *Load {
	slowest := &a.Loads[0]
	for i := range a.Loads {
		if l := &a.Loads[i]; l.Complied() > slowest.Complied() {
			slowest = l
		}
	}
	return slowest
}

// Failing are the names of the months whose loads do not meet every criterion.
func (a *Answer) Failing() []string {
	var months []string
	for i := range a.Loads {
		if l := &a.Loads[i]; !l.Complies {
			months = append(months, l.Month.String())
		}
	}
	return months
}

// Complied returns the hour of the last criterion met.
func (l *Load) Complied() float64 {
	last := 0.0
	for _, x := range l.Criteria {
		last = max(last, x.Met.Hours)
	}
	return last
}

// LossInVessel and Loss are the shares of the dry solids loaded that are lost in
// the vessel, and in vessel and curing together.
func (l *Load) LossInVessel() float64 { return l.Vessel.DryLoss / l.Dry }

// VolatileDestroyed is the share of the volatile solids loaded that is lost in vessel
// and curing together; CakeDestroyed is that of those of the cake.
func (l *Load) VolatileDestroyed() float64 {
	return (l.Vessel.Volatile.Lost + l.Curing.Volatile.Lost) / l.Vessel.Volatile.In
}

// CakeDestroyed is the same of the cake; see [Load.VolatileDestroyed].
func (l *Load) CakeDestroyed() float64 {
	return (l.Vessel.Cake.Lost + l.Curing.Cake.Lost) / l.Vessel.Cake.In
}

// Loss is the same of vessel and curing together; see [Load.LossInVessel].
func (l *Load) Loss() float64 { return (l.Vessel.DryLoss + l.Curing.DryLoss) / l.Dry }
