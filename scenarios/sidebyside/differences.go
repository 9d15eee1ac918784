package sidebyside

import (
	"loamcast/scenarios/facilityfile"
)

// differences lists the keys that two files give other values, those of the first in
// their order and then those that only the second has. The name of a facility is none.
func differences(a, b *facilityfile.File) []Difference {
	first, second := a.Settings(), b.Settings()
	used := map[string]string{}
	for _, s := range second {
		used[s.Path] = s.Used
	}
	var out []Difference
	had := map[string]bool{"name": true}
	for _, s := range first {
		if is := used[s.Path]; is != s.Used && !had[s.Path] {
			out = append(out, Difference{s.Path, s.Used, is, wordsOf(&s)})
		}
		had[s.Path] = true
	}
	for _, s := range second {
		if !had[s.Path] {
			out = append(out, Difference{s.Path, "", s.Used, wordsOf(&s)})
		}
	}
	return out
}

func wordsOf(s *facilityfile.Setting) string {
	if s.Key == nil {
		return ""
	}
	return s.Key.Words
}
