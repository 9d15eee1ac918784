package yamlfile

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"loamcast/scenarios/infile"
)

// MaxSize is the greatest size of a file in bytes (1 MiB). A planning file has
// some kilobytes; whatever is larger was named by mistake.
const MaxSize = 1 << 20

// source is the text of a file, by line.
type source struct {
	name  string
	lines []string
}

// Open reads and checks a regular file, or standard input if path is "-". The
// error is an [*Problems] if the content is at fault, and otherwise one of
// [infile.Read]. A file over MaxSize is refused before it is read whole.
func Open(path string) (*Document, error) {
	data, err := infile.Read(path, MaxSize)
	if err != nil {
		return nil, err
	}
	return Parse(path, data)
}

// newSource checks that data is text that YAML can hold and splits it into
// lines.
func newSource(name string, data []byte) (source, error) {
	s := source{name: name}
	switch {
	case len(data) > MaxSize:
		return s, problems([]Diagnostic{s.at(Position{1, 1}, Error,
			"the file is larger than 1 MiB", "a planning file has some kilobytes; is this the right one?")})
	case len(data) >= 2 && (data[0] == 0xFE && data[1] == 0xFF || data[0] == 0xFF && data[1] == 0xFE):
		return s, problems([]Diagnostic{s.at(Position{1, 1}, Error,
			"the file is written in UTF-16", "save it as UTF-8")})
	}
	text := string(data)
	s.lines = splitLines(text)
	for i, line := range s.lines {
		if d, found := s.badCharacter(i+1, line); found {
			return s, problems([]Diagnostic{d})
		}
	}
	return s, nil
}

// splitLines splits at line feeds, carriage returns, or both together.
func splitLines(text string) []string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	return strings.Split(text, "\n")
}

// badCharacter reports the first character of a line that a file may not hold:
// bytes that are not UTF-8, control characters, separators that would make lines
// no editor shows, and marks that turn the direction of writing, by which a line
// can be made to read otherwise than it is.
func (s source) badCharacter(number int, line string) (Diagnostic, bool) {
	column := 0
	for i, r := range line {
		column++
		at := Position{number, column}
		if r == utf8.RuneError && !strings.HasPrefix(line[i:], "\uFFFD") {
			return s.at(at, Error, fmt.Sprintf("the byte 0x%02X is not UTF-8 text", line[i]),
				"save the file as UTF-8"), true
		}
		if r != '\t' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' || r == '\uFFFE' || r == '\uFFFF' {
			return s.at(at, Error, fmt.Sprintf("the character U+%04X cannot stand in the file", r),
				"delete it"), true
		}
	}
	return Diagnostic{}, false
}

// at makes a diagnostic for a place. Places outside the text, which the parser
// gives for a file that ends too soon, are moved to its end.
func (s source) at(p Position, severity Severity, message, hint string) Diagnostic {
	p.Line = max(1, min(p.Line, len(s.lines)))
	p.Column = max(1, p.Column)
	d := Diagnostic{File: s.name, Line: p.Line, Column: p.Column, Severity: severity,
		// Keys and texts may hold anything that YAML can write as an escape.
		Message: strings.Map(printable, message), Hint: strings.Map(printable, hint)}
	if p.Line <= len(s.lines) {
		d.Source = s.lines[p.Line-1]
		d.Column = min(p.Column, utf8.RuneCountInString(d.Source)+1)
	}
	return d
}
