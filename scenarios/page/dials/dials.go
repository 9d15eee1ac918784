package dials

import (
	"slices"
	"strings"

	"loamcast/scenarios/facilityfile"
)

// first are the keys that move most of what is planned, those of a line in place of each
// other: of each line the first keys that a file has.
var first = [][]string{
	{"growth_scenarios[].growth.compound", "growth_scenarios[].growth.linear", "growth_scenarios[].growth.logistic.rate"},
	{"solids.growth.compound", "solids.growth.linear", "solids.growth.logistic.rate", "solids.growth.population.compound"},
	{"vessels.installed", "vessels.classes[].installed"},
	{"vessels.residence", "vessels.classes[].residence"},
	{"solids.cake_solids", "solids.sources[].cake_solids"},
	{"mix.chips_to_cake"},
	{"screen.recovery"},
	{"hours.week"},
	{"chips.price", "chips.sources[].price"},
}

// growthLines of first: where a file has growth scenarios, planning follows them and not
// the growth of solids.
const growthLines = 2

// Start are the paths of the dials that a file begins with. The error is that of a text
// that is not well-formed.
func Start(data []byte) ([]string, error) {
	t, err := read(data)
	if err != nil {
		return nil, err
	}
	var out []string
	for i, line := range first {
		found := t.having(line)
		out = append(out, found...)
		if i == 0 && t.has("growth_scenarios") {
			continue
		}
		if i == growthLines-1 && t.has("growth_scenarios") {
			out = out[:len(out)-len(found)]
		}
	}
	return out, nil
}

// has reports whether something is written under a path.
func (t *text) has(path string) bool { return t.lineBelow(path) > 0 }

// having returns the paths of a file at which some keys stand, in its order.
func (t *text) having(list []string) []string {
	var out []string
	for _, key := range list {
		if t.has(key) { // a group
			out = append(out, key)
		}
	}
	for _, w := range t.order {
		for _, key := range list {
			if general(w.Path) == key {
				out = append(out, w.Path)
			}
		}
	}
	return out
}

// Ranked puts dials in order: first those of some keys, that which moves most first, then
// the others as they are. A key of several values, such as the growth of solids, stands
// for its dials among the others; what the file does not have as a dial is passed over.
// The error is that of a text that is not well-formed.
func Ranked(data []byte, keys, paths []string) ([]string, error) {
	t, err := read(data)
	if err != nil {
		return nil, err
	}
	var out []string
	add := func(path string) {
		if !slices.Contains(out, path) {
			out = append(out, path)
		}
	}
	for _, key := range keys {
		if _, ok := t.written[key]; ok {
			add(key)
			continue
		}
		for _, path := range paths {
			if path == key || strings.HasPrefix(path, key+".") || strings.HasPrefix(path, key+"[") || growing(key) && growing(path) {
				add(path)
			}
		}
	}
	for _, path := range paths {
		add(path)
	}
	return out, nil
}

// growing reports whether a key is of the growth of production.
func growing(path string) bool {
	return strings.HasPrefix(path, "growth_scenarios") || strings.HasPrefix(path, "solids.growth")
}

// Of are the fields at some paths; what has become of a path that the text does not have
// is told by its field. The error is that of a text that is not well-formed.
func Of(data []byte, paths []string) ([]Field, error) {
	t, err := read(data)
	if err != nil {
		return nil, err
	}
	out := make([]Field, len(paths))
	for i, path := range paths {
		out[i] = t.field(path)
	}
	return out, nil
}

// most is how many keys a search finds at most.
const most = 24

// Search returns the keys of which path, name and words hold all that was asked for: those
// that the text has, then those that it leaves out. The error is that of a text that is
// not well-formed.
func Search(data []byte, words string) ([]Field, error) {
	t, err := read(data)
	if err != nil {
		return nil, err
	}
	asked := strings.Fields(strings.ToLower(words))
	if len(asked) == 0 {
		return nil, nil
	}
	var out []Field
	seen := map[string]bool{}
	consider := func(path, of string, k *facilityfile.Key) {
		if seen[path] {
			return
		}
		seen[path] = true
		about := strings.ToLower(path + " " + of + " " + k.Words)
		for _, word := range asked {
			if !strings.Contains(about, word) {
				return
			}
		}
		if len(out) < most {
			out = append(out, t.field(path))
		}
	}
	for _, w := range t.order {
		if k := keyOf(w.Path); k != nil && k.Path != "format" {
			if whole, of := wholeOf(w.Path); of != nil { // all days of the week before one of them
				consider(whole, t.entryOf(whole), of)
			}
			consider(w.Path, t.entryOf(w.Path), k)
		}
	}
	for _, k := range facilityfile.Keys() {
		if !seen[k.Path] && !t.has(k.Path) && k.Default != nil && !strings.Contains(k.Path, "[]") && settable(k.Kind) {
			consider(k.Path, "", keys()[k.Path])
		}
	}
	return out, nil
}

// wholeOf is the key of which a path is the value for a month or weekday, nil where it is
// a key by itself.
func wholeOf(path string) (string, *facilityfile.Key) {
	cut := strings.LastIndexByte(path, '.')
	if cut < 0 {
		return "", nil
	}
	k := keys()[general(path[:cut])]
	if k != nil && (k.Kind == facilityfile.Weekdays || k.Kind == facilityfile.Months || week(k.Path)) {
		return path[:cut], k
	}
	return "", nil
}

// settable reports whether a value of a kind can be written on a line.
func settable(kind facilityfile.Kind) bool {
	return kind != facilityfile.Group && kind != facilityfile.List && kind != facilityfile.Unwritten
}
