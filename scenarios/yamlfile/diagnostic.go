package yamlfile

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Position is a place in a file: line and column, both from 1, the column in
// characters.
type Position struct {
	Line, Column int
}

// Severity says whether a diagnostic stops the program.
type Severity int

// The severities.
const (
	Error   Severity = iota // the file cannot be used
	Warning                 // the file can be used, but look here
)

// String returns the word that messages use.
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// Diagnostic is one complaint about a file.
type Diagnostic struct {
	File     string
	Line     int // from 1
	Column   int // from 1, in characters
	Severity Severity
	Message  string // what is wrong
	Hint     string // what would be right; may be empty
	Source   string // the line complained of; may be empty

	cause string // that it has in common with others, told once for all; may be empty
	more  int    // how many others
}

// shownWidth is how many characters of a source line are shown at most.
const shownWidth = 100

// String writes the diagnostic with its source line, a caret under the column,
// and the hint. It does not end in a line feed.
func (d Diagnostic) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: %s: %s", d.File, d.Line, d.Column, d.Severity, d.Message)
	if d.Source != "" {
		text, caret := excerpt(d.Source, d.Column)
		fmt.Fprintf(&b, "\n%6d | %s\n%6s | %s^", d.Line, text, "", caret)
	}
	if d.Hint != "" {
		fmt.Fprintf(&b, "\n%8s %s", "", d.Hint)
	}
	return b.String()
}

// excerpt returns the part of a line around a column, fit for a terminal, and
// the blanks that put a caret under the column.
func excerpt(line string, column int) (text, blanks string) {
	runes := []rune(line)
	at := min(max(column-1, 0), len(runes))
	from := 0
	if at >= shownWidth {
		from = at - shownWidth/2
	}
	to := min(from+shownWidth, len(runes))
	text = strings.Map(printable, string(runes[from:to]))
	blanks = strings.Map(blank, string(runes[from:at]))
	if from > 0 {
		text, blanks = "..."+text, "   "+blanks
	}
	if to < len(runes) {
		text += "..."
	}
	return text, blanks
}

// printable keeps control characters of a damaged file off the terminal.
func printable(r rune) rune {
	if r == '\t' || unicode.IsPrint(r) {
		return r
	}
	return unicode.ReplacementChar
}

// blank keeps tabs, so that the caret stands right however wide they are.
func blank(r rune) rune {
	if r == '\t' {
		return r
	}
	return ' '
}

// quote puts text between quotation marks and shortens it if it is long.
func quote(text string) string {
	if r := []rune(text); len(r) > 60 {
		text = string(r[:57]) + "..."
	}
	return strconv.Quote(text)
}

// MaxShown is the number of errors that [Problems] lists; the rest are counted.
const MaxShown = 20

// Problems is the error of a file that cannot be used.
type Problems struct {
	Diagnostics []Diagnostic // errors in order of position, at most MaxShown
	More        int          // how many further errors there are
}

// Error lists every diagnostic with its source line.
func (p *Problems) Error() string {
	var b strings.Builder
	for i, d := range p.Diagnostics {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(d.String())
	}
	if p.More > 0 {
		fmt.Fprintf(&b, "\nand %d more errors", p.More)
	}
	return b.String()
}

// problems makes one error of a sorted list, or nil of an empty one.
func problems(list []Diagnostic) error {
	if len(list) == 0 {
		return nil
	}
	shown := min(len(list), MaxShown)
	return &Problems{Diagnostics: list[:shown:shown], More: len(list) - shown}
}

// sortByPosition orders diagnostics by line and column; of those at one place
// the earlier reported stays first.
func sortByPosition(list []Diagnostic) {
	slices.SortStableFunc(list, func(a, b Diagnostic) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}
