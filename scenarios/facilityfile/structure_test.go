package facilityfile

import (
	"strings"
	"testing"

	"loamcast/facility/material"
	"loamcast/facility/process"
)

// unstructured is the planning file without what it says of structure.
func unstructured(t *testing.T) string {
	text, _, _ := strings.Cut(readPlanning(t), "\nstructure:")
	return text
}

// structured is the planning file with a group about the structure of loads.
func structured(t *testing.T, ratio, group string) string {
	text := unstructured(t)
	at := strings.Index(text, "chips_to_cake:")
	end := at + strings.IndexByte(text[at:], '\n')
	return text[:at] + "chips_to_cake: " + ratio + text[end:] + "\nstructure: {" + group + "}\n"
}

// Shows that a file has the defaults of the models for what it leaves out, in vessel, pad
// and design, and one more criterion; and that where all air counts nothing of it holds.
func TestStructureIsRead(t *testing.T) {
	plain, err := Parse("x", []byte(structured(t, "3.5", "account: all air")))
	if err != nil {
		t.Fatal(err)
	}
	if plain.Model.Bulk.Structure.Between || plain.Model.Active.AirPath != (process.AirPath{}) {
		t.Errorf("all air: %+v, %+v", plain.Model.Bulk.Structure, plain.Model.Active.AirPath)
	}
	if design := plain.Mix.Targets.FreeAirSpace; design != freeOfAllAir {
		t.Errorf("all air: a design for %g", design)
	}
	none, err := Parse("x", []byte(unstructured(t)))
	if err != nil {
		t.Fatal(err)
	}
	if m := &none.Model; m.Bulk.Structure != material.DefaultStructure(material.DefaultDepth) || m.Active.AirPath != process.DefaultAirPath() {
		t.Errorf("without the group: %+v, %+v", m.Bulk.Structure, m.Active.AirPath)
	}
	f, err := Parse("x", []byte(structured(t, "3.5", "vessel_depth: 2 m, pad_depth: 3 m")))
	if err != nil {
		t.Fatal(err)
	}
	m := &f.Model
	if m.Bulk.Structure != material.DefaultStructure(2) || m.Active.Bulk != m.Bulk || m.Pile.Bulk.Structure != material.DefaultStructure(3) {
		t.Errorf("structures %+v, %+v, %+v", m.Bulk.Structure, m.Active.Bulk.Structure, m.Pile.Bulk.Structure)
	}
	if m.Active.AirPath != process.DefaultAirPath() || m.Pile.AirPath != m.Active.AirPath {
		t.Errorf("air paths %+v, %+v", m.Active.AirPath, m.Pile.AirPath)
	}
	criteria := m.Active.Criteria
	if len(criteria) != len(plain.Model.Active.Criteria)+1 || criteria[len(criteria)-1] != process.AirThroughout() {
		t.Errorf("criteria %+v", criteria)
	}
	own, err := Parse("x", []byte(structured(t, "3.5", "vessel_depth: 2 m, chip_voids: 50 %, skeleton_stiffness: 2 m, fines_stiffness: 1 m, half_reached_at: 10 %, reach_spread: 2 %, least_reached: 80 %")))
	if err != nil {
		t.Fatal(err)
	}
	m = &own.Model
	want := material.Structure{Between: true, Depth: 2, Skeleton: 2 * material.MetreOfWater, Fines: material.MetreOfWater}
	if m.Bulk.Structure != want || m.Bulk.CoarseVoids != 0.5 || m.Active.AirPath != (process.AirPath{Half: 0.10, Spread: 0.02}) {
		t.Errorf("%+v, voids %g, %+v", m.Bulk.Structure, m.Bulk.CoarseVoids, m.Active.AirPath)
	}
	if c := m.Active.Criteria; c[len(c)-1].Share != 0.8 {
		t.Errorf("criteria %+v", c)
	}
}

// Shows what a file says of a recipe that leaves too little air: a warning at the
// ratio of chips that names air and a ratio that would do, which then has none; and
// that what contradicts itself is refused with its place.
func TestStructureWarnsOfTooFewChips(t *testing.T) {
	warned := func(ratio, group string) string {
		f, err := Parse("x", []byte(structured(t, ratio, group)))
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range f.Warnings {
			if strings.Contains(w.Message, "free air") && !strings.Contains(w.Message, "usual") {
				return w.Message + "; " + w.Hint
			}
		}
		return ""
	}
	if w := warned("2", "vessel_depth: 2.3 m"); !strings.Contains(w, "mix.chips_to_cake") || !strings.Contains(w, "write at least 3.") {
		t.Errorf("warned at 2: %q", w)
	}
	for _, c := range [][2]string{{"3.7", "vessel_depth: 2.3 m"}, {"2", "vessel_depth: 2.3 m, least_reached: 0 %"}, {"2", "vessel_depth: 2.3 m, half_reached_at: 0 %"}} {
		if w := warned(c[0], c[1]); w != "" {
			t.Errorf("warned at %s with %s: %s", c[0], c[1], w)
		}
	}
	if w := warned("2\n  recipe: designed", "vessel_depth: 2.3 m"); w != "" { // which is not by that ratio
		t.Errorf("warned of a designed recipe: %s", w)
	}
	_, err := Parse("x", []byte(structured(t, "3", "account: all air, vessel_depth: 2 m")))
	if err == nil || !strings.Contains(err.Error(), "structure.vessel_depth") || !strings.Contains(err.Error(), "does not count") {
		t.Errorf("a depth that does not count: %v", err)
	}
	_, err = Parse("x", []byte(structured(t, "3", "vessel_depth: 2 m, half_reached_at: 0 %, least_reached: 90 %")))
	if err == nil || !strings.Contains(err.Error(), "structure.least_reached") {
		t.Errorf("a criterion on air that is everywhere: %v", err)
	}
}
