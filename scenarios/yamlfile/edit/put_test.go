package edit

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const plant = "\uFEFF# A plant\r\nname: Mill   # a name\r\nvessels:\r\n  installed: 3 # now\r\nhours: {mon: [07:00-15:30], tue: [07:00-12:00]}\r\nsteps:\r\n  - {name: a, cost: \"1,000 USD\"}\r\nnotes: [one, two]\r\n"

// What a person types stands in the place of the old value, in quotation marks where
// YAML needs them, and every other byte stays.
func TestPut(t *testing.T) {
	for _, c := range []struct{ path, typed, was, is string }{
		{"name", "Other", "name: Mill ", "name: Other "},
		{"name", "a: b # c", "name: Mill ", `name: "a: b # c" `},
		{"name", `say "it"\`, "name: Mill ", `name: say "it"\ `},
		{"name", "two\nlines: 3", "name: Mill ", `name: "two\nlines: 3" `},
		{"vessels.installed", "much", "installed: 3 ", "installed: much "},
		{"steps[1].cost", "2,500 USD", `"1,000 USD"`, `"2,500 USD"`},
		{"hours", "{mon: [06:00-18:00]}", "{mon: [07:00-15:30], tue: [07:00-12:00]}", "{mon: [06:00-18:00]}"},
		{"hours.tue", "[08:00-12:00]", "tue: [07:00-12:00]", "tue: [08:00-12:00]"},
		{"notes", "[three]", "[one, two]", "[three]"},
		{"vessels.room_for", "5", "  installed", "  room_for: 5\n  installed"},
	} {
		got, err := Put([]byte(plant), c.path, c.typed)
		if want := strings.Replace(plant, c.was, c.is, 1); err != nil || string(got) != want {
			t.Errorf("%s: %s: %v, got\n%q\nwant\n%q", c.path, c.typed, err, got, want)
		}
	}
}

// What would reach other keys is refused.
func TestPutRefuses(t *testing.T) {
	for _, c := range []struct{ path, typed string }{
		{"name", ""}, {"hours", "{mon: [1]}, more: {a: 1}"}, {"hours", "{mon: [07:00-15:30]"}, {"nothing[1].x", "1"}, {"vessels", "4"},
	} {
		if got, err := Put([]byte(plant), c.path, c.typed); err == nil {
			t.Errorf("%s: %q was taken:\n%s", c.path, c.typed, got)
		}
	}
}

// Whatever is typed, it is either refused or reads back as it was typed, and no other
// key has another value.
func TestPutReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z0-9:#,{}\[\]"'&*!|>%@ \\-]{1,12}`)).Draw(t, "typed")
		path := rapid.SampledFrom([]string{"name", "vessels.installed", "steps[1].cost", "hours.mon", "notes"}).Draw(t, "path")
		got, err := Put([]byte(plant), path, typed)
		if err != nil {
			return
		}
		before, _ := values(strings.TrimPrefix(plant, byteOrderMark))
		after, err := values(strings.TrimPrefix(string(got), byteOrderMark))
		if err != nil {
			t.Fatal(err)
		}
		if !onlyAt(path, strings.TrimSpace(typed), before, after) {
			t.Fatalf("%q at %s gives\n%s", typed, path, got)
		}
		for _, kept := range []string{"# A plant\r\n", "# a name\r\n", "# now\r\n"} {
			if !strings.Contains(string(got), kept) {
				t.Fatalf("%q at %s loses %q", typed, path, kept)
			}
		}
	})
}

// A value is found as it stands, that of a group in its braces.
func TestRaw(t *testing.T) {
	for path, want := range map[string]string{
		"name": "Mill", "steps[1].cost": "1,000 USD", "hours": "{mon: [07:00-15:30], tue: [07:00-12:00]}", "hours.mon": "[07:00-15:30]", "notes": "[one, two]",
		"vessels": "", "steps": "", "yard.trucks": "", "vessels.room_for": "",
	} {
		if got, ok := Raw([]byte(plant), path); got != want || ok != (want != "") {
			t.Errorf("%s is %q (%t), want %q", path, got, ok, want)
		}
	}
}
