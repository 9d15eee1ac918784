package facilityfile

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// Starter returns a facility file with comments to start from: the words of each
// key behind its line, and in comments, to be taken up by removing "# ", the
// optional keys and groups that the file leaves out, with their defaults. The first
// line names the schema of [JSONSchema] for editors, which lies beside the file.
//
// A line that has a comment keeps it. Entries of lists are explained where they
// come first. data must be a sound file whose groups are indented.
//
// It returns an error if data is not YAML.
func Starter(data []byte, schema string, system units.System) ([]byte, error) {
	document, err := yamlfile.Parse("starter file", data)
	if err != nil {
		return nil, err
	}
	s := starter{
		lines:  strings.Split(strings.TrimSuffix(string(data), "\n"), "\n"),
		before: map[int][]string{}, after: map[int][]string{},
		system: system, said: map[string]bool{},
	}
	s.group(document.Root(), keyTree())
	var out strings.Builder
	fmt.Fprintf(&out, "# yaml-language-server: $schema=%s\n", schema)
	for i, line := range s.lines {
		for _, text := range slices.Concat(s.before[i+1], []string{line}, s.after[i+1]) {
			out.WriteString(text + "\n")
		}
	}
	return []byte(out.String()), nil
}

// starter writes comments into the lines of a file.
type starter struct {
	lines         []string
	before, after map[int][]string // lines to come beside one, by its number from 1
	system        units.System
	said          map[string]bool // paths that were explained
}

// Comments stand at commentColumn if there is room before it, and on a line of their
// own before what is longer than longLine.
const commentColumn, longLine = 38, 64

// commented puts words behind a line.
func commented(line, words string) string {
	return line + strings.Repeat(" ", max(2, commentColumn-utf8.RuneCountInString(line))) + "# " + words
}

// group explains the keys of a group, and adds those that it leaves out.
func (s *starter) group(m *yamlfile.Map, keys *node) {
	start := m.Start()
	last := start.Line - 1 // line on which the key before ends
	for _, k := range keys.members {
		switch {
		case m.Has(k.name):
			s.present(m, k)
			_, end := m.Lines(k.name)
			last = max(last, end)
		case keys.key.Kind != List && k.key.Kind != List && !s.shown(k.name, start.Column-1):
			s.leftOut(k, start.Column-1, last)
		}
	}
}

// shown reports whether the file shows a key in a comment of its own.
func (s *starter) shown(name string, indent int) bool {
	return slices.Contains(s.lines, strings.Repeat(" ", indent)+"# "+name+":")
}

// present explains a key that the file has, and what is in it.
func (s *starter) present(m *yamlfile.Map, k *node) {
	first, last := m.Lines(k.name)
	switch {
	case m.Indented(k.name) && k.key.Kind == Group:
		s.group(m.Map(k.name), k)
	case m.Indented(k.name) && k.key.Kind == List:
		if k.key.Path == "uncertain" {
			s.before[first-1] = append(s.before[first-1], inputsInWords()...)
		}
		for _, entry := range m.List(k.name) {
			if !entry.InBraces() {
				s.group(entry, k)
			}
		}
	case !s.said[k.key.Path]:
		s.said[k.key.Path] = true
		line, words := &s.lines[first-1], k.key.Words+further(m, k)
		switch {
		case last != first || strings.Contains(*line, " #"):
		case utf8.RuneCountInString(*line) > longLine:
			indent := len(*line) - len(strings.TrimLeft(*line, " "))
			s.before[first] = append(s.before[first], strings.Repeat(" ", indent)+"# "+capital(words)+".")
		default:
			*line = commented(*line, words)
		}
	}
}

// further names the keys that a group in braces leaves out.
func further(m *yamlfile.Map, k *node) string {
	if k.key.Kind != Group || k.key.OneOf || !m.IsMap(k.name) {
		return ""
	}
	var names []string
	for _, member := range k.members {
		if member.key.Kind != Shifts && !m.Map(k.name).Has(member.name) {
			names = append(names, member.name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; further keys: " + strings.Join(names, ", ")
}

// capital begins a sentence.
func capital(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

// leftOut writes a key that the file leaves out in a comment behind a line.
func (s *starter) leftOut(k *node, indent, line int) {
	list := s.example(k, strings.Repeat(" ", indent)+"# ")
	if indent == 0 && k.key.Kind == Group {
		list = append([]string{""}, list...) // a group of the file stands by itself
	}
	s.after[line] = append(s.after[line], list...)
}

// example returns the lines of a key as one may write it, each after the same
// beginning, with comments.
func (s *starter) example(k *node, begin string) []string {
	words := k.key.Words
	if d := k.key.Default; d != nil {
		words += "; left out: " + d.text(k.key.Dimension, s.system)
	}
	value, inOneLine := s.inOneLine(k)
	if inOneLine {
		return []string{commented(begin+k.name+": "+value, words)}
	}
	lines := []string{commented(begin+k.name+":", words)}
	for _, m := range k.members {
		if m.key.Kind != List {
			lines = append(lines, s.example(m, begin+"  ")...)
		}
	}
	return lines
}

// mostInOneLine is how many keys of a group are written in one line.
const mostInOneLine = 4

// inOneLine returns what one may write behind a key, if that is not too much.
func (s *starter) inOneLine(k *node) (value string, ok bool) {
	switch {
	case k.key.Example != "":
		return k.key.Example, true
	case k.key.Kind != Group:
		return s.written(&k.key), true
	case len(k.members) > mostInOneLine || !strings.Contains(k.key.Path, "."):
		return "", false
	}
	var parts []string
	for _, m := range k.members {
		value, ok := s.inOneLine(m)
		if !ok {
			return "", false
		}
		if strings.Contains(value, ",") && m.key.Kind != Quantities {
			value = `"` + value + `"`
		}
		parts = append(parts, m.name+": "+value)
	}
	return "{" + strings.Join(parts, ", ") + "}", true
}

// written is what one may write for a key without an example: its default, or what
// its dimension has for one.
func (s *starter) written(k *Key) string {
	d := k.Default
	switch {
	case d != nil && d.Known:
		return inFile(d.Value, k.Dimension, s.system)
	case len(k.Choices) > 0:
		return k.Choices[0]
	case k.Usual != nil:
		return inFile(k.Usual.Low, k.Dimension, s.system)
	case slices.Contains([]Kind{Text, Texts, Count}, k.Kind):
		return "1"
	}
	example, _, _ := strings.Cut(k.Dimension.Example(), " or ")
	return example
}

// inputsInWords lists in comments what may be uncertain, and how.
func inputsInWords() []string {
	lines := []string{"# Inputs:"}
	for _, how := range []struct {
		How
		words string
	}{
		{Instead, "instead of the value above:"}, {Added, "added to it:"}, {Times, "as a factor on it:"},
	} {
		words := []string{how.words}
		for _, in := range inputs {
			if in.How == how.How {
				words = append(words, in.Key+",")
			}
		}
		last := &words[len(words)-1]
		*last = strings.TrimSuffix(*last, ",")
		lines = append(lines, wrapped("#   ", words)...)
	}
	return lines
}

// wrapped puts words into lines of some width, the first after begin and the
// others indented by two more.
func wrapped(begin string, words []string) []string {
	const width = 84
	lines := []string{begin + words[0]}
	for _, word := range words[1:] {
		if last := &lines[len(lines)-1]; len(*last)+1+len(word) <= width {
			*last += " " + word
			continue
		}
		lines = append(lines, begin+"  "+word)
	}
	return lines
}
