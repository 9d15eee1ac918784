package yamlfile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Written is a value as it stands in a document, a list of single values as one.
type Written struct {
	Path string // as messages have it: "changes[2].cost" is of the second entry
	Line int
	Text string // without quotes
}

// Written returns the values of a document in their order.
func (d *Document) Written() []Written {
	var list []Written
	var add func(path string, n *yaml.Node)
	add = func(path string, n *yaml.Node) {
		switch {
		case n.Kind == yaml.MappingNode:
			for i := 0; i < len(n.Content); i += 2 {
				key := n.Content[i].Value
				if path != "" {
					key = path + "." + key
				}
				add(key, n.Content[i+1])
			}
		case n.Kind == yaml.SequenceNode && holdsGroups(n):
			for i, item := range n.Content {
				add(fmt.Sprintf("%s[%d]", path, i+1), item)
			}
		default:
			list = append(list, Written{path, n.Line, flat(n)})
		}
	}
	add("", d.node)
	return list
}

// holdsGroups reports whether a list has entries of several values.
func holdsGroups(n *yaml.Node) bool {
	for _, item := range n.Content {
		if item.Kind == yaml.MappingNode {
			return true
		}
	}
	return false
}

// flat writes a value, or a list of values, on a line.
func flat(n *yaml.Node) string {
	if n.Kind != yaml.SequenceNode {
		return n.Value
	}
	items := make([]string, len(n.Content))
	for i, item := range n.Content {
		items[i] = flat(item)
	}
	return "[" + strings.Join(items, ", ") + "]"
}
