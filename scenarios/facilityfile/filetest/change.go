package filetest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/scenarios/yamlfile/edit"
)

// mostChanges is how many keys are changed at once, at most.
const mostChanges = 3

// Change returns a file of which some keys were changed by chance, and what was
// done. Each new value lies within the bounds of its key; the file that they make
// may be one that the reader refuses. The same seed makes the same changes.
func Change(text string, seed uint64) (changed string, done []string, err error) {
	r := rand.New(rand.NewPCG(seed, 0x10a))
	for range 1 + r.IntN(mostChanges) {
		path, value, err := one(text, r)
		if err != nil {
			return "", nil, err
		}
		if changed, err = edit.Set(text, path, value); err != nil {
			return "", nil, fmt.Errorf("%s: %s: %w", path, value, err)
		}
		text, done = changed, append(done, path+": "+value)
	}
	return text, done, nil
}

// Valid is Change until the reader takes the file.
func Valid(text string, seed uint64) (changed string, done []string, f *facilityfile.File, err error) {
	for try := range uint64(1000) {
		changed, done, err := Change(text, seed+try<<40)
		if err != nil {
			return "", nil, nil, err
		}
		if f, err := facilityfile.Parse("plant.yaml", []byte(changed)); err == nil && changed != text {
			return changed, done, f, nil
		}
	}
	return "", nil, nil, fmt.Errorf("filetest: seed %d: the reader takes none of 1,000 changes", seed)
}

// Short returns a file of which few years are simulated few times, for a test to
// run.
func Short(text string) (string, error) {
	for _, c := range [][2]string{{"horizon", "2 year"}, {"warm_up", "0 year"}, {"replications", "2"}} {
		var err error
		if text, err = edit.Set(text, c[0], c[1]); err != nil {
			return "", err
		}
	}
	return text, nil
}

// one chooses a key and a value for it.
func one(text string, r *rand.Rand) (path, value string, err error) {
	doc, err := yamlfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		return "", "", err
	}
	keys := facilityfile.Keys()
	for {
		k := keys[r.IntN(len(keys))]
		path, found := place(doc.Root(), k.Path, r)
		if value := Value(&k, r); found && value != "" && !kept(k.Path) {
			return path, value, nil
		}
	}
}

// kept reports whether a key is not changed by chance: those that decide how long a
// test takes.
func kept(path string) bool {
	return path == "format" || path == "horizon" || path == "warm_up" || path == "replications"
}

// place numbers the entries of lists on a path, each chosen among those that there
// are; it reports whether the key can be set there.
func place(m *yamlfile.Map, path string, r *rand.Rand) (numbered string, found bool) {
	names := strings.Split(path, ".")
	for i, name := range names {
		list := strings.TrimSuffix(name, "[]")
		switch {
		case i == len(names)-1:
			return strings.Join(names, "."), !m.Has(name) || writtenOnOneLine(m, name)
		case list != name:
			if !m.Has(list) || !m.IsList(list) || len(m.ListIf(list)) == 0 {
				return "", false
			}
			n := r.IntN(len(m.ListIf(list)))
			names[i] = fmt.Sprintf("%s[%d]", list, n+1)
			m = m.ListIf(list)[n]
		case !m.Has(name):
			return strings.Join(names, "."), !strings.Contains(strings.Join(names[i:], "."), "[]")
		case !m.IsMap(name):
			return "", false
		default:
			m = m.Map(name)
		}
	}
	return "", false
}

func writtenOnOneLine(m *yamlfile.Map, key string) bool {
	first, last := m.Lines(key)
	return first == last && !m.Indented(key)
}

// Value returns a value of a key by chance, as it is written in a file: often near
// what is usual, else anywhere between its bounds, sometimes at one of them. It is
// empty for what is not a quantity, a number or a choice.
func Value(k *facilityfile.Key, r *rand.Rand) string {
	switch k.Kind {
	case facilityfile.Quantity, facilityfile.Months:
		return Written(between(k, r), k.Dimension)
	case facilityfile.Count:
		return strconv.FormatFloat(math.Round(between(k, r)), 'f', 0, 64)
	case facilityfile.Weekdays:
		return "[" + strings.Join([]string{"1", "1", "1", "1", Written(between(k, r), k.Dimension), "0", "0"}, ", ") + "]"
	case facilityfile.Choice:
		if len(k.Choices) == 0 {
			return ""
		}
		return k.Choices[r.IntN(len(k.Choices))]
	case facilityfile.Flag:
		return strconv.FormatBool(r.IntN(2) == 0)
	}
	return ""
}

// between draws a value between the bounds of a key.
func between(k *facilityfile.Key, r *rand.Rand) float64 {
	switch part := r.Float64(); {
	case part < 0.05:
		return k.Low
	case part < 0.10:
		return k.High
	case part < 0.40 && k.Usual != nil:
		low, high := max(k.Low, k.Usual.Low), min(k.High, k.Usual.High)
		return low + (high-low)*r.Float64()
	case part < 0.70 && k.Default != nil && k.Default.Known:
		return min(max(k.Default.Value*math.Exp(r.NormFloat64()), k.Low), k.High)
	case k.Low > 0 && k.High > 100*k.Low: // over several powers of ten
		return min(max(k.Low*math.Pow(k.High/k.Low, r.Float64()), k.Low), k.High)
	}
	return k.Low + (k.High-k.Low)*r.Float64()
}

// Written writes a value, given in the base unit of a dimension, as a file has it,
// so that the reader reads the very same number.
func Written(x float64, dim units.Dimension) string {
	shown, unit := units.Convert(x, dim, units.SI)
	write := func(v float64) string { return strings.TrimSpace(strconv.FormatFloat(v, 'g', -1, 64) + " " + unit) }
	up, down := shown, shown
	for range nearby { // the conversion may have rounded the last place
		for _, v := range []float64{up, down} {
			if read, err := units.Parse(write(v), dim); err == nil && read == x {
				return write(v)
			}
		}
		up, down = math.Nextafter(up, math.Inf(1)), math.Nextafter(down, math.Inf(-1))
	}
	return write(shown)
}

// nearby is how many neighbours of a number are tried on either side.
const nearby = 4
