package yamlfile

import (
	"go.yaml.in/yaml/v4"
)

// Lines returns the lines on which the value of a key begins and ends, from 1; 0
// and 0 if the key is absent. The bracket that closes a list or group on a line of
// its own does not count.
func (m *Map) Lines(key string) (first, last int) {
	e := m.ask(key)
	if e == nil {
		return 0, 0
	}
	return e.value.Line, lastLine(e.value)
}

func lastLine(n *yaml.Node) int {
	last := n.Line
	for _, child := range n.Content {
		last = max(last, lastLine(child))
	}
	return last
}

// Indented reports whether the value of a key is a group or a list that stands on
// the lines below it, and not in brackets.
func (m *Map) Indented(key string) bool {
	e := m.ask(key)
	return e != nil && e.value.Kind != yaml.ScalarNode && e.value.Style&yaml.FlowStyle == 0
}

// InBraces reports whether the group itself is written in braces.
func (m *Map) InBraces() bool { return m.flow }

// Start returns where the first key of the group stands; of an empty group or one
// that is absent, what Position returns.
func (m *Map) Start() Position {
	if len(m.entries) == 0 {
		return m.at
	}
	return place(m.entries[0].key)
}
