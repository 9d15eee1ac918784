package vesselplan

import (
	"fmt"
	"strings"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
)

// ClassCount is how many vessels of a class there are on the first day, and how many
// more of it there is room for beside those that the file adds.
type ClassCount struct {
	Name            string
	Installed, Room int
}

// classes fills in what the answer says of several classes of vessels.
func (a *Answer) classes(f *facilityfile.File, most int) {
	v := &f.Model.Vessels
	if v.ClassCount() == 1 {
		return
	}
	for class, there := range v.VesselsWith(f.Model.Changes) {
		a.Classes = append(a.Classes, ClassCount{v.ClassName(class), v.InClass(class), f.Planning.RoomOf(class) - there})
	}
	for _, class := range f.NextClasses(most + 1) {
		a.Next = append(a.Next, v.ClassName(class))
	}
}

// nextClass is the class of the vessel that is ordered after those of a row, nothing
// where there is one class only.
func (a *Answer) nextClass(r *Row) string {
	if a.Next == nil {
		return ""
	}
	return a.Next[r.Vessels-a.Installed]
}

// ordered says of which class the next n vessels are: "large", or "1 large and 1 small";
// nothing where there is one class only.
func (a *Answer) ordered(n int) string {
	var parts []string
	for i := 0; a.Next != nil && i < n; {
		same := 1
		for i+same < n && a.Next[i+same] == a.Next[i] {
			same++
		}
		name := className(a.Next[i])
		if same == n {
			return name
		}
		parts = append(parts, fmt.Sprintf("%d %s", same, name))
		i += same
	}
	return doc.Listed(parts)
}

// className is the name of a class as text has room for.
func className(name string) string { return doc.Name(name, 30) }

// aboutClasses says what is installed of each class, and what is ordered next.
func (a *Answer) aboutClasses() doc.Text {
	if a.Next == nil {
		return doc.Text{}
	}
	var there, next []string
	for _, c := range a.Classes {
		there = append(there, fmt.Sprintf("%d %s", c.Installed, className(c.Name)))
		if c.Room > 0 {
			next = append(next, fmt.Sprintf("%s (room for %d more)", className(c.Name), c.Room))
		}
	}
	if len(next) == 0 {
		next = []string{className(a.Next[0]) + ", since the file names no room for any"}
	}
	return doc.Say("Vessels by class: %s are installed. Ordered next are, in the order of the file and as far as there is room: %s.",
		doc.Listed(there), strings.Join(next, ", then "))
}

// classFiles has a row for each class.
func (a *Answer) classFiles() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "vessel_classes", File: "when-classes"}, a.Classes,
		doc.Key("class", func(c *ClassCount) any { return c.Name }).Means("class of the vessels"),
		doc.Any("installed", func(c *ClassCount) any { return c.Installed }).Means("vessels of the class that the plant has"),
		doc.Any("room_for_more", func(c *ClassCount) any { return max(0, c.Room) }).Means("how many more of the class there is room for"))
}

// byClass groups the next vessels after some by class, n of them.
func byClass(f *facilityfile.File, after, n int) []int {
	out := make([]int, f.Model.Vessels.ClassCount())
	for _, class := range f.NextClasses(after + n)[after:] {
		out[class]++
	}
	return out
}
