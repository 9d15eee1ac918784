package dials

import "strings"

// Section is a part of a form: the keys under one name at the top of the file.
type Section struct {
	Name, Words string
	Fields      []Field
	Problems    int // fields with something wrong
}

// Form are all keys of a text that are written, by sections, with what is wrong with each.
// The error is that of a text that is not well-formed.
func Form(data []byte, problems []Problem) ([]Section, error) {
	t, err := read(data)
	if err != nil {
		return nil, err
	}
	var out []Section
	for _, w := range t.order {
		name, _, _ := strings.Cut(w.Path, ".")
		name, _, _ = strings.Cut(name, "[")
		if len(out) == 0 || out[len(out)-1].Name != name {
			s := Section{Name: name}
			if k := keys()[name]; k != nil {
				s.Words = k.Words
			}
			out = append(out, s)
		}
		s := &out[len(out)-1]
		f := t.field(w.Path)
		for _, p := range problems {
			if p.Path == w.Path {
				f.Problem = p.Words
				s.Problems++
				break
			}
		}
		s.Fields = append(s.Fields, f)
	}
	return out, nil
}
