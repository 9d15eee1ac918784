package facilityfile

import (
	"math"
	"regexp"
	"strings"

	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// Setting is what a key of a file is used with, written in the file or not.
type Setting struct {
	Path  string // "changes[2].cost" is of the second change
	Used  string // as written, or what holds instead
	Line  int    // on which it is written; 0 if it is left out
	Key   *Key   // nil for a key of the user's own, such as a day of the week
	Usual string // range outside of which it is warned of, with its unit; empty if there is none
}

// Default returns what holds where the key is left out, empty if it may not be.
func (v *Setting) Default(f *File) string {
	if v.Key == nil || v.Key.Default == nil {
		return ""
	}
	return f.inWords(v.Key.Default, v.Key)
}

// inWords writes a default.
func (f *File) inWords(d *Default, k *Key) string {
	if !d.Known {
		return d.Words
	}
	return units.Format(d.Value, k.Dimension, f.Units)
}

// Settings returns the values of a file in the order of the table of keys, those that it
// leaves out with what holds instead. Of a group that may be left out, and is, the group
// alone is named, unless it is its keys that have defaults.
func (f *File) Settings() []Setting {
	written := map[string][]yamlfile.Written{} // by the path of the key
	entries := map[string][]string{}           // of lists, by the path of the list: "changes[]"
	keys := map[string]*Key{}
	all := Keys()
	for i := range all {
		keys[all[i].Path] = &all[i]
	}
	for _, w := range f.written {
		path := general(w.Path)
		for keys[path] == nil || keys[path].Kind == Group {
			cut := strings.LastIndexByte(path, '.')
			if cut < 0 {
				break
			}
			path = path[:cut]
		}
		written[path] = append(written[path], w)
		for _, entry := range entriesOf(w.Path) {
			list := general(entry)
			if had := entries[list]; len(had) == 0 || had[len(had)-1] != entry {
				entries[list] = append(had, entry)
			}
		}
	}
	v := valuing{f, keys, written, entries, f.Parts()}
	var out []Setting
	for i := range all {
		out = append(out, v.of(&all[i])...)
	}
	return out
}

// valuing is a list of values in the making.
type valuing struct {
	f       *File
	keys    map[string]*Key
	written map[string][]yamlfile.Written
	entries map[string][]string
	parts   Parts
}

// of returns the values of one key: one, or one for each entry of the list that it is in.
func (v *valuing) of(k *Key) []Setting {
	var out []Setting
	usual := ""
	if u := k.Usual; u != nil {
		usual = units.Format(u.Low, k.Dimension, v.f.Units) + " to " + units.Format(u.High, k.Dimension, v.f.Units)
	}
	given := map[string]bool{}
	for _, w := range v.written[k.Path] {
		out = append(out, Setting{w.Path, w.Text, w.Line, k, usual})
		given[entryOf(w.Path)] = true
	}
	if k.Default == nil || k.Kind == Unwritten || v.within(k.Path) {
		return out
	}
	for _, entry := range v.places(k.Path) {
		if given[entry] || (k.Kind == Group || k.Kind == List) && (hasDefaults(k) || v.begun(k.Path)) {
			continue
		}
		used := v.f.inWords(k.Default, k)
		if k.Path == "warm_up" && v.begun("opening") {
			used = none.Words // the run begins with what is there
		}
		if used == none.Words && entry != "" {
			continue // of steps and entries that leave most of what they could do undone
		}
		if k.Get != nil && !k.Default.Known {
			if reckoned := k.Get(v.parts); reckoned != 0 && !math.IsInf(reckoned, 0) { // which stand for what has no number
				used = units.Format(reckoned, k.Dimension, v.f.Units)
			}
		}
		out = append(out, Setting{entry + k.Path[len(general(entry)):], used, 0, k, usual})
	}
	return out
}

// hasDefaults reports whether a group that is left out leaves its keys with their defaults.
func hasDefaults(k *Key) bool {
	return k.Kind == Group && strings.HasPrefix(k.Default.Words, "the default")
}

// begun reports whether something of a group or list is written.
func (v *valuing) begun(path string) bool {
	for p := range v.written {
		if strings.HasPrefix(p, path+".") || strings.HasPrefix(p, path+"[") {
			return true
		}
	}
	return false
}

// within reports whether a key stands in a group that is left out as a whole.
func (v *valuing) within(path string) bool {
	for cut := strings.LastIndexByte(path, '.'); cut > 0; cut = strings.LastIndexByte(path[:cut], '.') {
		k := v.keys[path[:cut]]
		if k != nil && k.Kind == Group && !hasDefaultsOrNeeded(k) && !v.begun(k.Path) {
			return true
		}
	}
	return false
}

func hasDefaultsOrNeeded(k *Key) bool { return k.Default != nil && hasDefaults(k) }

// places returns the entries in which a key may stand, "" for one outside of lists.
func (v *valuing) places(path string) []string {
	cut := strings.LastIndex(path, "[]")
	if cut < 0 {
		return []string{""}
	}
	return v.entries[path[:cut+len("[]")]]
}

var numbered = regexp.MustCompile(`\[\d+\]`)

// general is a path without the numbers of entries.
func general(path string) string { return numbered.ReplaceAllString(path, "[]") }

// entryOf is the part of a path up to the innermost entry of a list.
func entryOf(path string) string { return path[:strings.LastIndexByte(path, ']')+1] }

// entriesOf are the parts of a path up to each entry of a list.
func entriesOf(path string) []string {
	var list []string
	for _, at := range numbered.FindAllStringIndex(path, -1) {
		list = append(list, path[:at[1]])
	}
	return list
}
