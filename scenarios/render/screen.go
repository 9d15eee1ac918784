package render

import (
	"bytes"
	"io"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// Screen is the room for a document on a terminal. Tables that are wider are folded:
// their last columns stand below the first, with the words that say what a row is of.
type Screen struct {
	Columns, Lines int
}

// Usual is a terminal of usual size, without its last two columns. It is what files of
// text are written for.
var Usual = Screen{Columns: 98, Lines: 40}

// Columns that a screen may have: fewer are folded into strips, and lines that are longer
// are hard to read.
const (
	fewestColumns = 58
	mostColumns   = 118
)

// OfTerminal is the screen of a terminal with so many columns.
func OfTerminal(columns int) Screen {
	s := Usual
	s.Columns = min(max(columns-2, fewestColumns), mostColumns)
	return s
}

// Text writes a document for the usual screen.
func Text(w io.Writer, d *document.Document, sys units.System) error { return Usual.Text(w, d, sys) }

// Text writes a document for a screen: the headline first, then its blocks.
// Where it is longer than the screen, rows and paragraphs are left out by rank, and
// the empty lines go at last; but nothing of a sheet.
func (s Screen) Text(w io.Writer, d *document.Document, sys units.System) error {
	var b bytes.Buffer
	for _, line := range s.lines(d, sys) {
		b.WriteString(line + "\n")
	}
	_, err := w.Write(b.Bytes())
	return err
}
