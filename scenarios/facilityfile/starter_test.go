package facilityfile_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// A starter file says what its example says: comments alone are added. It shows
// every key that does not belong to a list, and what each is.
func TestStarter(t *testing.T) {
	for _, name := range examples.Names() {
		text, err := facilityfile.Starter(examples.Data(name), "plant.schema.json", units.US)
		if err != nil {
			t.Fatal(err)
		}
		got, err := facilityfile.Parse("plant.yaml", text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want, err := facilityfile.Parse("plant.yaml", examples.Data(name))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got.Model, want.Model) || !reflect.DeepEqual(got.Mix, want.Mix) || !reflect.DeepEqual(got.Planning.Economy, want.Planning.Economy) ||
			!reflect.DeepEqual(got.Planning.Options, want.Planning.Options) || got.Name != want.Name {
			t.Errorf("%s: the starter file is another plant", name)
		}
		if err := compiled(t, units.US).Validate(asEditor(t, string(text))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if first, _, _ := strings.Cut(string(text), "\n"); first != "# yaml-language-server: $schema=plant.schema.json" {
			t.Errorf("%s: the first line is %q", name, first)
		}
		for _, k := range facilityfile.Keys() {
			leaf := k.Path[strings.LastIndexByte(k.Path, '.')+1:]
			weekday := k.Kind == facilityfile.Shifts
			if k.Kind == facilityfile.Unwritten || k.Kind == facilityfile.List || strings.Contains(k.Path, "[]") || strings.HasPrefix(k.Path, "solids.growth.") || weekday {
				continue
			}
			if !strings.Contains(string(text), leaf+":") && !furtherKey(string(text), leaf) {
				t.Errorf("%s: %s is not shown", name, k.Path)
			}
		}
	}
}

// furtherKey reports whether a comment names a key that a group in braces leaves out.
func furtherKey(text, key string) bool {
	for line := range strings.Lines(text) {
		if _, list, found := strings.Cut(strings.TrimRight(line, ".\n"), "; further keys: "); found && slices.Contains(strings.Split(list, ", "), key) {
			return true
		}
	}
	return false
}

// What may be uncertain is listed in the starter file, as it is in the table.
func TestStarterListsInputs(t *testing.T) {
	text, err := facilityfile.Starter(examples.Data(examples.Demo), "plant.schema.json", units.US)
	if err != nil {
		t.Fatal(err)
	}
	_, list, found := strings.Cut(string(text), "# Inputs:\n")
	list, _, _ = strings.Cut(list, "\nuncertain:\n")
	words := strings.FieldsFunc(list, func(r rune) bool { return strings.ContainsRune(" #,:\n", r) })
	for _, k := range facilityfile.Keys() {
		shown := false
		for _, word := range words {
			shown = shown || word == k.Path
		}
		if shown != (k.Uncertain != nil) || !found {
			t.Errorf("%s: shown %v", k.Path, shown)
		}
	}
}

// Bad YAML is an error, not a file.
func TestStarterOfNothing(t *testing.T) {
	if text, err := facilityfile.Starter([]byte("a: [1"), "x", units.SI); err == nil || text != nil {
		t.Errorf("%q, %v", text, err)
	}
}
