package simulate_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// notSimulated holds the keys that move no record, and what they are for.
// What begins with one of them belongs to it. Those of planning are shown to
// count in package facilityfile.
var notSimulated = map[string]string{
	"format":                "the version of the file's format",
	"name":                  "on every report",
	"units":                 "how results are shown",
	"replications":          "how many records there are",
	"criteria.name":         "in messages",
	"aeration.program.name": "in messages",
	"vessels.room_for":      "bounds the additions when the file is read",
	"chips.store":           "bounds order_up_to when the file is read",
	"chips.price":           "for the design of a mix, and for costs",
	"vessels.lead_time":     "when a vessel must be ordered",
	"target":                "by what a year is judged",
	"growth_scenarios":      "for the planning answers; a run grows as solids.growth says",
	"uncertain":             "for the planning answers; a run keeps the file's values",
	"correlations":          "for the planning answers, with uncertain",
	"money":                 "what a record costs",
	"options":               "for the planning answers; a run makes the file's changes alone",
	"catalogue":             "for the planning answers",
	"changes.cost":          "what a change costs",
	"changes.life":          "what a change costs",
	"changes.salvage":       "what a change costs",
	"changes.upkeep":        "what a change costs",
	"changes.running":       "what a change costs",
	"mix.targets":           "for the design of a mix",
	"materials":             "for the design of a mix",
	"feedstocks.name":       "in messages",
	"changes.name":          "in messages",
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

// uncommented returns the starter file with the keys that it shows in comments.
func uncommented() string {
	return comment.ReplaceAllString(string(examples.Data(examples.Demo)), "$1$2")
}

// Every key of the starter file, shown in comments or not, and of the files of
// the tests is changed by TestEveryOptionMatters or TestEveryOperationMatters,
// but for those that are not simulated and are named here.
func TestNoKeyIsForgotten(t *testing.T) {
	for name, text := range map[string]string{"small": readSmall(t), "yard": readText(t, yardFile), "starter": uncommented()} {
		keys := keysOf(t, text)
		if len(keys) < 60 {
			t.Fatalf("%s: only %d keys were found", name, len(keys))
		}
		for _, path := range keys {
			known := false
			for _, o := range slices.Concat(options, operations) {
				known = known || covers(o.key, path)
			}
			for key := range notSimulated {
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
	starter := string(examples.Data(examples.Demo))
	for _, o := range slices.Concat(options, operations) {
		key := o.key[strings.LastIndex(o.key, ".")+1:]
		if !strings.Contains(starter, key+":") {
			t.Errorf("the starter file does not show %s", o.key)
		}
	}
}

// What the starter file shows in comments can be read as it stands, and is a
// plant that can run; only the pad is then given twice, and more vessels are
// built than there is room for.
func TestCommentsOfTheStarterAreSound(t *testing.T) {
	text := edited(t, uncommented(), "\n  pad: 1,250 yd3", "", "room_for: 14", "room_for: 18")
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
