package facilityfile

import (
	"fmt"
	"strings"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Setback is something that may happen to the plant: vessels that fail, or a season that
// is not as its months are. A run of the file knows none of it.
type Setback struct {
	Name string
	For  calendar.Span
	// Vessels of a class fail; none for a season.
	Vessels, Class int
	// Begins is the month with whose first day a season begins, and Spell what it is, without
	// its dates.
	Begins time.Month
	Spell  plant.Spell
}

// Fails reports whether vessels fail.
func (s *Setback) Fails() bool { return s.Vessels > 0 }

// Put lets a model meet the setback from a day on. It writes to no list that another
// model may share.
func (s *Setback) Put(m *plant.Model, from calendar.Date) {
	if s.Fails() {
		lasts := sim.Duration(from.DaysUntil(s.For.After(from))) * sim.Day
		m.Outages = append(m.Outages[:len(m.Outages):len(m.Outages)], plant.Outage{Date: from, For: lasts, Vessels: s.Vessels, Class: s.Class})
		return
	}
	spell := s.Spell
	spell.From, spell.For = from, s.For
	m.Spells = append(m.Spells[:len(m.Spells):len(m.Spells)], spell)
}

// setbacks reads what may happen. committed are the changes of the file.
func (r *reader) setbacks(committed []planned) {
	names := newNames("a setback")
	for _, c := range r.root.ListIf("setbacks") {
		s := Setback{Name: names.read(c)}
		read(c, setbackRows, &s)
		read(c, failingRows, &s)
		if c.Has("from") {
			read(c, seasonRows[:1], &s)
		}
		read(c, seasonRows[1:], &s)
		r.oneSetback(c)
		if c.Has(classKey.Path) && !c.Has("vessels_out") {
			c.TextOr(classKey.Path, "")
			c.Error(classKey.Path, "no vessels fail that could be of a class", "add vessels_out: 1, or remove it")
		} else {
			s.Class = r.classOf(c, "vessels_out")
		}
		r.toFail(c, &s, committed)
		r.solidsIn(c, &s)
		r.p.Setbacks = append(r.p.Setbacks, s)
	}
}

// oneSetback refuses an entry that is neither vessels that fail nor a season, or both.
func (r *reader) oneSetback(c *yamlfile.Map) {
	season := ""
	for _, row := range seasonRows[1:] {
		if c.Has(row.Path) {
			season = row.Path
			break
		}
	}
	switch fails := c.Has("vessels_out"); {
	case fails && season != "":
		c.Error(season, "this is of a season, but of this setback vessels fail", "make two setbacks of it")
	case fails && c.Has("from"):
		c.Error("from", "vessels that fail are tried in every month of a year", "remove this line")
	case !fails && season == "":
		r.doc.ErrorAt(c.Position(), c.Path()+" sets nothing back", "say what happens, such as vessels_out: 1 or cake_solids: -1.5 %")
	case !fails && !c.Has("from"):
		r.doc.ErrorAt(c.Position(), c.Path()+" has no beginning", "add a line such as from: 11-01")
	}
}

// toFail refuses more vessels than there will be.
func (r *reader) toFail(c *yamlfile.Map, s *Setback, committed []planned) {
	v := &r.m.Vessels
	if !s.Fails() || !c.Good("vessels_out", classKey.Path) || !r.group("vessels").Good("installed", "additions", classes) || !r.root.Good("changes") {
		return
	}
	if there := vesselsAfter(v.InClass(s.Class), s.Class, committed); s.Vessels > there {
		c.Error("vessels_out", fmt.Sprintf("there are %d %s, with all changes", there, strings.TrimSpace(v.ClassName(s.Class)+" vessels")), "let fewer fail")
	}
}

// solidsIn refuses a season whose cake cannot be.
func (r *reader) solidsIn(c *yamlfile.Map, s *Setback) {
	if s.Spell.CakeSolids == 0 || !r.solidsKnown || !c.Good("cake_solids") {
		return
	}
	most, least := r.contents()
	for _, reached := range [...]float64{most + s.Spell.CakeSolids, least + s.Spell.CakeSolids} {
		if reached > mostCakeSolids || reached < leastCakeSolids {
			c.Error("cake_solids", "in this season cake would have "+units.Format(reached, units.Fraction, r.units)+" solids", "keep it from 8 % to 50 %")
			return
		}
	}
}
