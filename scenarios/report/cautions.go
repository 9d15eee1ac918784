package report

import (
	"fmt"
	"io"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
)

// cautionsFile is the name under which Files gives the cautions in full.
const cautionsFile = "cautions.txt"

// Cautions writes every caution with its source, wrapped for reading. They
// quote their sources in both systems of units.
func Cautions(w io.Writer, a *simulate.Answer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Cautions that go with the figures for %s\n", printable(a.Facility))
	for i, c := range answer.Cautions() {
		b.WriteByte('\n')
		label := fmt.Sprintf("%2d. ", i+1)
		for _, line := range wrap(c.Text, label, "    ") {
			b.WriteString(line + "\n")
		}
		for _, line := range wrap("Source: "+c.Source+".", "    ", "    ") {
			b.WriteString(line + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
