package main

import (
	"os"
	"testing"
)

// yardFile is a sound facility file that holds the keys of operations that the
// small file leaves out.
const yardFile = "../../scenarios/facilityfile/testdata/yard.yaml"

// spoilt is a sound file with small edits, old and new in turn, that make one
// mistake.
type spoilt struct {
	name  string
	edits []string
}

// malformedOperations are spoilt yard files.
var malformedOperations = []spoilt{
	// The yard, its machines and people.
	{"trucks without a move", []string{"  move: 40 min\n", ""}},
	{"half a truck", []string{"  trucks: 1\n  move", "  trucks: 1.5\n  move"}},
	{"no operator", []string{"  operators: 1\n\n", "  operators: 0\n\n"}},
	{"breakdown of what is never short", []string{"  loaders: 1\n  operators: 1\n\n", "  operators: 1\n\n", "    loaders: 1\n", ""}},
	{"breakdown without a repair", []string{"  mixer: {every: 20 day, repair: 1 day}", "  mixer: {every: 20 day}"}},
	{"repair without end", []string{"  mixer: {every: 20 day, repair: 1 day}", "  mixer: {every: 20 day, repair: 30 day}"}},
	{"maintenance without end", []string{"takes: 5 day", "takes: 100 day"}},
	{"maintenance of places without places", []string{"  aerated_places: 1\n", "", "    places: 1\n", ""}},
	{"power as an energy", []string{"power: 60 kW", "power: 60 kWh"}},
	{"negative power", []string{"power: 25 kW", "power: -25 kW"}},

	// What comes in.
	{"pulse of part of a day", []string{"for: 14 day, dry_per_day", "for: 36 h, dry_per_day"}},
	{"pulse on 31 April", []string{"from: 2027-04-01", "from: 2027-04-31"}},
	{"feedstock named cake", []string{"name: hauled-in manure", "name: cake"}},
	{"feedstock that never arrives", []string{"dry_per_day: 20 kg/day", "dry_per_day: 0 kg/day"}},
	{"feedstock without its solids", []string{"    solids: 28 %\n", ""}},
	{"feedstock with too little carbon", []string{"carbon: 45 %", "carbon: 15 %"}},
	{"dewatering as a mass", []string{"rate_dry: 150 kg/h", "rate_dry: 150 kg"}},
	{"dewatering too slow", []string{"rate_dry: 150 kg/h", "rate_dry: 2 kg/h"}},

	// Curing, screen, air.
	{"pad given twice", []string{"  pad_area: 120 m2\n", "  pad_area: 120 m2\n  pad: 60 yd3\n"}},
	{"pad area without piles", []string{"  pile: {height: 1.5 m, width: 4 m, aisle: 3 m, top_width: 1 m}\n", ""}},
	{"piles without an area", []string{"  pad_area: 120 m2\n", "  pad: 60 yd3\n"}},
	{"pile too steep", []string{"height: 1.5 m, width: 4 m, aisle: 3 m, top_width: 1 m", "height: 3 m, width: 4 m, aisle: 3 m"}},
	{"pile wider at its top", []string{"top_width: 1 m", "top_width: 5 m"}},
	{"screen in another order", []string{"order: cure then screen", "order: screen before cure"}},
	{"blowers as a power", []string{"blowers: 400 cfm", "blowers: 40 kW"}},
	{"biofilter without a loading", []string{"  loading: 4 cfm/ft2\n", ""}},
	{"biofilter loading as a flow", []string{"loading: 4 cfm/ft2", "loading: 400 cfm"}},
	{"biofilter media above the chips", []string{"media: 12 yd3", "media: 60 yd3"}},
	{"biofilter without content", []string{"biofilter:\n  area: 120 ft2\n  loading: 4 cfm/ft2\n  media: 12 yd3\n  replaced_every: 3 year\n", "biofilter: {}\n"}},

	// Working hours of stages.
	{"mixing before the loader comes", []string{"mixing:\n    week: {mon: [07:00-12:00]", "mixing:\n    week: {mon: [05:00-12:00]"}},
	{"mixing and dewatering apart", []string{
		"week: {mon: [08:00-14:00], tue: [08:00-14:00], wed: [08:00-14:00], thu: [08:00-14:00]}", "week: {mon: [13:00-15:00]}"}},
	{"hours of dewatering that is not there", []string{"dewatering:\n  rate_dry: 150 kg/h\n\n", ""}},

	// Changes.
	{"change of nothing", []string{"    vessels: 1\n    places: 1\n    trucks: 1\n    loaders: 1\n    operators: 1\n    mixers: 1\n    screens: 1\n    pad: 20 yd3\n    holding_dry: 0.5 t\n    product_store: 10 yd3\n    screen_throughput: 12 yd3/h\n    cake_solids: 2 %\n", ""}},
	{"change without a date", []string{"    date: 2027-05-01\n", ""}},
	{"change with date and trigger", []string{"    when: {held_above: 60 %, for: 10 day}\n", "    when: {held_above: 60 %, for: 10 day}\n    date: 2027-06-01\n"}},
	{"no mixer", []string{"  mixers: 1\n  batch", "  mixers: 0\n  batch"}},
	{"half a screen", []string{"  screens: 1\n  order", "  screens: 0.5\n  order"}},
	{"screens as a throughput", []string{"    screens: 1\n", "    screens: 12 yd3/h\n"}},
	{"change of what is never short", []string{"  operators: 1\n\n", "\n"}},
	{"change beyond room", []string{"    vessels: 1\n", "    vessels: 3\n"}},
	{"changes named alike", []string{"name: longer shift", "name: more of everything"}},
	{"change that takes away", []string{"    vessels: 1\n", "    vessels: -1\n"}},
	{"change to cake like earth", []string{"  cake_solids: 20 %\n", "  cake_solids: 25 %\n", "    cake_solids: 2 %\n", "    cake_solids: 28 %\n"}},
	{"trigger above all that is held", []string{"held_above: 60 %", "held_above: 110 %"}},
	{"trigger without a time", []string{"held_above: 60 %, for: 10 day", "held_above: 60 %"}},
	{"trigger of nothing", []string{"{held_above: 60 %, for: 10 day}", "{}"}},
	{"trigger of two signs", []string{"held_above: 60 %, for: 10 day", "production: 160 kg/day, held_above: 60 %, for: 10 day"}},
	{"trigger of production with a time", []string{"held_above: 60 %, for: 10 day", "production: 160 kg/day, for: 10 day"}},
	{"trigger of production without a unit", []string{"held_above: 60 %, for: 10 day", "production: 160"}},
	{"trigger of production as a mass", []string{"held_above: 60 %, for: 10 day", "production: 160 kg"}},
	{"trigger of no production", []string{"held_above: 60 %, for: 10 day", "production: 0 kg/day"}},
	{"trigger misspelt", []string{"held_above: 60 %, for: 10 day", "prodution: 160 kg/day"}},
	{"change of the week without a shift", []string{"{mon: [06:00-18:00], tue: [06:00-18:00], wed: [06:00-18:00], thu: [06:00-18:00], fri: [06:00-18:00], sat: [06:00-12:00]}", "{mon: []}"}},
}

// Mistakes in the keys of operations are refused as all others are.
func TestMalformedOperations(t *testing.T) { refuseAll(t, yardFile, malformedOperations) }

// refuseAll asserts that every spoilt file is refused with the one error of its
// golden file.
func refuseAll(t *testing.T, path string, cases []spoilt) {
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	refuseAllIn(t, string(data), cases)
}

// refuseAllIn is refuseAll of what is spoilt of a text.
func refuseAllIn(t *testing.T, sound string, cases []spoilt) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "malformed", c.name)
			text := sound
			for i := 0; i < len(c.edits); i += 2 {
				text = replaced(t, text, c.edits[i], c.edits[i+1])
			}
			t.Chdir(t.TempDir())
			write(t, "plant.yaml", text)
			refused(t, golden, "plant.yaml:", "plant.yaml")
		})
	}
}
