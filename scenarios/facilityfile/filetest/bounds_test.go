package filetest

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile"
	"loamcast/scenarios/yamlfile/edit"
)

// readFile returns a file of the tests of package facilityfile.
func readFile(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// everywhere returns all paths of a key in a group of a file, entries of lists
// numbered, those first where the file has the key.
func everywhere(m *yamlfile.Map, before, path string) (there, absent []string) {
	name, below, deeper := strings.Cut(path, ".")
	list := strings.TrimSuffix(name, "[]")
	switch {
	case !deeper && m.Has(name):
		return []string{before + name}, nil
	case !deeper:
		return nil, []string{before + name}
	case list != name && m.Has(list):
		for i, entry := range m.ListIf(list) {
			t, a := everywhere(entry, fmt.Sprintf("%s%s[%d].", before, list, i+1), below)
			there, absent = append(there, t...), append(absent, a...)
		}
		return there, absent
	case list == name && m.IsMap(name):
		return everywhere(m.Map(name), before+name+".", below)
	case list == name && !m.Has(name) && !strings.Contains(below, "[]"):
		return nil, []string{before + path}
	}
	return nil, nil
}

// outOfRange reports whether the reader refuses a value for its range, and how many
// errors there are.
func outOfRange(t *testing.T, text, path, value string) (refused bool, errors int) {
	t.Helper()
	changed, err := edit.Set(text, path, value)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	_, err = facilityfile.Parse("plant.yaml", []byte(changed))
	if err == nil {
		return false, 0
	}
	for line := range strings.Lines(err.Error()) {
		if strings.Contains(line, "error: ") {
			errors++
			refused = refused || strings.Contains(line, "is out of range")
		}
	}
	return refused, errors
}

// Every number of the file has bounds: the reader takes the bounds themselves, as far
// as they are concerned, and refuses what lies beyond, with one error for one
// mistake.
func TestEveryKeyHasBounds(t *testing.T) {
	texts := soundTexts(t)
	tried := 0
	for _, k := range facilityfile.Keys() {
		write := func(x float64) string { return Written(x, k.Dimension) }
		switch k.Kind {
		case facilityfile.Count:
			write = func(x float64) string { return fmt.Sprintf("%.0f", x) }
		case facilityfile.Weekdays:
			write = func(x float64) string { return "[1, 1, 1, 1, " + Written(x, k.Dimension) + ", 1, 1]" }
		case facilityfile.Quantities:
			first := "1"
			if !k.Dimension.Bare() {
				first = Written(k.Low, k.Dimension)
			}
			write = func(x float64) string { return "[" + first + ", " + Written(x, k.Dimension) + "]" }
		case facilityfile.Years:
			write = func(x float64) string { return "{2025: " + Written(x, k.Dimension) + "}" }
		case facilityfile.Quantity, facilityfile.Months:
		default:
			continue
		}
		if k.Path == "format" {
			continue // one value, with words of its own
		}
		text, path, there := where(t, texts, k.Path)
		if path == "" {
			t.Errorf("no text may have %s", k.Path)
			continue
		}
		beyond := max((k.High-k.Low)/1000, 1e-9)
		switch {
		case k.Kind == facilityfile.Count:
			beyond = 1
		case k.Path == "horizon" || k.Path == "warm_up":
			beyond = 366 * 86400 // whole years are read
		}
		for _, bound := range []float64{k.Low, k.High} {
			if refused, _ := outOfRange(t, text, path, write(bound)); refused {
				t.Errorf("%s: the bound %s is refused", path, write(bound))
			}
		}
		for _, x := range []float64{k.Low - beyond, k.High + beyond} {
			switch refused, errors := outOfRange(t, text, path, write(x)); {
			case !refused:
				t.Errorf("%s: %s, beyond the bound, is taken", path, write(x))
			case errors > 1 && there:
				t.Errorf("%s: %s, beyond the bound, gives %d errors", path, write(x), errors)
			}
		}
		tried++
	}
	if tried < 180 {
		t.Errorf("only %d keys were tried", tried)
	}
}

// One mistake gives one error: whatever stands in the place of a value that the
// reader takes, it complains of once at most. Of an empty group it names every key
// that is needed.
func TestOneMistakeGivesOneError(t *testing.T) {
	texts, tried := soundTexts(t), 0
	for _, k := range facilityfile.Keys() {
		text, path, there := where(t, texts, k.Path)
		if !there {
			continue
		}
		tried++
		for _, mistake := range []string{"", "[]", "{}", "much", "-7", `"\e"`} {
			if k.Kind == facilityfile.Group && mistake == "{}" || testing.Short() && mistake != "much" {
				continue
			}
			if _, errors := outOfRange(t, text, path, mistake); errors > 1 {
				t.Errorf("%s: %s gives %d errors", path, mistake, errors)
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d keys were tried", tried)
	}
}

// soundTexts are files that together have every key and that the reader takes.
func soundTexts(t *testing.T) []string {
	t.Helper()
	small := readFile(t, "small.yaml")
	texts := []string{
		small, readFile(t, "yard.yaml"), readFile(t, "planning.yaml"), string(examples.Data(examples.Demo)),
		replaced(t, readFile(t, "classes.yaml"), "  - {name: large vessel, vessels: 1, class: large, cost: \"300,000 USD\"}\n", "") +
			"\nsetbacks: [{name: a, for: 6 week, vessels_out: 1, class: small}]\n",
		replaced(t, small, "{compound: 2.2 %/year}", "{population: {people: 1900, per_person: 0.045 kg/day, source: a list}}"),
		replaced(t, small, "{compound: 2.2 %/year}", "{steps: [{date: 2028-01-01, factor: 1.1}]}"),
		replaced(t, small, "{compound: 2.2 %/year}", "{population: {people: 1900, per_person: 0.045 kg/day, source: a list, steps: [{date: 2028-01-01, factor: 1.1}]}}"),
		replaced(t, small, "at_least: 55 °C, for: 3 day,", "at_least: 55 °C, for: 3 day, peak_above: 60 °C, peak_for: 4 h,"),
		replaced(t, small, "at_least: 55 °C, for: 3 day,", "equation: solids 7 % and more,"),
		replaced(t, small, "growth: {compound: 2.2 %/year}", "pulses: [{from: 2027-04-01, for: 14 day, dry_per_day: 80 kg/day}]"),
		replaced(t, small, "for: 7 day, setpoint: 62 °C,", "for: 7 day, setpoint: 62 °C, ramp_per_hour: 1 °C, until: pathogen reduction, longest: 9 day,"),
		replaced(t, small, "for: 7 day, setpoint: 62 °C,", "for: 7 day, setpoint: 62 °C, held: 55 °C, held_for: 3 day, longest: 9 day,"),
		replaced(t, small, "  longest_time: 30 day\n", "  longest_time: 30 day\n  handling_loss: 30 %\n  handling_drop: 2 °C\n  turning: {above: 60 °C, apart: 3 day, after: [7 day, 14 day], loss: 30 %, drop: 2 °C}\n"),
		replaced(t, string(examples.Data(examples.Demo)), "\nmix:\n", "\nmix:\n  amendments:\n"+
			"    - {material: sawdust, to_cake: 0.2, when_short: do without, store: 60 m3, own_per_day: 3 m3/day, own_price: 2 USD/m3, "+
			"bought: {reorder_at: 20 m3, order_up_to: 50 m3, truckload: 25 m3, lead_time: 6 day, lead_time_variation: 30 %}}\n"+
			"    - {material: product, to_cake: 0.1, kept: 5 m3}\n"),
		replaced(t, small, "{account: all air}", "{vessel_depth: 2 m, pad_depth: 2 m, chip_voids: 60 %, skeleton_stiffness: 1 m, fines_stiffness: 0.3 m, half_reached_at: 13 %, reach_spread: 3 %, least_reached: 90 %}"),
		replaced(t, small, "dry_per_day: 85 kg/day", "wet_per_day: 420 kg/day"),
		replaced(t, small, "dry_per_day: 85 kg/day", "dry_per_year: 31 t/year"),
		replaced(t, small, "dry_per_day: 85 kg/day", "wet_per_year: 155 t/year"),
		replaced(t, small, "dry_per_day: 85 kg/day", "dry_by_year: {2026: 30 t, 2028: 31 t}"),
		replaced(t, small, "dry_per_day: 85 kg/day", "wet_by_year: {2026: 150 t, 2028: 155 t}"),
		replaced(t, withoutSeason(small), "dry_per_day: 85 kg/day", "dry_by_month: 2.6 t"),
		replaced(t, withoutSeason(small), "dry_per_day: 85 kg/day", "wet_by_month: 13 t"),
		replaced(t, withoutSeason(small), "  dry_per_day: 85 kg/day\n  growth: {compound: 2.2 %/year}\n  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n  day_to_day: {variation: 18 %, correlation: 0.6}\n  cake_solids: 20 %\n",
			"  sources:\n    - {name: north plant, dry_per_day: 60 kg/day, by_month: 1, by_weekday: 1, cake_solids: 18 %, growth: {steps: [{date: 2028-01-01, factor: 1.1}]}}\n"+
				"    - {name: south plant, cake_solids: 25 %, growth: {population: {people: 500, per_person: 0.05 kg/day, source: a list, steps: [{date: 2028-01-01, factor: 1.1}]}}}\n"),
		replaced(t, replaced(t, replaced(t, small, "  bulk_density: 490 lb/yd3\n  moisture: 38 %\n", ""), "  truckload: 30 yd3\n  lead_time: 8 day\n  lead_time_variation: 35 %\n", ""), "chips:\n",
			"chips:\n  sources:\n    - {name: sawmill, price: 9 USD/yd3, most_per_month: 60 yd3, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day, lead_time_variation: 35 %}\n"+
				"    - {name: yard wood, own_per_day: 1 yd3/day, processing_cost: 3 USD/yd3, bulk_density: 420 lb/yd3, moisture: 45 %, volatile_solids: 97 %, readily_degradable: 1 %, slowly_degradable: 30 %, nitrogen: 0.3 %, carbon: 50 %, fines: 15 %}\n"),
		small + "growth_scenarios: [{name: a, weight: 100 %, growth: {by_year: [1, 2]}}]\n",
		small + "changes: [{name: a, when: {held_above: 50 %, for: 1 day}, pad: 4 m3}]\n",
		small + "hauling_contract: {most_per_month: 20 t, most_per_day: 5 t, notice: 3 day, call_at: 70 %, down_to: 30 %, price: 60 USD/t}\n" +
			"changes: [{name: a, date: 2027-03-01, contract: {most_per_month: 10 t, most_per_day: 9 t, notice: 2 day, call_at: 60 %, down_to: 20 %, price: 50 USD/t}}]\n" +
			"options: [{name: b, steps: [{date: 2027-06-01, contract: {most_per_month: 10 t, most_per_day: 9 t, notice: 2 day, call_at: 60 %, down_to: 20 %, price: 50 USD/t}}]}]\n",
		small + "catalogue: [{name: a, contract: {most_per_month: 10 t, most_per_day: 9 t, notice: 2 day, call_at: 60 %, down_to: 20 %, price: 50 USD/t}}]\n",
		small + "setbacks: [{name: a, for: 6 week, vessels_out: 1}]\n",
		small + "setbacks: [{name: a, from: 11-01, for: 5 month, cake_solids: -1.5 %, chip_moisture: 8 %, temperature: -2 °C, humidity: 5 %, production: 10 %}]\n",
		small + "changes: [{name: a, when: {production: 120 kg/day}, pad: 4 m3}]\noptions: [{name: b, steps: [{when: {production: 130 kg/day}, pad: 4 m3}]}]\n",
	}
	for _, o := range []string{ // in place of a warm-up
		"opening: {holding: {cake_dry: 1 t, oldest: 1 day}, vessels: [{loaded: 2026-12-28, cake_dry: 1 t}], pad: [{tipped: 2026-12-20, wet_mass: 5 t, moisture: 50 %, temperature: 40 °C}], chips: {fresh: 20 m3, recovered: 5 m3}, product: 4 m3}\n",
		"opening: {vessels_in_use: 1, pad: [{tipped: 2026-12-20, volume: 10 m3}]}\n",
	} {
		texts = append(texts, small+o)
	}
	for i, text := range texts {
		texts[i] = withoutHours(text)
		if _, err := facilityfile.Parse("plant.yaml", []byte(texts[i])); err != nil {
			t.Fatal(err)
		}
	}
	return texts
}

// withoutSeason removes the season of production.
func withoutSeason(text string) string {
	before, rest, _ := strings.Cut(text, "  by_month:")
	_, after, _ := strings.Cut(rest, "\n")
	return before + after
}

// withoutHours removes the working hours of a file: no number stands in them, and
// their calendar of 100 years takes most of the time of reading.
func withoutHours(text string) string {
	before, rest, found := strings.Cut(text, "\nhours:\n")
	if !found {
		return text
	}
	_, after, _ := strings.Cut(rest, "\n\n")
	return before + "\n\n" + after
}

// where returns a text that has a key, or else one that may have it, its path, and
// which of the two it is.
func where(t *testing.T, texts []string, key string) (text, path string, has bool) {
	t.Helper()
	for _, text := range slices.Backward(texts) {
		doc, err := yamlfile.Parse("plant.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		there, _ := everywhere(doc.Root(), "", key)
		for _, at := range there {
			if _, err := edit.Set(text, at, "1"); err == nil {
				return text, at, true
			}
		}
	}
	for _, text := range texts {
		doc, _ := yamlfile.Parse("plant.yaml", []byte(text))
		if _, absent := everywhere(doc.Root(), "", key); len(absent) > 0 {
			return text, absent[0], false
		}
	}
	return "", "", false
}

// replaced replaces what is there once.
func replaced(t *testing.T, text, old, new string) string {
	t.Helper()
	if strings.Count(text, old) != 1 {
		t.Fatalf("%q is there %d times", old, strings.Count(text, old))
	}
	return strings.Replace(text, old, new, 1)
}
