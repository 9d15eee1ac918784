package edit

import (
	"strings"
	"testing"
)

// Each way in which a value may stand is replaced, or added where it is absent, and
// nothing else changes.
func TestSet(t *testing.T) {
	const text = `name: Haug's plant   # a name
vessels:
  installed: 3 # now
  additions: [{date: 2029-07-01, count: 4}]
options:
  - name: "one, two"
    steps:
      - {name: a, cost: "1,000 USD", salvage: 5 %}
      - name: b
`
	for _, c := range []struct{ path, value, want string }{
		{"name", "Other", "name: Other   # a name\n"},
		{"vessels.installed", "4", "  installed: 4 # now\n"},
		{"vessels.additions", "[]", "  additions: []\n"},
		{"vessels.additions[1].count", "5", "[{date: 2029-07-01, count: 5}]"},
		{"vessels.additions[1].cost", "5 USD", "[{cost: 5 USD, date: 2029-07-01, count: 4}]"},
		{"vessels.room_for", "6", "vessels:\n  room_for: 6\n  installed"},
		{"options[1].name", "x", "  - name: x\n"},
		{"options[1].steps[1].cost", "2 USD", "{name: a, cost: 2 USD, salvage: 5 %}"},
		{"options[1].steps[1].salvage", "6 %", "salvage: 6 %}\n"},
		{"options[1].steps[2].life", "9 year", "      - life: 9 year\n        name: b\n"},
		{"yard.trucks", "2", "yard: {trucks: 2}\nname: Haug's"},
		{"curing.aeration.setpoint", "45 °C", "curing: {aeration: {setpoint: 45 °C}}\nname"},
	} {
		got, err := Set(text, c.path, c.value)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
		}
		if !strings.Contains(got, c.want) || len(got)-len(text) > len(c.want) {
			t.Errorf("%s: got\n%s\nwithout %q", c.path, got, c.want)
		}
	}
	for _, path := range []string{"options[2].name", "name.first", "vessels.installed[1]", "options[1].steps[3].cost", "a..", "vessels"} {
		if got, err := Set(text, path, "1"); err == nil {
			t.Errorf("%s was set: %s", path, got)
		}
	}
}
