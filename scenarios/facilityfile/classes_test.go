package facilityfile

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

func readClasses(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/classes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// editedClasses is the file with classes after edits: old, new, old, new …
func editedClasses(t testing.TB, edits ...string) string {
	t.Helper()
	text := readClasses(t)
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q is there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

func parseClasses(t testing.TB, edits ...string) *File {
	t.Helper()
	f, err := Parse("classes.yaml", []byte(editedClasses(t, edits...)))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// What a class says is its own, and what it leaves out is as beside the classes; a
// longest residence that stands there is that of all. 1 cfm is 1.699010796 m3/h.
func TestClassesArrive(t *testing.T) {
	const yd3, cfm = 0.764554857984, 1.699010796
	f := parseClasses(t)
	large, small := f.Model.AsClass(0), f.Model.AsClass(1)
	if f.Model.Vessels.Installed != 6 || large.Vessels.Installed != 2 || small.Vessels.Installed != 4 {
		t.Errorf("%d vessels, %d and %d", f.Model.Vessels.Installed, large.Vessels.Installed, small.Vessels.Installed)
	}
	for _, c := range []struct {
		key       string
		got, want float64
	}{
		{"large useful_volume", large.Vessels.Volume, 60 * yd3},
		{"small useful_volume", small.Vessels.Volume, 40 * yd3},
		{"large residence", large.Vessels.Residence.Days(), 19},
		{"small residence", small.Vessels.Residence.Days(), 18},
		{"large shortest_residence", large.Vessels.Minimum.Days(), 15},
		{"large longest_residence", large.Vessels.Maximum.Days(), 28},
		{"large turnaround", large.Vessels.Turnaround.Hours(), 36},
		{"small turnaround", small.Vessels.Turnaround.Hours(), 24},
		{"large blower_per_vessel", large.Active.Blower.Capacity, 900 * cfm},
		{"small blower_per_vessel", small.Active.Blower.Capacity, 600 * cfm},
		{"large wall_loss", wallLoss(large.Active), 0.048},
		{"small wall_loss", wallLoss(small.Active), 0.038},
		{"class of what the option adds", float64(f.Planning.Options[1].Steps[0].Class), 1},
		{"room", float64(f.Planning.RoomFor), 11},
	} {
		if !(math.Abs(c.got-c.want) <= 1e-9*c.want) {
			t.Errorf("%s: %g, want %g", c.key, c.got, c.want)
		}
	}
	if !math.IsInf(large.Vessels.Payload, 1) || small.Active != f.Model.Active {
		t.Error("what nobody says is not what the plant has")
	}
	if lead := f.Planning.Catalogue[0].Lead; lead != (calendar.Span{Months: 15}) {
		t.Errorf("a large vessel of the catalogue takes %+v", lead)
	}
	if lead := f.Planning.LeadOf(1); lead != (calendar.Span{Months: 9}) {
		t.Errorf("a small vessel takes %+v", lead)
	}
}

// A residence of its own moves the shortest and the longest of a class, unless these are
// written; 1.5 times 20 days are 30.
func TestClassHasItsOwnResidence(t *testing.T) {
	f := parseClasses(t, "residence: 19 day", "residence: 20 day", "  shortest_residence: 15 day\n  longest_residence: 28 day\n", "")
	large, small := f.Model.AsClass(0).Vessels, f.Model.AsClass(1).Vessels
	if large.Minimum != 20*sim.Day || large.Maximum != 30*sim.Day || small.Minimum != 18*sim.Day || small.Maximum != 27*sim.Day {
		t.Errorf("large %v to %v, small %v to %v", large.Minimum, large.Maximum, small.Minimum, small.Maximum)
	}
}

// What is drawn for a class that leaves a key to the others is that of the others, and a
// class with a value of its own keeps it.
func TestClassesFollowWhatIsDrawn(t *testing.T) {
	f := parseClasses(t, "money:\n", "uncertain:\n  - {input: vessels.turnaround, uniform: [30 h, 40 h]}\n  - {input: vessels.residence, uniform: [16 day, 20 day]}\n\nmoney:\n")
	m, _ := f.Planning.At(f.Model, []float64{1, 0})
	large, small := m.AsClass(0).Vessels, m.AsClass(1).Vessels
	if large.Turnaround != 40*sim.Hour || small.Turnaround != 24*sim.Hour {
		t.Errorf("turnarounds of %v and %v", large.Turnaround, small.Turnaround)
	}
	if large.Residence != 19*sim.Day || small.Residence != 16*sim.Day || m.Validate() != nil {
		t.Errorf("residences of %v and %v, %v", large.Residence, small.Residence, m.Validate())
	}
}

// Vessels are ordered in the order of the classes, as far as there is room: of three
// large ones two are there, of eight small ones four, of which the file adds one more.
// Beyond all room the first class is ordered. Without a room there is none.
func TestNextClasses(t *testing.T) {
	add := []string{"  lead_time: 9 month\n", "  lead_time: 9 month\n  additions: [{date: 2030-01-01, count: 1, class: small}]\n"}
	for name, c := range map[string]struct {
		edits []string
		want  []int
	}{
		"as it is":       {nil, []int{0, 1, 1, 1, 1, 0}},
		"one is added":   {add, []int{0, 1, 1, 1, 0, 0}},
		"no large ones":  {[]string{"      room_for: 3\n", ""}, []int{1, 1, 1, 1, 0, 0}},
		"no room at all": {[]string{"      room_for: 3\n", "", ", room_for: 8", ""}, []int{0, 0, 0, 0, 0, 0}},
	} {
		edits := c.edits
		if strings.HasPrefix(name, "no") { // what the file would build asks for a room
			edits = append(slices.Clone(edits), "catalogue:\n  - {name: large vessel, vessels: 1, class: large, cost: \"300,000 USD\"}\n  - {name: small vessel, vessels: 1, class: small, cost: \"210,000 USD\", most: 3}\n", "")
		}
		if got := parseClasses(t, edits...).NextClasses(6); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	if got := parse(t).NextClasses(2); !slices.Equal(got, []int{0, 0}) {
		t.Errorf("one class: %v", got)
	}
}

// What is wrong with classes is told where it stands.
func TestMistakesWithClasses(t *testing.T) {
	option := `vessels: 2, class: small, cost: "420,000 USD"`
	for name, c := range map[string]struct {
		edits []string
		at    string // of the text in the edited file
		want  string
	}{
		"class missing":          {[]string{option, `vessels: 2, cost: "420,000 USD"`}, `vessels: 2, cost`, "it is not said of which class these vessels are"},
		"class unknown":          {[]string{option, `vessels: 2, class: smal, cost: "420,000 USD"`}, "class: smal,", "did you mean small?"},
		"class of nothing":       {[]string{option, `pad: 20 yd3, class: small, cost: "420,000 USD"`}, "class: small, cost: \"420", "no vessels are added that could be of a class"},
		"class twice":            {[]string{"name: small, installed", "name: large, installed"}, "name: large, installed", `there is already a class of vessels "large"`},
		"no name":                {[]string{"name: small, installed", "installed"}, "", `needs the key "name"`},
		"none installed":         {[]string{"installed: 2\n", "installed: 0\n", "installed: 4,", "installed: 0,"}, "installed: 0,", "no class has a vessel on the first day"},
		"installed beside":       {[]string{"  lead_time: 9 month\n", "  lead_time: 9 month\n  installed: 6\n"}, "installed: 6", "it is said of each class"},
		"room beside":            {[]string{"  lead_time: 9 month\n", "  lead_time: 9 month\n  room_for: 11\n"}, "room_for: 11", "it is said of each class"},
		"volume nowhere":         {[]string{"  useful_volume: 40 yd3\n", ""}, "", "vessels.classes[2] has no useful_volume"},
		"room too small":         {[]string{"room_for: 8", "room_for: 3"}, "room_for: 3,", "there is room for 3 vessels but 4 are installed"},
		"more than there is for": {[]string{"vessels: 1, class: large, cost: \"300,000 USD\"}\n  - name", "vessels: 2, class: large, cost: \"300,000 USD\"}\n  - name"}, "vessels: 2, class: large", "with this change there are 4 large vessels, but room for 3"},
		"residence too long":     {[]string{"residence: 19 day", "residence: 29 day"}, "residence: 29 day", "shorter than the residence aimed at"},
		"residence too short":    {[]string{"residence: 19 day", "residence: 14 day"}, "residence: 14 day", "longer than the residence aimed at"},
		"over before it complies": {[]string{"residence: 19 day\n", "residence: 19 day\n      shortest_residence: 2 day\n"}, "shortest_residence: 2 day",
			"a load would be released before it can comply"},
		"unknown key":  {[]string{"installed: 4,", "installed: 4, colour: green,"}, "colour: green", "is not a known key"},
		"no classes":   {[]string{"name: large\n", "name: large\n      payload: 1 kg\n"}, "payload: 1 kg", "out of range"},
		"not a number": {[]string{"installed: 4,", "installed: some,"}, "installed: some", "installed"},
	} {
		text := editedClasses(t, c.edits...)
		_, err := Parse("plant.yaml", []byte(text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if n := strings.Count(err.Error(), "error: "); n != 1 {
			t.Errorf("%s: %d errors: %v", name, n, err)
		}
		if c.at == "" {
			continue
		}
		line := 1 + strings.Count(text[:strings.Index(text, c.at)], "\n")
		if told := err.Error(); !strings.HasPrefix(told, fmt.Sprintf("plant.yaml:%d:", line)) {
			t.Errorf("%s: it stands in line %d, %s", name, line, told)
		}
	}
	if _, err := Parse("plant.yaml", []byte(strings.Replace(readSmall(t), "count: 1}", "count: 1, class: large}", 1))); err == nil || !strings.Contains(err.Error(), "the vessels of this file are of one class") {
		t.Errorf("a class in a file of one: %v", err)
	}
	if _, err := Parse("plant.yaml", []byte(strings.Replace(readSmall(t), "  installed: 1\n", "  classes: []\n", 1))); err == nil {
		t.Error("an empty list of classes is taken")
	}
}

// A payload may be left out, and then only volume limits; of vessels that are carried that
// is warned of.
func TestPayloadMayBeLeftOut(t *testing.T) {
	const payload = "  payload: 14 short ton\n"
	f := parse(t, payload, "")
	if !math.IsInf(f.Model.Vessels.Payload, 1) {
		t.Errorf("%g kg", f.Model.Vessels.Payload)
	}
	if warned := strings.Contains(warnings(f), "nothing limits how heavy"); warned {
		t.Error("warned of vessels that nobody carries")
	}
	f = parse(t, payload, "", "curing:\n  pad", "yard: {trucks: 1, move: 20 min}\n\ncuring:\n  pad")
	if !strings.Contains(warnings(f), "nothing limits how heavy") {
		t.Errorf("not warned of vessels that a truck carries: %s", warnings(f))
	}
	for _, s := range f.Settings() {
		if s.Path == "vessels.payload" && !strings.Contains(s.Used, "no limit") {
			t.Errorf("it is used with %q", s.Used)
		}
	}
}

func warnings(f *File) string {
	text := ""
	for _, w := range f.Warnings {
		text += w.Message + "\n"
	}
	return text
}
