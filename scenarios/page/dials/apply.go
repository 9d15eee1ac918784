package dials

import (
	"errors"
	"strings"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile"
	"loamcast/scenarios/yamlfile/edit"
)

// Setting is a dial that was turned: the key at a path and what was typed for it.
type Setting struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// Problem is something wrong with a text, or with a dial.
type Problem struct {
	Path  string `json:"path"`  // of the key that it is about; empty where that is not known
	Place string `json:"place"` // the one of several values of the key, as the message names it; mostly empty
	Line  int    `json:"line"`  // 0 where that is not known
	Words string `json:"words"`
	// Warning says that the text can be used all the same.
	Warning bool `json:"warning"`
}

// Apply turns dials: the text in which the keys have the values typed, of which no other
// byte changes. What cannot be written is a problem of its dial.
func Apply(data []byte, settings []Setting) ([]byte, []Problem) {
	var problems []Problem
	for _, s := range settings {
		changed, err := edit.Put(data, s.Path, s.Value)
		if err != nil {
			problems = append(problems, Problem{Path: s.Path, Words: err.Error()})
			continue
		}
		data = changed
	}
	return data, problems
}

// Read reads a text as the command line does; name stands for it in messages. The file is
// nil where the text cannot be used, and problems say why, or what is warned of.
func Read(name string, data []byte) (*facilityfile.File, []Problem) {
	f, err := facilityfile.Parse(name, data)
	if err != nil {
		return nil, problemsOf(data, err)
	}
	return f, placed(data, f.Warnings)
}

// problemsOf are those of an error of the reader.
func problemsOf(data []byte, err error) []Problem {
	wrong := (*yamlfile.Problems)(nil)
	if !errors.As(err, &wrong) {
		return []Problem{{Words: err.Error()}}
	}
	out := placed(data, wrong.Diagnostics)
	if wrong.More > 0 {
		out = append(out, Problem{Words: strings.TrimSpace((&yamlfile.Problems{More: wrong.More}).Error())})
	}
	return out
}

// placed gives what is said of a text to the keys that it is about.
func placed(data []byte, list []yamlfile.Diagnostic) []Problem {
	t, err := read(data)
	if err != nil {
		t = &text{} // what is wrong is where no key is known
	}
	var out []Problem
	for _, d := range list {
		p := Problem{Line: d.Line, Words: d.Message, Warning: d.Severity == yamlfile.Warning}
		if d.Hint != "" {
			p.Words += "; " + d.Hint
		}
		p.Path = t.about(d)
		if name, _, ok := strings.Cut(d.Message, ": "); ok && p.Path != "" && strings.HasPrefix(name, p.Path) {
			p.Place = name
		}
		out = append(out, p)
	}
	return out
}

// about is the path of the key that a diagnostic is about: that which it names, or the one
// on its line if there is one only.
func (t *text) about(d yamlfile.Diagnostic) string {
	named, onLine, n := "", "", 0
	for _, w := range t.order {
		if w.Line != d.Line {
			continue
		}
		onLine = w.Path
		n++
		if rest, ok := strings.CutPrefix(d.Message, w.Path); ok && (strings.HasPrefix(rest, ":") || strings.HasPrefix(rest, "[")) && len(w.Path) > len(named) {
			named = w.Path
		}
	}
	if named == "" && n == 1 {
		return onLine
	}
	return named
}
