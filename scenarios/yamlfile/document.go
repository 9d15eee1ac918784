package yamlfile

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"slices"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
)

// Document is a file that is well-formed YAML, and the complaints about it so
// far.
type Document struct {
	source source
	data   []byte // as read
	hash   string
	node   *yaml.Node
	root   *Map
	maps   map[*yaml.Node]*Map // one cursor to a node, however often asked for
	open   []*Map              // the same, in the order of asking
	money  tender
	found  []Diagnostic
}

// Parse reads a file's content; name is for messages. The error is an
// [*Problems] if the text is not YAML or not a group of keys. Parts of YAML
// that are refused, and repeated keys, are reported by Err with the rest.
func Parse(name string, data []byte) (*Document, error) {
	read := data
	hash := fmt.Sprintf("%x", sha256.Sum256(data))
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	src, err := newSource(name, data)
	if err != nil {
		return nil, err
	}
	node, err := compose(src, data)
	if err != nil {
		return nil, err
	}
	doc := &Document{source: src, data: read, hash: hash, node: node, maps: map[*yaml.Node]*Map{}, money: firstMoney(node, "", anywhere)}
	doc.checkStructure(node, 0)
	doc.root = doc.cursor(node, "", place(node))
	return doc, nil
}

// compose turns the text into the node of its one document.
func compose(src source, data []byte) (*yaml.Node, error) {
	refuse := func(p Position, message, hint string) error {
		return problems([]Diagnostic{src.at(p, Error, message, hint)})
	}
	loader, err := yaml.NewLoader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	var document, second yaml.Node
	switch err := loader.Load(&document); {
	case errors.Is(err, io.EOF):
		return nil, refuse(Position{1, 1}, "the file holds no keys", `write keys and values, one to a line, such as "name: Fennick Valley"`)
	case err != nil:
		return nil, syntaxProblems(src, err)
	}
	switch err := loader.Load(&second); {
	case err == nil:
		return nil, refuse(place(&second), "a second document begins here", `a file holds one; remove the line "---"`)
	case !errors.Is(err, io.EOF):
		return nil, syntaxProblems(src, err)
	}
	node := document.Content[0]
	if node.Kind != yaml.MappingNode {
		return nil, refuse(place(node), "the file is "+kindName(node)+", not a group of keys", `write keys and values, one to a line, such as "name: Fennick Valley"`)
	}
	return node, nil
}

// Root returns the cursor on the whole file.
func (d *Document) Root() *Map { return d.root }

// Hash returns the SHA-256 of the file's bytes, in hexadecimal.
func (d *Document) Hash() string { return d.hash }

// Data returns the file's bytes, not to be changed.
func (d *Document) Data() []byte { return d.data }

// Name returns the file's name as it was given.
func (d *Document) Name() string { return d.source.name }

// ErrorAt adds an error at a place, for checks that concern several keys.
func (d *Document) ErrorAt(p Position, message, hint string) {
	d.complain(p, Error, message, hint, "")
}

// WarnAt adds a warning at a place.
func (d *Document) WarnAt(p Position, message, hint string) {
	d.complain(p, Warning, message, hint, "")
}

// complain adds a diagnostic. What it says to write is in the file's currency; cause
// is what it has in common with others, if anything.
func (d *Document) complain(p Position, severity Severity, message, hint, cause string) {
	one := d.source.at(p, severity, message, units.InCurrency(hint, d.money.code))
	one.cause = cause
	d.found = append(d.found, one)
}

// takeBack removes the errors at a place.
func (d *Document) takeBack(p Position) {
	d.found = slices.DeleteFunc(d.found, func(one Diagnostic) bool {
		return one.Severity == Error && one.Line == p.Line && one.Column == p.Column
	})
}

// Err calls Done for every cursor and returns what is wrong with the file: nil
// or an [*Problems]. Warnings do not count.
func (d *Document) Err() error {
	for _, m := range d.open {
		m.Done()
	}
	return problems(d.only(Error))
}

// Diagnostics returns all complaints so far in order of position, those of one
// cause once.
func (d *Document) Diagnostics() []Diagnostic {
	sortByPosition(d.found)
	return onceEach(d.found)
}

// Warnings returns the warnings so far in order of position.
func (d *Document) Warnings() []Diagnostic { return d.only(Warning) }

func (d *Document) only(severity Severity) []Diagnostic {
	var list []Diagnostic
	for _, one := range d.Diagnostics() {
		if one.Severity == severity {
			list = append(list, one)
		}
	}
	return list
}

// place returns where a node begins.
func place(n *yaml.Node) Position { return Position{n.Line, n.Column} }

// kindName says what a node is, for messages.
func kindName(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "a group of keys"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Tag == "!!null":
		return "nothing"
	}
	return "a single value"
}
