package dials

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/scenarios/yamlfile/edit"
)

// Field is a key of a file as a person may change it.
type Field struct {
	Path    string // "growth_scenarios[2].growth.compound"
	Name    string // of the key, in words
	Of      string // the name of the entry that it is of, if it has one
	Words   string // what it says
	Value   string // as the file has it; empty where it is left out
	Line    int    // on which it stands; 0 where it is left out
	Default string // what holds where it is left out; empty if it may not be
	Range   string // what it may be; empty where that is not a range
	Usual   string // what it mostly is, and who says so; empty if nothing is published
	Choices []string
	Slider  *Slider // nil where there is nothing to slide along
	Parts   *Parts  // nil where it is one value
	Problem string  // what is wrong with it
	Fixed   bool    // its value goes over several lines, to be edited as text
}

// Slider is what a number can be slid along, in the unit in which it is written.
type Slider struct {
	Low, High, Step, At float64
	Unit                string
	Decimals            int
}

// keys are those of the table, by their paths.
var keys = sync.OnceValue(func() map[string]*facilityfile.Key {
	all := facilityfile.Keys()
	out := map[string]*facilityfile.Key{}
	for i := range all {
		if all[i].Kind != facilityfile.Unwritten {
			out[all[i].Path] = &all[i]
		}
	}
	return out
})

var numbered = regexp.MustCompile(`\[\d+\]`)

// general is a path without the numbers of entries.
func general(path string) string { return numbered.ReplaceAllString(path, "[]") }

// keyOf is the key at a path, or that of the group that it is in.
func keyOf(path string) *facilityfile.Key {
	for at := general(path); at != ""; {
		if k := keys()[at]; k != nil && k.Kind != facilityfile.Group && k.Kind != facilityfile.List {
			return k
		}
		cut := strings.LastIndexByte(at, '.')
		if cut < 0 {
			break
		}
		at = at[:cut]
	}
	return keys()[general(path)]
}

// text is a file that is well-formed, if not sound.
type text struct {
	data    []byte
	written map[string]yamlfile.Written
	order   []yamlfile.Written
	system  units.System
}

// read returns the values of a text; the error is that of [yamlfile.Parse].
func read(data []byte) (*text, error) {
	doc, err := yamlfile.Parse("plant.yaml", data)
	if err != nil {
		return nil, err
	}
	t := &text{data: data, written: map[string]yamlfile.Written{}, order: doc.Written(), system: units.US}
	for _, w := range t.order {
		t.written[w.Path] = w
	}
	if system, err := units.ParseSystem(t.written["units"].Text); err == nil {
		t.system = system
	}
	t.system = t.system.With(doc.Currency())
	return t, nil
}

// field describes a key at a path.
func (t *text) field(path string) Field {
	f := Field{Path: path, Name: nameOf(path), Of: t.entryOf(path)}
	raw, ok := edit.Raw(t.data, path)
	f.Value = raw
	if w, written := t.written[path]; written {
		f.Line = w.Line
		f.Fixed = !ok
	} else if ok {
		f.Line = t.lineBelow(path)
	}
	k := keyOf(path)
	if k == nil {
		return f
	}
	f.Words, f.Choices = k.Words, k.Choices
	if f.Value != "" {
		f.Parts = t.partsOf(path, f.Value, k)
	}
	if k.Kind == facilityfile.Flag {
		f.Choices = []string{"true", "false"}
	}
	if k.Default != nil {
		f.Default = k.Default.Words
		if k.Default.Known {
			f.Default = units.Format(k.Default.Value, k.Dimension, t.system)
		}
	}
	if !ranged(k) {
		return f
	}
	f.Range = units.Format(k.Low, k.Dimension, t.system) + " to " + units.Format(k.High, k.Dimension, t.system)
	if u := k.Usual; u != nil {
		f.Usual = units.Format(u.Low, k.Dimension, t.system) + " to " + units.Format(u.High, k.Dimension, t.system)
		if u.Source != "" {
			f.Usual += " (" + u.Source + ")"
		}
	}
	f.Slider = slider(k, f.Value)
	return f
}

// ranged reports whether a key is a number, or several of a kind, between bounds.
func ranged(k *facilityfile.Key) bool {
	return slices.Contains([]facilityfile.Kind{facilityfile.Quantity, facilityfile.Count, facilityfile.Months, facilityfile.Weekdays, facilityfile.Quantities, facilityfile.Years}, k.Kind)
}

// nameOf is the name of a key as words: its last part.
func nameOf(path string) string {
	return strings.ReplaceAll(path[strings.LastIndexByte(path, '.')+1:], "_", " ")
}

// entryOf is the name that the file gives the entry of a list that a path is in.
func (t *text) entryOf(path string) string {
	return t.written[path[:strings.LastIndexByte(path, ']')+1]+".name"].Text
}

// lineBelow is the first line of a group.
func (t *text) lineBelow(path string) int {
	for _, w := range t.order {
		if strings.HasPrefix(w.Path, path+".") || strings.HasPrefix(w.Path, path+"[") {
			return w.Line
		}
	}
	return 0
}

var number = regexp.MustCompile(`^([+-]?[\d,]*\.?\d+(?:[eE][+-]?\d+)?)\s*(.*)$`)

// steps is about how many steps a slider has.
const steps = 100

// slider is what a value can be slid along: what is usual, or else from half of what is
// written to twice of it, within what it may be.
func slider(k *facilityfile.Key, written string) *Slider {
	parts := number.FindStringSubmatch(written)
	value, err := units.Parse(written, k.Dimension)
	if parts == nil || err != nil {
		return nil
	}
	unit := parts[2]
	nothing, err := units.Parse(strings.TrimSpace("0 "+unit), k.Dimension)
	one, wrong := units.Parse(strings.TrimSpace("1 "+unit), k.Dimension)
	if err != nil || wrong != nil || one == nothing {
		return nil
	}
	low, high := value/2, 2*value
	if u := k.Usual; u != nil {
		low, high = min(u.Low, value), max(u.High, value)
	}
	low, high = min(max(low, k.Low), value), max(min(high, k.High), value) // a value may be out of range
	in := func(v float64) float64 { return (v - nothing) / (one - nothing) }
	s := Slider{Low: in(low), High: in(high), At: in(value), Unit: unit}
	if !(s.High > s.Low) {
		return nil
	}
	s.Step = nice((s.High - s.Low) / steps)
	if k.Kind == facilityfile.Count {
		s.Step = max(1, math.Round(s.Step))
	}
	s.Decimals = max(0, int(math.Ceil(-math.Log10(s.Step)-1e-9)))
	// The value itself is on a step, and so are the ends.
	s.Low = s.At - math.Floor((s.At-s.Low)/s.Step+1e-9)*s.Step
	s.High = s.At + math.Floor((s.High-s.At)/s.Step+1e-9)*s.Step
	if shown := decimals(parts[1]); shown > s.Decimals {
		s.Decimals = shown
	}
	for _, end := range []*float64{&s.Low, &s.High, &s.Step, &s.At} {
		*end = rounded(*end, s.Decimals)
	}
	return &s
}

// rounded is x with so many decimals.
func rounded(x float64, decimals int) float64 {
	power := math.Pow(10, float64(decimals))
	return math.Round(x*power) / power
}

// decimals is how many a number is written with.
func decimals(written string) int {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(written), "e")
	_, after, _ := strings.Cut(mantissa, ".")
	power, _ := strconv.Atoi(exponent) // none is nothing
	return max(0, len(after)-power)
}

// nice is the number of 1, 2 and 5 times a power of ten that is next above x.
func nice(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, times := range []float64{1, 2, 5} {
		if times*power >= x*(1-1e-9) {
			return times * power
		}
	}
	return 10 * power
}
