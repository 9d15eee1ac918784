package simulate_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// notSimulated tells the keys that move no record: those that count for planning,
// for the design of a mix or for what is shown, by the table of keys, and two more.
// What begins with one of them belongs to it. Those of planning are shown to count
// in package facilityfile.
func notSimulated() []string {
	// built_in has a test of its own.
	list := []string{
		"chips.store", // bounds order_up_to when the file is read
		"mix.recipe",  // asks for a design before the run, shown in package mixplan
		"aeration.built_in",
	}
	for _, k := range facilityfile.Keys() {
		if k.UsedBy != facilityfile.ForRuns {
			list = append(list, strings.ReplaceAll(k.Path, "[]", ""))
		}
	}
	return list
}

// keysOf lists the keys of a file that hold a value or a list of values, as
// messages name them but without the numbers of entries.
func keysOf(t *testing.T, text string) []string {
	t.Helper()
	var root yaml.Node
	if err := yaml.Unmarshal([]byte(text), &root); err != nil {
		t.Fatal(err)
	}
	var keys []string
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		switch n.Kind {
		case yaml.DocumentNode, yaml.SequenceNode:
			for _, child := range n.Content {
				walk(child, path)
			}
		case yaml.MappingNode:
			for i := 0; i < len(n.Content); i += 2 {
				walk(n.Content[i+1], strings.TrimPrefix(path+"."+n.Content[i].Value, "."))
			}
			return
		}
		if n.Kind == yaml.ScalarNode && path != "" {
			keys = append(keys, path)
		}
	}
	walk(&root, "")
	return keys
}

// covers reports whether a key is path itself or a group that holds it.
func covers(key, path string) bool {
	return key == path || strings.HasPrefix(path, key+".")
}

// comment is a line that shows a key that is left out: "# carbon: 42 %",
// "#   trucks: 1" or "#   - name: manure". Other comments begin a sentence.
var comment = regexp.MustCompile(`(?m)^( *)# ((?: |- )*[a-z_]+:(?: .*)?)$`)

// starter returns the starter file.
func starter(t *testing.T) string {
	t.Helper()
	text, err := facilityfile.Starter(examples.Data(examples.Demo), "plant.schema.json", units.US)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// uncommented returns the starter file with the keys that it shows in comments.
func uncommented(t *testing.T) string {
	return comment.ReplaceAllString(starter(t), "$1$2")
}

// Every key of the starter file, shown in comments or not, and of the files of
// the tests is changed by TestEveryOptionMatters or TestEveryOperationMatters,
// but for those that are not simulated.
func TestNoKeyIsForgotten(t *testing.T) {
	for name, text := range map[string]string{"small": readSmall(t), "yard": readText(t, yardFile), "starter": uncommented(t)} {
		keys := keysOf(t, text)
		if len(keys) < 60 {
			t.Fatalf("%s: only %d keys were found", name, len(keys))
		}
		for _, path := range keys {
			known := false
			for _, o := range slices.Concat(options, productions, chipSupplies, rates, structures, operations, heatOptions, openings, contracts) {
				known = known || covers(o.key, path)
			}
			for _, key := range notSimulated() {
				known = known || covers(key, path)
			}
			if !known {
				t.Errorf("%s: no test changes %s", name, path)
			}
		}
	}
}

// The starter file shows every key that a test changes, in place or in a
// comment.
func TestStarterShowsEveryKey(t *testing.T) {
	starter := starter(t)
	for _, o := range slices.Concat(options, productions, chipSupplies, rates, structures, operations, heatOptions, openings, contracts) {
		key := o.key[strings.LastIndex(o.key, ".")+1:]
		if !strings.Contains(starter, key+":") && strings.HasPrefix(o.key, "aeration.program.") {
			continue // entries in braces are not given the keys that they leave out
		}
		if !strings.Contains(starter, key+":") {
			t.Errorf("the starter file does not show %s", o.key)
		}
	}
}

// padByArea is the line that gives the pad by its volume.
var padByArea = regexp.MustCompile(`(?m)^  pad: .*\n`)

// otherAmounts are the lines that say how much comes in another way.
var otherAmounts = regexp.MustCompile(`(?m)^  (?:wet_per_day|(?:dry|wet)_(?:per_year|by_year|by_month)): .*\n`)

// builtIn is the line that names a built-in program.
var builtIn = regexp.MustCompile(`(?m)^  built_in: .*\n`)

// warmUp is the line of the warm-up.
var warmUp = regexp.MustCompile(`(?m)^warm_up: .*\n`)

// What the starter file shows in comments can be read as it stands, and is a
// plant that can run; only production, the pad and the program are then given twice, there is a warm-up
// beside what the plant begins with, and more vessels are built than there is room for.
func TestCommentsOfTheStarterAreSound(t *testing.T) {
	text := edited(t, uncommented(t), "room_for: 14", "room_for: 18")
	for _, line := range []*regexp.Regexp{otherAmounts, padByArea, builtIn, warmUp} {
		text = line.ReplaceAllString(text, "")
	}
	f, err := facilityfile.Parse("starter", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range f.Warnings {
		t.Error(w)
	}
	if len(f.Model.Changes) < 3 || f.Model.Yard.Trucks.Count == 0 || len(f.Model.Feedstocks) == 0 {
		t.Errorf("the comments were not read: %+v", f.Model)
	}
}
