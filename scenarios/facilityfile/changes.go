package facilityfile

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// planned is a change, and where the file says how many vessels it adds.
type planned struct {
	Step
	at       *yamlfile.Map
	vessels  string // key of the number of vessels
	what     string // for messages
	timeGood bool
}

// changes reads what alters the plant while it runs: vessels.additions, the
// short form, and the list of changes. Every plan includes them.
func (r *reader) changes() []planned {
	list := r.additions(r.group("vessels"))
	names := newNames("a change")
	for _, c := range r.root.ListIf("changes") {
		p := r.step(c, names.read(c))
		r.when(c, &p)
		list = append(list, p)
	}
	r.contractsInOrder(list)
	r.room(r.group("vessels"), list)
	r.fits(nil, list)
	for _, p := range list {
		r.m.Changes = append(r.m.Changes, p.Change)
		r.p.Committed = append(r.p.Committed, p.Step)
	}
	return list
}

// additions reads the vessels that are added on dates.
func (r *reader) additions(v *yamlfile.Map) []planned {
	var list []planned
	var before calendar.Date
	for _, a := range v.ListIf("additions") {
		const name = "vessels added"
		add := plant.Change{Name: name}
		read(a, additionRows, &add)
		add.Class = r.classOf(a, "count")
		p := planned{Step: Step{Change: add, Asset: r.asset(a, name)}, at: a, vessels: "count", what: "addition", timeGood: a.Good("date")}
		if p.timeGood && add.Date.Before(before) {
			a.Error("date", "the additions are not in order of their dates", "put the earliest first")
		} else {
			r.inTime(p, "date", "these vessels come")
		}
		before = add.Date
		list = append(list, p)
	}
	return list
}

// inTime warns of a change that comes after the last day simulated.
func (r *reader) inTime(p planned, key, what string) {
	if p.timeGood && r.root.Good("start", "horizon") && !p.effective().Before(r.end()) {
		p.at.Warn(key, what+" after the last day simulated and change nothing", fmt.Sprintf("the run ends before %v", r.end()))
	}
}

// effective returns the day on which a change with a date takes effect.
func (p planned) effective() calendar.Date { return p.Lead.After(p.Date) }

// triggered reports whether a change has no date of its own.
func (p planned) triggered() bool { return p.Trigger.Waits() }

// room reads how many vessels there is room for. If the file does not say, there
// is room for those of its changes.
func (r *reader) room(v *yamlfile.Map, list []planned) {
	if len(r.classAt) > 0 {
		r.classRoom(list)
		return
	}
	installed := r.m.Vessels.Installed
	r.p.RoomFor = vesselsAfter(installed, 0, list)
	read(v, roomRows, r.p)
	known := v.Has("room_for") && v.Good("room_for", "installed")
	if room := r.p.RoomFor; known && room < installed {
		v.Error("room_for", fmt.Sprintf("there is room for %d vessels but %d are installed", room, installed), "correct one of the two")
		known = false
	}
	r.roomKnown[0] = known
}

// vesselsAfter returns how many vessels of a class there are after all changes of a list.
func vesselsAfter(total, class int, list []planned) int {
	for _, p := range list {
		if p.Class == class {
			total += p.Vessels
		}
	}
	return total
}

// fits refuses changes that the plant has no room for, or that bring its cake
// where it cannot be. Those of before come in any case, and were refused
// already if they must be.
func (r *reader) fits(before, list []planned) {
	r.roomFor(before, list)
	r.solidsAfter(before, list)
}

// roomFor refuses more vessels of any class than there is room for, all changes
// together; those with a trigger count after those with a date.
func (r *reader) roomFor(before, list []planned) {
	v := &r.m.Vessels
	for class := range v.ClassCount() {
		room, total := r.p.RoomOf(class), vesselsAfter(v.InClass(class), class, before)
		if !r.roomKnown[class] || total > room {
			continue
		}
		for _, p := range inOrder(list) {
			if p.Class != class {
				continue
			}
			if total += p.Vessels; total > room && p.at.Good(p.vessels, classKey.Path) {
				p.at.Error(p.vessels, fmt.Sprintf("with this %s there are %d %s, but room for %d", p.what, total, strings.TrimSpace(v.ClassName(class)+" vessels"), room), "raise room_for or add fewer")
				break
			}
		}
	}
}

// inOrder sorts changes by the day on which they take effect, those with a
// trigger last.
func inOrder(list []planned) []planned {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b planned) int {
		switch {
		case a.triggered() && b.triggered():
			return 0
		case a.triggered():
			return 1
		case b.triggered():
			return -1
		}
		return b.effective().DaysUntil(a.effective())
	})
	return list
}

// solidsAfter refuses changes that bring cake to a solids content that cannot
// be. Triggers may come true in any order, so that what thickens and what thins
// count apart.
func (r *reader) solidsAfter(before, list []planned) {
	if !r.solidsKnown {
		return
	}
	most, least := r.contents()
	for _, p := range before {
		most += max(0, p.CakeSolids)
		least += min(0, p.CakeSolids)
	}
	for _, p := range inOrder(list) {
		most += max(0, p.CakeSolids)
		least += min(0, p.CakeSolids)
		if p.CakeSolids == 0 || !p.at.Good("cake_solids") || most <= mostCakeSolids && least >= leastCakeSolids {
			continue
		}
		reached := most
		if p.CakeSolids < 0 {
			reached = least
		}
		p.at.Error("cake_solids", "with this change cake would have "+units.Format(reached, units.Fraction, r.units)+" solids",
			"keep it from 8 % to 50 %")
		return
	}
	r.thickest, r.thinnest = max(r.thickest, most), min(r.thinnest, least)
}

// step reads what one change brings and what it costs, but not when it comes.
func (r *reader) step(c *yamlfile.Map, name string) planned {
	p := planned{at: c, vessels: "vessels", what: "change"}
	p.Name = name
	read(c, effectRows, &p.Change)
	p.Class = r.classOf(c, "vessels")
	r.newWeek(c, &p)
	p.Contract = r.contract(c.MapIf(changeContract.Path))
	p.Asset = r.asset(c, name)
	r.felt(c)
	return p
}

// when reads on what day, or on what sign, a change is decided, and how long it
// takes from there.
func (r *reader) when(c *yamlfile.Map, p *planned) {
	r.lead(c, p, false)
	if !c.Has("when") {
		read(c, changeDateRows, &p.Change)
		p.timeGood = c.Good("date", "lead_time")
		r.inTime(*p, "date", "this would take effect")
		return
	}
	if c.Has("date") {
		c.Error("when", "a change has a date or a sign to wait for, not both", "keep one of date and when")
	}
	r.sign(c.MapIf("when"), &p.Trigger)
}

// sign reads the one sign that a change waits for.
func (r *reader) sign(w *yamlfile.Map, t *plant.Trigger) {
	production, share, time := w.Has("production"), w.Has("held_above"), w.Has("for")
	switch {
	case w.Empty():
		r.doc.ErrorAt(w.Position(), w.Path()+" does not say what is waited for",
			`write a share of the holding, such as "held_above: 70 %, for: 30 day", or "production: 0.66 short ton/day"`)
	case production && share:
		w.Error("production", "a change waits for one sign, and held_above is another", "keep one of the two; a change of the same kind may wait for the other")
	case production && time:
		w.Error("for", "production has a time of its own, the last twelve months", "remove it, or wait for held_above instead of production")
	}
	switch {
	case production:
		read(w, productionRows, t)
		r.passed(w, t)
	case share || time:
		read(w, heldRows, t)
	}
}

// passed warns of production that waits for nothing.
func (r *reader) passed(w *yamlfile.Map, t *plant.Trigger) {
	if base := r.m.Feed.Base; w.Good("production") && r.root.Good("solids") && base > t.Production {
		w.Warn("production", "the first year brings "+units.Format(base, units.MassPerTime, r.units)+" already, so that this is decided as soon as twelve months are recorded",
			"write what is still to come, or a date in place of when")
	}
}

// lead reads the time from the decision for a change until it takes effect. Left
// out, it is nothing, or that of a vessel.
func (r *reader) lead(c *yamlfile.Map, p *planned, asVessel bool) {
	if asVessel {
		p.Lead = r.p.LeadOf(p.Class)
	}
	read(c, leadRows, &p.Change)
}

// newWeek reads the working hours that a change puts in force for all stages.
func (r *reader) newWeek(c *yamlfile.Map, p *planned) {
	if !c.Has(newHours.Path) {
		return
	}
	week, good := r.week(c.MapIf(newHours.Path))
	if good && c.Good(newHours.Path) && r.root.Good("start", "warm_up", "hours") {
		p.Hours, _ = r.calendar(c, week)
	}
}

// felt refuses a change of nothing, and more of what is never short.
func (r *reader) felt(c *yamlfile.Map) {
	brings := c.Has(newHours.Path) || c.Has(changeContract.Path)
	for _, effect := range effectRows {
		brings = brings || c.Has(effect.Path)
	}
	if !brings {
		r.doc.ErrorAt(c.Position(), c.Path()+" alters nothing", "say what it brings, such as vessels: 2")
	}
	if !r.root.Good("yard") {
		return
	}
	for _, n := range []struct{ key, yard, name string }{
		{"places", "aerated_places", "aerated places"}, {"trucks", "trucks", "trucks"}, {"loaders", "loaders", "loaders"}, {"operators", "operators", "operators"},
	} {
		if c.Has(n.key) && c.Good(n.key) && !r.yardGroup.Has(n.yard) {
			c.Error(n.key, "there are always enough "+n.name+", so that more change nothing", "write how many there are at first: yard: {"+n.yard+": 1}")
		}
	}
}

// date reads a date within the years that a run may have.
func date(m *yamlfile.Map, key string) calendar.Date {
	d := dateOf(m.Date(key))
	if m.Good(key) && (d.Year < firstYear || d.Year > lastYear) {
		m.Error(key, fmt.Sprintf("the year %d is out of range", d.Year), fmt.Sprintf("it must be from %d to %d", firstYear, lastYear))
	}
	return d
}
