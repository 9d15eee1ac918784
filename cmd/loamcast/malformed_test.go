package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden files of this package")

// smallFile is a sound facility file that holds every key and runs quickly.
const smallFile = "../../scenarios/facilityfile/testdata/small.yaml"

// readSmall returns the small facility file.
func readSmall(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(smallFile)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// replaced returns text with one of its parts, which must be there once,
// replaced.
func replaced(t *testing.T, text, old, new string) string {
	t.Helper()
	if n := strings.Count(text, old); n != 1 {
		t.Fatalf("%q is there %d times", old, n)
	}
	return strings.Replace(text, old, new, 1)
}

// program runs the command line as main does.
func program(ctx context.Context, args ...string) (status int, stdout, stderr string) {
	var out, errs bytes.Buffer
	status = execute(ctx, args, &out, &errs)
	return status, out.String(), errs.String()
}

// smallProduction is what sources take the place of.
const smallProduction = "  dry_per_day: 85 kg/day\n  growth: {compound: 2.2 %/year}\n  by_month: [0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88]\n" +
	"  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n  day_to_day: {variation: 18 %, correlation: 0.6}\n  cake_solids: 20 %\n"

// smallSupplier is what sources of chips take the place of, but for smallRule, which
// stays; sawmill is one of them.
const (
	smallSupplier = "  bulk_density: 490 lb/yd3\n  moisture: 38 %\n" + smallChips + smallRule + "  truckload: 30 yd3\n  lead_time: 8 day\n  lead_time_variation: 35 %\n"
	smallChips    = "  volatile_solids: 98 %\n  readily_degradable: 1 %\n  slowly_degradable: 22 %\n  nitrogen: 0.20 %\n  carbon: 50 %\n  fines: 4 %\n"
	smallRule     = "  store: 60 yd3\n  reorder_at: 20 yd3\n  order_up_to: 56 yd3\n"
	sawmill       = "{name: sawmill, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day}"
)

// malformed is a sound facility file with one small edit that spoils it.
// The text that a user then reads is testdata/malformed/*.txt of that name.
var malformed = []struct{ name, old, new string }{
	// What is not even a file of keys.
	{"tab", "  payload: 14 short ton", "\tpayload: 14 short ton"},
	{"colon missing", "  payload: 14 short ton", "  payload 14 short ton"},
	{"indentation", "  payload: 14 short ton", "   payload: 14 short ton"},
	{"bracket open", "[0 yd3, 0 yd3, 1 yd3, 2 yd3, 1.5 yd3, 1 yd3, 0.5 yd3, 0.5 yd3, 1 yd3, 1 yd3, 0.3 yd3, 0 yd3]", "[0 yd3, 0 yd3"},
	{"control character", "Small invented plant\n", "Small\x00 plant\n"},
	{"not utf-8", "Small invented plant\n", "Small caf\xe9 plant\n"},
	{"second document", "site:\n", "---\nsite:\n"},
	{"alias", "name: Small invented plant", "name: *other"},

	// What would reach every report and cannot be seen.
	{"name with a control character", "name: Small invented plant", `name: "Small\e[31m invented plant"`},
	{"name that turns the writing", "name: Small invented plant", "name: Small \u202edetnevni plant"},
	{"name of two lines", "name: pathogen reduction", `name: "pathogen\nreduction"`},

	// Numbers that no plant has.
	{"mixer of a thimble", "batch_volume: 14 yd3", "batch_volume: 1e-5 m3"},
	{"scale of a gram", "batch_scale: 14,500 lb", "batch_scale: 1e-3 kg"},
	{"scale of next to nothing", "batch_scale: 14,500 lb", "batch_scale: 1e-320 kg"},
	{"walls of fire", "wall_loss: 25 W/K", "wall_loss: 1e20 W/K"},
	{"month beyond reason", "by_month: [0.90,", "by_month: [1e308,"},
	{"horizon of ages", "horizon: 1 year", "horizon: 1e3 year"},

	// Keys.
	{"unknown key", "  useful_volume: 31 yd3", "  useful_volume: 31 yd3\n  colour: green"},
	{"misspelt key", "  useful_volume: 31 yd3", "  usefull_volume: 31 yd3"},
	{"missing key", "  useful_volume: 31 yd3\n", ""},
	{"missing group", "mix:\n  chips_to_cake: 2.5\n  batch_volume: 14 yd3\n  batch_scale: 14,500 lb\n  batch_time: 25 min\n", ""},
	{"duplicate key", "  payload: 14 short ton", "  payload: 14 short ton\n  payload: 15 short ton"},
	{"value missing", "  payload: 14 short ton", "  payload:"},
	{"value for a group", "mix:\n  chips_to_cake: 2.5\n  batch_volume: 14 yd3\n  batch_scale: 14,500 lb\n  batch_time: 25 min\n", "mix: 2.5\n"},
	{"format 2", "format: 1", "format: 2"},

	// Production.
	{"production given twice", "  dry_per_day: 85 kg/day\n", "  dry_per_day: 85 kg/day\n  wet_per_day: 425 kg/day\n"},
	{"production not given", "  dry_per_day: 85 kg/day\n", ""},
	{"wet cake without a unit", "dry_per_day: 85 kg/day", "wet_per_day: 2.2"},
	{"wet cake as a mass", "dry_per_day: 85 kg/day", "wet_per_day: 2.2 short ton"},
	{"wet cake without its solids", "  dry_per_day: 85 kg/day\n", "  wet_per_day: 425 kg/day\n  cake_solid: 20 %\n"},
	{"yearly masses without units", "dry_per_day: 85 kg/day", "dry_by_year: {2025: 31, 2027: 33}"},
	{"yearly masses out of order", "dry_per_day: 85 kg/day", "dry_by_year: {2027: 33 t, 2025: 31 t}"},
	{"yearly masses from after the start", "dry_per_day: 85 kg/day", "wet_by_year: {2028: 150 t, 2030: 160 t}"},
	{"yearly masses of none", "dry_per_day: 85 kg/day", "dry_by_year: {}"},
	{"yearly masses a digit too many", "dry_per_day: 85 kg/day", "dry_by_year: {2027: 31 t, 2028: 3200 t, 2029: 33000 t}"},
	{"masses of months beside a season", "dry_per_day: 85 kg/day", "wet_by_month: 13 t"},
	{"masses of eleven months", "dry_per_day: 85 kg/day", "wet_by_month: [13 t, 13 t, 13 t, 13 t, 13 t, 13 t, 13 t, 13 t, 13 t, 13 t, 13 t]"},
	{"sources beside an amount", "  dry_per_day: 85 kg/day\n", "  dry_per_day: 85 kg/day\n  sources: [{name: north plant, dry_per_day: 60 kg/day, cake_solids: 18 %}]\n"},
	{"sources of none", smallProduction, "  sources: []\n"},
	{"sources named alike", smallProduction, "  sources: [{name: north plant, dry_per_day: 60 kg/day, cake_solids: 18 %}, {name: north plant, wet_per_day: 100 kg/day, cake_solids: 25 %}]\n"},
	{"source without its solids", smallProduction, "  sources: [{name: north plant, dry_per_day: 60 kg/day}]\n"},
	{"source that never sends", smallProduction, "  sources: [{name: north plant, dry_per_day: 60 kg/day, cake_solids: 18 %, by_weekday: 0}]\n"},
	{"source with two amounts", smallProduction, "  sources: [{name: north plant, dry_per_day: 60 kg/day, wet_by_month: 7 t, cake_solids: 18 %}]\n"},
	{"sources that grow twice", smallProduction, "  growth: {compound: 2 %/year}\n  sources: [{name: north plant, dry_per_day: 60 kg/day, cake_solids: 18 %, growth: {compound: 1 %/year}}]\n"},

	// Chips from several sources.
	{"sources of chips beside a supplier", "  truckload: 30 yd3\n", "  truckload: 30 yd3\n  sources: [" + sawmill + "]\n"},
	{"sources of chips of none", smallSupplier, smallChips + smallRule + "  sources: []\n"},
	{"sources of chips named alike", smallSupplier, smallChips + smallRule + "  sources: [" + sawmill + ", " + sawmill + "]\n"},
	{"sources of chips that sell none", smallSupplier, smallChips + smallRule + "  sources: [{name: yard wood, own_per_day: 2 yd3/day, bulk_density: 490 lb/yd3, moisture: 38 %}]\n"},
	{"source of chips with a bare price", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, price: 9, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day}]\n"},
	{"source of chips below a truckload", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, most_per_month: 20 yd3, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day}]\n"},
	{"source of chips with a large truckload", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 50 yd3, lead_time: 8 day}]\n"},
	{"source of chips without its moisture", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, bulk_density: 490 lb/yd3, truckload: 30 yd3, lead_time: 8 day}]\n"},
	{"source of chips without a truckload", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, bulk_density: 490 lb/yd3, moisture: 38 %, lead_time: 8 day}]\n"},
	{"own wood with a lead time", smallSupplier, smallChips + smallRule + "  sources: [" + sawmill + ", {name: yard wood, own_per_day: 2 yd3/day, lead_time: 2 day, bulk_density: 490 lb/yd3, moisture: 38 %}]\n"},
	{"own wood that never comes", smallSupplier, smallChips + smallRule + "  sources: [" + sawmill + ", {name: yard wood, own_per_day: 0 yd3/day, bulk_density: 490 lb/yd3, moisture: 38 %}]\n"},
	{"supplier with a cost of processing", smallSupplier, smallChips + smallRule + "  sources: [{name: sawmill, processing_cost: 2 USD/yd3, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day}]\n"},
	{"own wood of nothing but fines", smallSupplier, smallChips + smallRule + "  sources: [" + sawmill + ", {name: yard wood, own_per_day: 2 yd3/day, fines: 95 %, bulk_density: 490 lb/yd3, moisture: 38 %}]\n"},

	// Units.
	{"wrong unit", "  payload: 14 short ton", "  payload: 14 yd3"},
	{"bare number", "  payload: 14 short ton", "  payload: 14"},
	{"bare fraction", "recovery: 80 %", "recovery: 0.8"},
	{"ton", "  payload: 14 short ton", "  payload: 14 ton"},
	{"dry ton", "  capacity_dry: 2.6 t", "  capacity_dry: 2.6 dry t"},
	{"misspelt unit", "  payload: 14 short ton", "  payload: 14 short tno"},
	{"comma in a list", "humidity: 65 %", "humidity: 6,5 %"},
	{"temperature as a difference", "wall_loss: 25 W/K", "wall_loss: 25 W"},

	// Values that cannot be.
	{"negative capacity", "  capacity_dry: 2.6 t", "  capacity_dry: -2.6 t"},
	{"negative time", "lead_time: 8 day", "lead_time: -8 day"},
	{"recovery above 100 %", "recovery: 80 %", "recovery: 105 %"},
	{"half a vessel", "installed: 1", "installed: 1.5"},
	{"yes for true", "early_release: true", "early_release: yes"},
	{"units of the moon", "units: us", "units: ut"},
	{"no replications", "replications: 2", "replications: 0"},
	{"negative seed", "seed: 1", "seed: -1"},
	{"no pile air", "least_air: 1 m3/t·h, most_air: 30 m3/t·h", "least_air: 0 m3/t·h, most_air: 0 m3/t·h"},
	{"production nil", "by_month: [0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88]", "by_month: 0"},

	// Series and dates.
	{"eleven months", "moisture: 38 %", "moisture: [38 %, 38 %, 38 %, 38 %, 38 %, 38 %, 38 %, 38 %, 38 %, 38 %, 38 %]"},
	{"weekday missing", ", sat: 0.75, sun: 0.75}", ", sat: 0.75}"},
	{"date written otherwise", "date: 2027-10-01", "date: 10/1/2027"},
	{"30 February", "date: 2027-10-01", "date: 2027-02-30"},
	{"start within a month", "start: 2027-01-01", "start: 2027-01-15"},
	{"start in the year 207", "start: 2027-01-01", "start: 0207-01-01"},
	{"part of a year", "horizon: 1 year", "horizon: 18 month"},
	{"no year", "horizon: 1 year", "horizon: 0 year"},
	{"long warm-up", "warm_up: 0 year", "warm_up: 11 year"},

	// Working hours.
	{"shift twice", "mon: [07:00-15:30]", "mon: [07:00-15:30, 07:00-15:30]"},
	{"holiday twice", "holidays: [01-01,", "holidays: [01-01, 01-01,"},
	{"weekday twice", "week: {mon: [07:00-15:30],", "week: {mon: [07:00-15:30], mon: [07:00-15:30],"},
	{"growth of no form", "growth: {compound: 2.2 %/year}", "growth: {}"},
	{"growth misspelt", "growth: {compound: 2.2 %/year}", "growth: {compond: 2.2 %/year}"},
	{"shift nonsense", "fri: [07:00-15:30]", "fri: [seven to three]"},
	{"shift beyond the day", "fri: [07:00-15:30]", "fri: [07:00-24:30]"},
	{"shift without length", "fri: [07:00-15:30]", "fri: [07:00-07:00]"},
	{"shift not a list", "fri: [07:00-15:30]", "fri: 07:00-15:30"},
	{"no shift", "week: {mon: [07:00-15:30], tue: [07:00-15:30], wed: [07:00-15:30], thu: [07:00-15:30], fri: [07:00-15:30]}", "week: {mon: []}"},
	{"holiday nonsense", "last mon may", "midsummer"},
	{"holiday 31 April", "last mon may", "04-31"},
	{"holiday sixth Monday", "last mon may", "sixth mon may"},

	// What does not go together.
	{"release before compliance", "  shortest_residence: 11 day", "  shortest_residence: 2 day"},
	{"never compliance", "above: 40 °C, mean_above: 45 °C, for: 10 day", "above: 40 °C, mean_above: 45 °C, for: 50 day"},
	{"shortest above residence", "  shortest_residence: 11 day", "  shortest_residence: 13 day"},
	{"longest below residence", "  longest_residence: 16 day", "  longest_residence: 11 day"},
	{"nitrogen below formula", "nitrogen: 5.2 %", "nitrogen: 2 %"},
	{"carbon below formula", "carbon: 44 %", "carbon: 20 %"},
	{"degradable above 100 %", "readily_degradable: 56 %", "readily_degradable: 95 %"},
	{"growth given twice", "growth: {compound: 2.2 %/year}", "growth: {linear: 2 %/year, by_year: [1, 1.02]}"},
	{"growth table not from 1", "growth: {compound: 2.2 %/year}", "growth: {by_year: [1.02, 1.04]}"},
	{"growth table empty", "growth: {compound: 2.2 %/year}", "growth: {by_year: []}"},
	{"no room", "room_for: 3", "room_for: 0"},
	{"room below installed", "installed: 1", "installed: 4"},
	{"additions beyond room", "count: 1}", "count: 3}"},
	{"additions out of order", "{date: 2027-10-01, count: 1}", "{date: 2027-10-01, count: 1}, {date: 2027-09-01, count: 1}"},
	{"chips above the store", "order_up_to: 56 yd3", "order_up_to: 66 yd3"},
	{"truckload too large", "truckload: 30 yd3", "truckload: 40 yd3"},
	{"pile air upside down", "least_air: 1 m3/t·h, most_air: 30 m3/t·h", "most_air: 0.5 m3/t·h"},
	{"curing longest below time", "longest_time: 30 day", "longest_time: 20 day"},
	{"criterion without place", ", for: 3 day, where: vessel}", ", for: 3 day}"},
	{"criterion elsewhere", ", for: 3 day, where: vessel}", ", for: 3 day, where: pad}"},
	{"criterion mean too low", "above: 40 °C, mean_above: 45 °C", "above: 40 °C, mean_above: 35 °C"},
	{"criterion peak too low", "at_least: 55 °C, for: 3 day,", "at_least: 55 °C, for: 3 day, peak_above: 50 °C, peak_for: 4 h,"},
}

// Every malformed file gives exactly one error, with line and column, in the
// very words of its golden file; the status is 2, nothing is printed as a
// result and no output folder appears. Run with -update to rewrite the texts,
// and read the difference.
func TestMalformedFiles(t *testing.T) {
	good := readSmall(t)
	for _, c := range malformed {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "malformed", c.name)
			t.Chdir(t.TempDir()) // so that messages show the same path everywhere
			write(t, "plant.yaml", replaced(t, good, c.old, c.new))
			refused(t, golden, "plant.yaml:", "plant.yaml")
		})
	}
}

// Whole files that are no facility file at all are refused in the same way.
func TestNoFacilityFile(t *testing.T) {
	for _, c := range []struct{ name, content string }{
		{"empty file", ""},
		{"comments only", "# nothing yet\n"},
		{"only text", "I would like eight vessels.\n"},
		{"a list", "- vessels\n- chips\n"},
		{"50 MB", strings.Repeat("# fifty million bytes of nothing\n", 50_000_000/33)},
		{"utf-16", "\xff\xfef\x00o\x00r\x00m\x00a\x00t\x00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "malformed", c.name)
			t.Chdir(t.TempDir())
			write(t, "plant.yaml", c.content)
			refused(t, golden, "plant.yaml:1:1: error: ", "plant.yaml")
		})
	}
}

// A file that cannot be read is bad input too; there is no line to show.
func TestUnreadableFiles(t *testing.T) {
	for _, c := range []struct{ name, argument string }{
		{"no file", "plnat.yaml"},
		{"folder", "folder"},
		{"file as a folder", "file/plant.yaml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			golden := goldenPath(t, "malformed", c.name)
			t.Chdir(t.TempDir())
			write(t, "file", "format: 1\n")
			if err := os.Mkdir("folder", 0o755); err != nil {
				t.Fatal(err)
			}
			refused(t, golden, "loamcast: "+c.argument+": ", c.argument)
		})
	}
}

// A file with several mistakes shows all of them, in order, at one go.
func TestAllMistakesAtOnce(t *testing.T) {
	text := readSmall(t)
	mistakes := map[string]bool{"format 2": true, "bare number": true, "recovery above 100 %": true, "shift nonsense": true, "growth given twice": true, "value for a group": true}
	for _, c := range malformed {
		if mistakes[c.name] {
			text = replaced(t, text, c.old, c.new)
		}
	}
	golden := goldenPath(t, "malformed", "several mistakes")
	t.Chdir(t.TempDir())
	write(t, "plant.yaml", text)
	status, stdout, stderr := program(t.Context(), "check", "plant.yaml")
	if status != exitBadInput || stdout != "" {
		t.Errorf("status %d, standard output %q", status, stdout)
	}
	compare(t, golden, stderr)
}

// refused runs a file and asserts that it is refused with one error that
// begins with a prefix.
func refused(t *testing.T, golden, prefix, argument string) {
	t.Helper()
	status, stdout, stderr := program(t.Context(), "run", argument, "--out", "results")
	if status != exitBadInput {
		t.Errorf("status %d, want %d", status, exitBadInput)
	}
	if stdout != "" {
		t.Errorf("standard output is not empty: %q", stdout)
	}
	if _, err := os.Stat("results"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the output folder is there (%v)", err)
	}
	if !strings.HasPrefix(stderr, prefix) {
		t.Errorf("the message does not begin with %q", prefix)
	}
	if n := strings.Count(stderr, ": error: "); n > 1 || n == 0 && strings.HasPrefix(prefix, "plant.yaml") {
		t.Errorf("%d errors for one mistake", n)
	}
	compare(t, golden, stderr)
}

// goldenPath is where the text of a case is kept; it holds wherever the test
// changes to.
func goldenPath(t *testing.T, folder, name string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join("testdata", folder, strings.NewReplacer(" ", "-", "%", "percent").Replace(name)+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// compare compares a text with its golden file, or rewrites that.
func compare(t *testing.T, golden, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(golden), 0o755); err != nil {
			t.Fatal(err)
		}
		write(t, golden, got)
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("--- got\n%s--- want\n%s", got, want)
	}
}

func write(t *testing.T, path, content string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
}
