package facilityfile

import (
	"bytes"
	"encoding/json"
	"strings"

	"loamcast/scenarios/units"
)

// JSONSchema describes the file for editors: a JSON Schema, draft 2020-12, with
// ranges, defaults and sources in its descriptions, in a system of units.
//
// It is no wider than an editor can use and no narrower than the reader: what the
// reader takes satisfies it, while ranges of quantities with a unit, and what
// several keys have to do with each other, are left to the reader.
func JSONSchema(system units.System) []byte {
	root := keyTree()
	w := schemaWriter{system}
	whole := append(object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "Loamcast facility file"},
	}, w.group(root)...)
	data, err := json.Marshal(append(whole, member{"$defs", w.definitions()}))
	if err != nil {
		panic("facilityfile: schema: " + err.Error()) // it holds texts and numbers of our own
	}
	var out bytes.Buffer
	json.Indent(&out, data, "", "  ")
	out.WriteByte('\n')
	return out.Bytes()
}

// object is a JSON object whose members keep their order.
type object []member

type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		for j, part := range []any{m.name, m.value} {
			if j > 0 {
				b.WriteByte(':')
			}
			e := json.NewEncoder(&b)
			e.SetEscapeHTML(false)
			if err := e.Encode(part); err != nil {
				return nil, err
			}
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// node is a key with those of its group; the root stands for the file.
type node struct {
	name    string
	key     Key
	members []*node
}

// keyTree returns all keys that a file may have.
func keyTree() *node {
	root := &node{}
	for _, k := range Keys() {
		if k.Kind != Unwritten {
			root.grow(k)
		}
	}
	return root
}

// grow puts a key where its path says; its group is there already.
func (n *node) grow(k Key) {
	at := n
	groups := strings.Split(strings.ReplaceAll(k.Path, "[]", ""), ".")
	for _, name := range groups[:len(groups)-1] {
		at = at.member(name)
	}
	at.members = append(at.members, &node{name: groups[len(groups)-1], key: k})
}

func (n *node) member(name string) *node {
	for _, m := range n.members {
		if m.name == name {
			return m
		}
	}
	panic("facilityfile: schema: a key before its group " + name) // see TestKeysAreComplete
}
