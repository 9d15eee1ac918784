package facilityfile_test

import (
	"bytes"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// compiled compiles the schema, which refuses one that is not of the draft.
func compiled(t *testing.T, system units.System) *jsonschema.Schema {
	t.Helper()
	text, err := jsonschema.UnmarshalJSON(bytes.NewReader(facilityfile.JSONSchema(system)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("plant.schema.json", text); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("plant.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// asEditor reads YAML as a language server of version 1.2 does: numbers, truth
// values and texts; a date is a text.
func asEditor(t *testing.T, text string) any {
	t.Helper()
	var document yaml.Node
	if err := yaml.Unmarshal([]byte(text), &document); err != nil {
		t.Fatal(err)
	}
	return plain(document.Content[0])
}

func plain(n *yaml.Node) any {
	switch {
	case n.Kind == yaml.MappingNode:
		group := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			group[n.Content[i].Value] = plain(n.Content[i+1])
		}
		return group
	case n.Kind == yaml.SequenceNode:
		list := []any{}
		for _, child := range n.Content {
			list = append(list, plain(child))
		}
		return list
	case n.Tag == "!!int" || n.Tag == "!!float":
		x, err := strconv.ParseFloat(n.Value, 64)
		if err != nil {
			return n.Value
		}
		return x
	case n.Tag == "!!bool":
		return n.Value == "true"
	case n.Tag == "!!null":
		return nil
	}
	return n.Value
}

// sound are files that the reader takes.
func sound(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{}
	for _, name := range examples.Names() {
		files[name] = string(examples.Data(name))
	}
	for _, name := range []string{"small", "yard", "planning"} {
		data, err := os.ReadFile("testdata/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(data)
	}
	return files
}

// The examples and the files of the tests satisfy the schema in either system of
// units: it is no narrower than the reader.
func TestSoundFilesSatisfyTheSchema(t *testing.T) {
	for _, system := range []units.System{units.US, units.SI} {
		schema := compiled(t, system)
		for name, text := range sound(t) {
			if err := schema.Validate(asEditor(t, text)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// An editor shows the common mistakes: the schema refuses what the reader refuses,
// where one key alone shows it.
func TestTheSchemaRefusesMistakes(t *testing.T) {
	schema := compiled(t, units.US)
	small := sound(t)["small"]
	for _, c := range []struct{ name, old, new string }{
		{"a bare number where a unit is needed", "dry_per_day: 85 kg/day", "dry_per_day: 85"},
		{"a bare number in a list", "[34 °F,", "[34,"},
		{"a bare fraction", "recovery: 80 %", "recovery: 0.8"},
		{"an unknown key", "  batch_time: 25 min", "  batch_time: 25 min\n  batch_weight: 3 t"},
		{"an unknown group", "site:", "sites:"},
		{"a key that is missing", "  batch_time: 25 min\n", ""},
		{"a word that is no choice", "units: us", "units: metric"},
		{"a quantity for a count", "installed: 1", "installed: 1 vessel"},
		{"too many vessels", "installed: 1", "installed: 10001"},
		{"a number out of range", "chips_to_cake: 2.5", "chips_to_cake: 25"},
		{"a text for a number", "chips_to_cake: 2.5", "chips_to_cake: much"},
		{"eleven months", "[0.90, 0.90, 0.93,", "[0.90, 0.93,"},
		{"a date written otherwise", "start: 2027-01-01", "start: 1 January 2027"},
		{"a shift that is none", "mon: [07:00-15:30]", "mon: [all day]"},
		{"two forms of growth", "{compound: 2.2 %/year}", "{compound: 2.2 %/year, linear: 2 %/year}"},
		{"no form of growth", "{compound: 2.2 %/year}", "{}"},
		{"a list for a group", "{setpoint: 45 °C, least_air: 1 m3/t·h, most_air: 30 m3/t·h}", "[]"},
	} {
		if strings.Count(small, c.old) != 1 {
			t.Fatalf("%s: %q is there %d times", c.name, c.old, strings.Count(small, c.old))
		}
		text := strings.Replace(small, c.old, c.new, 1)
		if err := schema.Validate(asEditor(t, text)); err == nil {
			t.Errorf("%s: the schema takes it", c.name)
		}
		if _, err := facilityfile.Parse("plant.yaml", []byte(text)); err == nil {
			t.Errorf("%s: the reader takes it", c.name)
		}
	}
}

// Every way of writing a quantity that the reader takes satisfies the schema.
func TestTheSchemaTakesEveryWriting(t *testing.T) {
	schema := compiled(t, units.SI)
	planning := sound(t)["planning"]
	for _, c := range []struct{ old, new string }{
		{"sampling: 900 USD", "sampling: $900"},
		{"sampling: 900 USD", "sampling: 900 $"},
		{"tipping: 75 USD/short ton", "tipping: $75/short ton"},
		{"tipping: 75 USD/short ton", "tipping: 75 /short ton"},
		{"tipping: 75 USD/short ton", "tipping: 75 per short ton"},
		{"temperature: 10 °C", "temperature: -1.5e1 °C"},
		{"temperature: 10 °C", "temperature: −10 degC"},
		{"inflation: 2.5 %/year", "inflation: .025 1/year"},
		{"capacity_dry: 2.6 t", "capacity_dry: 2,600kg"},
		{"installed: 2", `installed: "2"`},
		{"  chips_to_cake: 2.5", "  chips_to_cake: 2.5 yd3/yd3"},
		{"warm_up: 0 year", "warm_up: detected"},
		{"name: Small invented plan", "name: 2027"},
	} {
		text := strings.Replace(planning, c.old, c.new, 1)
		if text == planning {
			t.Fatalf("the file has no %q", c.old)
		}
		if _, err := facilityfile.Parse("plant.yaml", []byte(text)); err != nil {
			t.Errorf("%s: the reader refuses it: %v", c.new, err)
		}
		if err := schema.Validate(asEditor(t, text)); err != nil {
			t.Errorf("%s: %v", c.new, err)
		}
	}
}
