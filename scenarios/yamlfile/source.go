package yamlfile

import (
	"fmt"
	"io"
	"os"
	"strings"
	"syscall"
	"unicode"
	"unicode/utf8"
)

// MaxSize is the greatest size of a file in bytes (1 MiB). A planning file has
// some kilobytes; whatever is larger was named by mistake.
const MaxSize = 1 << 20

// source is the text of a file, by line.
type source struct {
	name  string
	lines []string
}

// Open reads and checks a file. The error is an [*Problems] if the content is
// at fault, and one of package os if the file cannot be read. A file over
// MaxSize is refused before it is read whole.
func Open(path string) (*Document, error) {
	// Opened so, a named pipe into which nobody writes is empty, and does not wait
	// for ever; of one that somebody writes into everything is read.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	// One byte more than allowed shows that there is more; this bounds pipes
	// and devices too, whose size is not known beforehand.
	data, err := io.ReadAll(io.LimitReader(f, MaxSize+1))
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
