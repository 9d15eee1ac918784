package yamlfile

import (
	"fmt"

	"go.yaml.in/yaml/v4"
)

// maxDepth is how deep groups and lists may be nested; a real file needs five.
const maxDepth = 16

// checkStructure reports the parts of YAML that are refused, and keys that are
// there twice. An alias is never followed, so a file cannot grow by them.
func (d *Document) checkStructure(n *yaml.Node, depth int) {
	switch {
	case depth > maxDepth:
		d.ErrorAt(place(n), fmt.Sprintf("groups are nested more than %d deep", maxDepth), "close a bracket, or check the indentation")
		return
	case n.Kind == yaml.AliasNode:
		d.ErrorAt(place(n), "an alias (*"+n.Value+") is not read here", "write the value out")
		return
	case n.Anchor != "":
		d.ErrorAt(place(n), "an anchor (&"+n.Anchor+") is not read here", "leave it out")
	case n.Style&yaml.TaggedStyle != 0:
		d.ErrorAt(place(n), "a tag ("+n.Tag+") is not read here", "leave it out")
	}
	if n.Kind == yaml.MappingNode {
		d.checkKeys(n)
	}
	for _, child := range n.Content {
		d.checkStructure(child, depth+1)
	}
}

// isWord reports whether a node can be a key.
func isWord(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Value != "" && n.Tag != "!!merge"
}

// checkKeys reports keys that are not plain text, and keys that are repeated.
func (d *Document) checkKeys(n *yaml.Node) {
	first := make(map[string]int, len(n.Content)/2)
	for i := 0; i < len(n.Content); i += 2 {
		key := n.Content[i]
		switch line, repeated := first[key.Value]; {
		case key.Kind == yaml.AliasNode:
			// reported as an alias
		case key.Tag == "!!merge":
			d.ErrorAt(place(key), "a merge key (<<) is not read here", "write the keys out")
		case !isWord(key):
			d.ErrorAt(place(key), "a key must be a word", `write "key: value"`)
		case repeated:
			d.ErrorAt(place(key), "the key "+quote(key.Value)+" is there twice",
				fmt.Sprintf("it is already on line %d; remove one of them", line))
		default:
			first[key.Value] = key.Line
		}
	}
}
