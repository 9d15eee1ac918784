package yamlfile

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units/spelling"
)

// Map is a cursor on one group of keys. Its reading methods return a zero
// value when something is wrong, and leave the complaint with the document;
// ask Good before using values together. The names of the methods follow one
// rule: Xxx needs the key to be there, XxxOr takes a default.
//
// A cursor on a group that is absent answers every question with a zero value
// or the default, and complains of nothing.
type Map struct {
	doc     *Document
	path    string
	at      Position // of the key that names the group, or of the group itself
	flow    bool     // written in braces
	absent  bool
	done    bool
	entries []*entry
	byKey   map[string]*entry
	asked   []string
	missing []missing
}

type entry struct {
	key, value *yaml.Node
	asked      bool
	bad        bool
}

// missing is a key that was needed and not found.
// Its example is empty if its value is a group or a list.
type missing struct{ key, example string }

func (x missing) hint() string {
	if x.example == "" {
		return `add the line "` + x.key + `:" with its content indented below`
	}
	example, _, _ := strings.Cut(x.example, " or ")
	return `add a line such as "` + x.key + ": " + example + `"`
}

// cursor returns the cursor on a mapping node, the same for the same node. Keys
// that checkStructure has complained of are left out.
func (d *Document) cursor(n *yaml.Node, path string, at Position) *Map {
	if m := d.maps[n]; m != nil {
		return m
	}
	m := &Map{doc: d, path: path, at: at, flow: n.Style&yaml.FlowStyle != 0, byKey: map[string]*entry{}}
	for i := 0; i < len(n.Content); i += 2 {
		e := &entry{key: n.Content[i], value: n.Content[i+1]}
		if isWord(e.key) && m.byKey[e.key.Value] == nil {
			m.entries = append(m.entries, e)
			m.byKey[e.key.Value] = e
		}
	}
	d.maps[n] = m
	d.open = append(d.open, m)
	return m
}

// Present reports whether the group is in the file.
func (m *Map) Present() bool { return !m.absent }

// Empty reports whether the group is in the file and has no key.
func (m *Map) Empty() bool { return !m.absent && len(m.entries) == 0 }

// Path returns how messages name the group, such as "vessels[2]" for the
// second entry of a list; it is empty for the root.
func (m *Map) Path() string { return m.path }

// Position returns where the group's own key stands; for an entry of a list
// and for the root, where the group begins.
func (m *Map) Position() Position { return m.at }

// Pos returns where the value of a key stands, or the place of the group if
// the key is absent.
func (m *Map) Pos(key string) Position {
	if e := m.byKey[key]; e != nil {
		return place(e.value)
	}
	return m.at
}

// ItemPos returns where entry i, from 0, of the list under a key stands, or
// what Pos returns if there is no such entry.
func (m *Map) ItemPos(key string, i int) Position {
	if e := m.byKey[key]; e != nil && e.value.Kind == yaml.SequenceNode && i >= 0 && i < len(e.value.Content) {
		return place(e.value.Content[i])
	}
	return m.Pos(key)
}

// Has reports whether a key is in the group, and makes it a known key.
func (m *Map) Has(key string) bool { return m.ask(key) != nil }

// IsMap reports whether the value of a key is a group of keys.
func (m *Map) IsMap(key string) bool { return m.isKind(key, yaml.MappingNode) }

// IsList reports whether the value of a key is a list.
func (m *Map) IsList(key string) bool { return m.isKind(key, yaml.SequenceNode) }

func (m *Map) isKind(key string, kind yaml.Kind) bool {
	e := m.ask(key)
	return e != nil && e.value.Kind == kind
}

// Is reports whether the value of a key is this very word, where a word stands
// for what is otherwise a quantity.
func (m *Map) Is(key, word string) bool {
	return m.isKind(key, yaml.ScalarNode) && m.byKey[key].value.Value == word
}

// Names returns all keys of the group in the order of the file and makes them
// known keys, for groups whose keys are names that the user chooses.
func (m *Map) Names() []string {
	names := make([]string, 0, len(m.entries))
	for _, e := range m.entries {
		names = append(names, e.key.Value)
		m.ask(e.key.Value)
	}
	return names
}

// Good reports whether none of the keys has been complained of: each was read,
// or is optional and absent. A check that concerns several values asks this
// first.
func (m *Map) Good(keys ...string) bool {
	for _, key := range keys {
		if e := m.byKey[key]; e != nil && e.bad {
			return false
		}
		if slices.ContainsFunc(m.missing, func(x missing) bool { return x.key == key }) {
			return false
		}
	}
	return true
}

// Error adds an error at the value of a key.
func (m *Map) Error(key, message, hint string) {
	if e := m.byKey[key]; e != nil {
		e.bad = true
	}
	m.doc.ErrorAt(m.Pos(key), m.name(key)+": "+message, hint)
}

// Warn adds a warning at the value of a key.
func (m *Map) Warn(key, message, hint string) {
	m.doc.WarnAt(m.Pos(key), m.name(key)+": "+message, hint)
}

// Done reports the keys that were needed and are not there, and the keys that
// nobody asked for. [Document.Err] calls it for every cursor; a second call
// does nothing.
func (m *Map) Done() {
	if m.done {
		return
	}
	m.done = true
	for _, e := range m.entries {
		if !e.asked {
			m.unknown(e)
		}
	}
	for _, x := range m.missing {
		group := m.path
		if group == "" {
			group = "the file"
		}
		m.doc.ErrorAt(m.at, group+" needs the key "+quote(x.key), x.hint())
	}
}

// unknown reports a key that nobody asked for. If it is nearly a key that was
// needed and is missing, it was meant to be that, and one complaint is enough.
func (m *Map) unknown(e *entry) {
	name := e.key.Value
	if m.flow && name[0] >= '0' && name[0] <= '9' {
		m.doc.ErrorAt(place(e.key), m.name(quote(name))+" is not a key",
			"inside { } a comma ends a value: put a number with a comma in quotes")
		m.spare(e)
		return
	}
	near, ok := spelling.Nearest(name, m.unused())
	if !ok {
		near, ok = spelling.Nearest(name, m.asked)
	}
	hint := "known here: " + strings.Join(m.asked, ", ")
	switch {
	case ok:
		hint = "did you mean " + near + "?"
		m.missing = slices.DeleteFunc(m.missing, func(x missing) bool { return x.key == near })
	case len(m.asked) == 0:
		hint = "no key is known here; remove it"
	}
	m.doc.ErrorAt(place(e.key), m.name(name)+" is not a known key", hint)
}

// spare takes back what was said of the value before an entry: the mistake is the
// entry's.
func (m *Map) spare(e *entry) {
	if i := slices.Index(m.entries, e); i > 0 {
		m.doc.takeBack(place(m.entries[i-1].value))
	}
}

// Strange reports whether the group has a key that nobody has asked for yet.
func (m *Map) Strange() bool {
	return slices.ContainsFunc(m.entries, func(e *entry) bool { return !e.asked })
}

// unused returns the known keys that are not in the group.
func (m *Map) unused() []string {
	var keys []string
	for _, key := range m.asked {
		if m.byKey[key] == nil {
			keys = append(keys, key)
		}
	}
	return keys
}

// name returns a key as messages name it.
func (m *Map) name(key string) string {
	if m.path == "" {
		return key
	}
	return m.path + "." + key
}

// ask makes key a known key and returns its entry, or nil.
func (m *Map) ask(key string) *entry {
	e := m.byKey[key]
	switch {
	case e != nil && e.asked:
		return e
	case e != nil:
		e.asked = true
	}
	if !slices.Contains(m.asked, key) {
		m.asked = append(m.asked, key)
	}
	return e
}

// need is ask for a key that must be there; example is what to write.
func (m *Map) need(key, example string) *entry {
	e := m.ask(key)
	if e == nil && !m.absent && m.Good(key) {
		m.missing = append(m.missing, missing{key, example})
	}
	return e
}
