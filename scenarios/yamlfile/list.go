package yamlfile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
)

// Map returns a cursor on the group of keys under a key that must be there.
func (m *Map) Map(key string) *Map { return m.group(key, m.need(key, "")) }

// MapIf is Map for an optional key: ask the result whether it is Present.
func (m *Map) MapIf(key string) *Map { return m.group(key, m.ask(key)) }

// MapInstead is MapIf for a group in whose place a single value is sometimes written:
// instead says what to write for its text.
func (m *Map) MapInstead(key string, instead func(text string) string) *Map {
	e := m.ask(key)
	if e == nil || e.value.Kind != yaml.ScalarNode || e.value.Tag == "!!null" {
		return m.group(key, e)
	}
	return m.misplaced(key, e, instead(e.value.Value))
}

func (m *Map) group(key string, e *entry) *Map {
	if e == nil {
		return &Map{doc: m.doc, path: m.name(key), at: m.at, absent: true, done: true}
	}
	if e.value.Kind != yaml.MappingNode {
		return m.misplaced(key, e, "write its keys on the lines below, indented")
	}
	return m.doc.cursor(e.value, m.name(key), place(e.key))
}

// misplaced reports what stands where a group is needed, and returns one without keys.
func (m *Map) misplaced(key string, e *entry, hint string) *Map {
	m.mismatch(e, m.name(key), e.value, "a group of keys", hint)
	return &Map{doc: m.doc, path: m.name(key), at: place(e.value), absent: true, done: true}
}

// List returns a cursor on each entry of a list of groups under a key that
// must be there and have at least one entry.
func (m *Map) List(key string) []*Map {
	e := m.need(key, "")
	if e != nil && e.value.Kind == yaml.SequenceNode && len(e.value.Content) == 0 {
		m.Error(key, "the list is empty", "write at least one entry")
		return nil
	}
	return m.groups(key, e)
}

// ListIf is List for an optional key; the list may be empty.
func (m *Map) ListIf(key string) []*Map { return m.groups(key, m.ask(key)) }

func (m *Map) groups(key string, e *entry) []*Map {
	var list []*Map
	for i, n := range m.items(key, e) {
		name := fmt.Sprintf("%s[%d]", m.name(key), i+1)
		if n.Kind != yaml.MappingNode {
			m.mismatch(e, name, n, "a group of keys", `write "- key: value"`)
			continue
		}
		list = append(list, m.doc.cursor(n, name, place(n)))
	}
	return list
}

// mismatch reports a node that is not of the kind that is needed. An alias was
// reported by checkStructure.
func (m *Map) mismatch(e *entry, name string, n *yaml.Node, needed, hint string) {
	e.bad = true
	if n.Kind != yaml.AliasNode {
		m.doc.ErrorAt(place(n), name+": "+kindName(n)+" stands where "+needed+" is needed", hint)
	}
}

// items returns the nodes of the list under an entry.
func (m *Map) items(key string, e *entry) []*yaml.Node {
	if e == nil {
		return nil
	}
	if e.value.Kind != yaml.SequenceNode {
		m.mismatch(e, m.name(key), e.value, "a list", "write each entry on its own line after a hyphen")
		return nil
	}
	return e.value.Content
}

// Texts reads a list of texts; it is nil if the key is absent.
func (m *Map) Texts(key string) []string { return listOf(m, key, anyText) }

// Quantities reads a list of quantities of one dimension; it is nil if the key
// is absent.
func (m *Map) Quantities(key string, dim units.Dimension, checks ...Check) []float64 {
	e := m.ask(key)
	return m.quantities(key, e, m.items(key, e), dim, checks)
}

// quantities reads nodes as quantities. It returns nil if one is at fault, so
// that no value takes the place of another.
func (m *Map) quantities(key string, e *entry, nodes []*yaml.Node, dim units.Dimension, checks []Check) []float64 {
	var list []float64
	for i, n := range nodes {
		name := fmt.Sprintf("%s[%d]", m.name(key), i+1)
		if hint := splitByComma(e.value, i); hint != "" && !dim.Bare() {
			e.bad = true
			m.doc.ErrorAt(place(n), name+": "+quote(n.Value)+" has no unit", hint)
			continue
		}
		if x, ok := single(m, e, name, n, m.doc.quantity(dim, checks)); ok {
			m.check(e, name, n, x, dim, checks)
			list = append(list, x)
		}
	}
	if len(list) < len(nodes) {
		return nil
	}
	return list
}

// splitByComma returns a hint if entry i of a list in brackets looks like the
// front of a number that its comma has cut: [1,100 lb/yd3].
func splitByComma(list *yaml.Node, i int) string {
	if list.Style&yaml.FlowStyle == 0 || i+1 >= len(list.Content) {
		return ""
	}
	front, back := list.Content[i].Value, list.Content[i+1].Value
	digits := strings.TrimLeft(back, "0123456789")
	if front == "" || strings.Trim(front, "0123456789") != "" || len(back)-len(digits) != 3 {
		return ""
	}
	return "inside [ ] a comma ends an entry: put a number with a comma in quotes"
}

// listOf reads the list under an optional key, or returns nil if an entry is
// at fault.
func listOf[T any](m *Map, key string, read reader[T]) []T {
	e := m.ask(key)
	nodes := m.items(key, e)
	var list []T
	for i, n := range nodes {
		if x, ok := single(m, e, fmt.Sprintf("%s[%d]", m.name(key), i+1), n, read); ok {
			list = append(list, x)
		}
	}
	if len(list) < len(nodes) {
		return nil
	}
	return list
}
