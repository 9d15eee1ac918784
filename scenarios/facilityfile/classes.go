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

// ClassPlan is what planning needs of a class of vessels.
type ClassPlan struct {
	Lead calendar.Span // from the order of a vessel until it can be loaded
	// RoomFor is how many there is room for, those installed included. If the file does
	// not say, it is what is there after all its changes.
	RoomFor int
}

// NextClasses returns the classes of the next n vessels that are ordered, by place in the
// model's: of the first class for which there is room until it is full, then of the next.
// Beyond all room they are of the first class. The file's changes come first.
func (f *File) NextClasses(n int) []int {
	out := make([]int, n)
	if len(f.Planning.Classes) == 0 {
		return out
	}
	next := 0
	for class, plan := range f.Planning.Classes {
		room := plan.RoomFor - f.Model.Vessels.InClass(class)
		for _, c := range f.Model.Changes {
			if c.Class == class {
				room -= c.Vessels
			}
		}
		for ; room > 0 && next < n; room, next = room-1, next+1 {
			out[next] = class
		}
	}
	return out
}

// LeadOf returns the time from the order of a vessel of a class until it can be loaded.
func (p *Planning) LeadOf(class int) calendar.Span {
	if len(p.Classes) == 0 {
		return p.VesselLead
	}
	return p.Classes[class].Lead
}

// RoomOf returns how many vessels of a class there is room for.
func (p *Planning) RoomOf(class int) int {
	if len(p.Classes) == 0 {
		return p.RoomFor
	}
	return p.Classes[class].RoomFor
}

// classes reads the kinds of vessels, after what they share.
func (r *reader) classes(v *yamlfile.Map) {
	names := newNames("a class of vessels")
	for _, key := range []string{"installed", "room_for"} {
		if v.Has(key) {
			v.Error(key, "it is said of each class", "remove it here")
		}
	}
	for _, c := range v.List(classes) {
		class := plant.VesselClass{Name: names.read(c)}
		own := r.m.Vessels
		read(c, []row[plant.Vessels]{classInstalledRow}, &own)
		read(c, classSizeRows, &own)
		r.classResidence(c, v, &own)
		if !c.Has("useful_volume") && !v.Has("useful_volume") {
			r.doc.ErrorAt(c.Position(), c.Path()+" has no useful_volume", "add it here, or beside classes for all that leave it out")
		}
		class.Installed, class.Volume, class.Payload = own.Installed, own.Volume, own.Payload
		if c.Has("residence") {
			class.Residence = own.Residence
		}
		if c.Has("residence") || c.Has("shortest_residence") {
			class.Minimum = own.Minimum
		}
		if c.Has("residence") || c.Has("longest_residence") {
			class.Maximum = own.Maximum
		}
		if c.Has("turnaround") {
			class.Turnaround = &own.Turnaround
		}
		plan := Planning{VesselLead: r.p.VesselLead}
		read(c, classLeadRows, &plan)
		r.p.Classes = append(r.p.Classes, ClassPlan{Lead: plan.VesselLead})
		r.m.Vessels.Classes = append(r.m.Vessels.Classes, class)
		r.m.Vessels.Installed += class.Installed
		r.classAt = append(r.classAt, c)
	}
	if n := len(r.classAt); n > 0 && r.m.Vessels.Installed == 0 && !slices.ContainsFunc(r.classAt, func(c *yamlfile.Map) bool { return !c.Good("installed") }) {
		r.classAt[n-1].Error("installed", "no class has a vessel on the first day", "write how many there are")
	}
}

// classResidence reads the residences of a class. Where it has an aim of its own, the
// shortest and the longest stand about that unless they are written beside the classes.
func (r *reader) classResidence(c, v *yamlfile.Map, own *plant.Vessels) {
	if c.Has("residence") {
		if !v.Has("shortest_residence") {
			own.Minimum = own.Residence
		}
		if !v.Has("longest_residence") {
			own.Maximum = duration(longestOver * float64(own.Residence))
		}
	}
	read(c, classResidenceRows, own)
	r.aboutAim(c, own)
}

// classAir gives each class that says so air and walls of its own, when all else of the
// course in a vessel is known.
func (r *reader) classAir() {
	for i, c := range r.classAt {
		own := *r.m.Active
		read(c, classAirRows, &own)
		for j := range classAirRows {
			if c.Has(classAirRows[j].Path) {
				r.m.Vessels.Classes[i].Active = &own
			}
		}
		if one := own.Blower.Capacity; r.m.Air.Blowers > 0 && r.m.Air.Blowers < one && c.Has("blower_per_vessel") && c.Good("blower_per_vessel") {
			c.Warn("blower_per_vessel", "all blowers together give less than one vessel may take",
				"they give "+units.Format(24*r.m.Air.Blowers, units.AirFlow, r.units)+": raise blowers or lower this")
		}
	}
}

// classOf reads the class of the vessels that an entry adds under a key.
func (r *reader) classOf(c *yamlfile.Map, vessels string) int {
	list := r.m.Vessels.Classes
	var names []string
	for i := range list {
		names = append(names, list[i].Name)
	}
	adds, says := c.Has(vessels), c.Has(classKey.Path)
	switch {
	case !says && (!adds || len(list) == 0):
		return 0
	case !r.classesNamed():
		c.TextOr(classKey.Path, "")
		return 0
	case len(list) == 0:
		c.TextOr(classKey.Path, "")
		if r.group("vessels").Good(classes) {
			c.Error(classKey.Path, "the vessels of this file are of one class", "remove it, or write vessels: {classes: [...]}")
		}
		return 0
	case !adds:
		c.TextOr(classKey.Path, "")
		c.Error(classKey.Path, "no vessels are added that could be of a class", "add vessels: 1, or remove it")
		return 0
	case !says:
		c.Error(vessels, "it is not said of which class these vessels are", "add class: "+strings.Join(names, ", or class: "))
		return 0
	}
	name := c.OneOf(classKey.Path, names...)
	return max(0, slices.Index(names, name))
}

// classesNamed reports whether nothing was complained of in the names of classes.
func (r *reader) classesNamed() bool {
	return !slices.ContainsFunc(r.classAt, func(c *yamlfile.Map) bool { return !c.Good("name") })
}

// classRoom reads how many vessels of each class there is room for.
func (r *reader) classRoom(list []planned) {
	for i, c := range r.classAt {
		installed := r.m.Vessels.InClass(i)
		room := Planning{RoomFor: vesselsAfter(installed, i, list)}
		read(c, []row[Planning]{classRoomRow}, &room)
		r.roomKnown[i] = c.Has("room_for") && c.Good("room_for", "installed") && r.classesNamed()
		if r.roomKnown[i] && room.RoomFor < installed {
			c.Error("room_for", fmt.Sprintf("there is room for %d vessels but %d are installed", room.RoomFor, installed), "correct one of the two")
			r.roomKnown[i] = false
		}
		r.p.Classes[i].RoomFor = room.RoomFor
		r.p.RoomFor += room.RoomFor
	}
}

// Brings says in words how many vessels of which class a step brings; nothing where there
// is one class only, or it brings none.
func (s *Step) Brings(v *plant.Vessels) string {
	name := v.ClassName(s.Class)
	if name == "" || s.Vessels == 0 {
		return ""
	}
	return fmt.Sprintf("%d %s", s.Vessels, name)
}
