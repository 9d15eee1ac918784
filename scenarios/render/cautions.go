package render

import (
	"fmt"
	"io"
	"strings"

	"loamcast/scenarios/document"
)

// cautionsFile is the name under which Files gives the cautions in full.
const cautionsFile = "cautions.txt"

// Cautions writes every caution with its source, wrapped for reading. They
// quote their sources in both systems of units.
func Cautions(w io.Writer, d *document.Document) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Cautions that go with the figures for %s\n", document.Printable(d.Basis.Facility))
	for i, c := range d.Cautions {
		b.WriteByte('\n')
		label := fmt.Sprintf("%2d. ", i+1)
		for _, line := range Usual.Wrap(c.Text, label, "    ") {
			b.WriteString(line + "\n")
		}
		for _, line := range Usual.Wrap("Source: "+c.Source+".", "    ", "    ") {
			b.WriteString(line + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
