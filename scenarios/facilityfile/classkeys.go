package facilityfile

import (
	"slices"

	"loamcast/facility/plant"
)

// classes is the list of the kinds of vessels, beside which stands what they share.
const classes = "classes"

const besideClasses = "that beside classes"

// inherited are rows of which a class may leave out any: something else, such as what
// stands beside the classes, then holds. What is uncertain is that.
func inherited[R any](from string, rows []row[R], keys ...string) []row[R] {
	var out []row[R]
	for _, r := range rows {
		if len(keys) == 0 || slices.Contains(keys, r.Path) {
			r.Default, r.Usual, r.When, r.Uncertain = elseAs(from, ""), nil, "", nil
			out = append(out, r)
		}
	}
	return out
}

var classNameRow = row[plant.VesselClass]{
	Key{Path: "name", Words: "name of the class, by which it is ordered", Example: "large"},
	text(func(c *plant.VesselClass) *string { return &c.Name })}

var classInstalledRow = row[plant.Vessels]{
	Key{Path: "installed", Words: "vessels of the class on the first day", Low: 0, High: mostUnits},
	whole(func(v *plant.Vessels) *int { return &v.Installed })}

var (
	classSizeRows      = inherited(besideClasses, vesselRows, "useful_volume", "payload", "residence", "turnaround")
	classResidenceRows = inherited("that beside classes or, where it is left out there too, by the residence of the class", residenceRows)
	classLeadRows      = inherited(besideClasses, vesselOrderRows)
	classAirRows       = inherited("that of aeration", vesselAirRows)
)

// classRoomRow is needed by no class: the first that has room is ordered next.
var classRoomRow = row[Planning]{
	Key{Path: "room_for", Words: "vessels of the class that there is room for, those installed included; the first class with room for more is ordered next",
		Low: 0, High: mostUnits, Default: elseAs("those of the file's changes", ""), UsedBy: ForPlanning},
	whole(func(p *Planning) *int { return &p.RoomFor })}

// classKey says of which class the vessels are that are added.
var classKey = Key{Path: "class", Kind: Text, Words: "class of the vessels added, by its name", When: "with vessels, where they are of several classes", Example: "large"}

// classKeys are the kinds of vessels.
func classKeys() []Key {
	const at = "vessels." + classes + "[]"
	keys := []Key{{Path: "vessels." + classes, Kind: List, Words: "kinds of vessels, if there are several; what an entry leaves out stands beside the list", Default: none}}
	keys = append(keys, under(at, []row[plant.VesselClass]{classNameRow}, nil)...)
	keys = append(keys, under(at, []row[plant.Vessels]{classInstalledRow}, nil)...)
	keys = append(keys, under(at, []row[Planning]{classRoomRow}, nil)...)
	keys = append(keys, under(at, classLeadRows, nil)...)
	keys = append(keys, under(at, classSizeRows, nil)...)
	keys = append(keys, under(at, classResidenceRows, nil)...)
	return append(keys, under(at, classAirRows, nil)...)
}
