package facilityfile

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/yamlfile"
)

// sources reads the plants that send cake, each as solids are read where there is one,
// and what they are together. Growth is that of all, or of each.
func (r *reader) sources(solids *yamlfile.Map) {
	f := &r.m.Feed
	var astray []string
	for _, key := range ofEachSource() {
		if solids.Has(key) {
			astray = append(astray, key)
		}
	}
	if len(astray) > 0 {
		solids.Error(astray[0], "where there are sources, each of them says this", "write in the sources, or remove: "+strings.Join(astray, ", "))
	}
	r.grown = r.growth(growthOf(solids))
	if r.grown.told {
		solids.MapIf("growth").Error("population", "where there are sources, people belong to one of them", "write population in the growth of a source")
	}
	good, names, rests := solids.Good("growth"), map[string]bool{}, []string{}
	for _, m := range solids.List("sources") {
		s, g := r.source(m)
		switch {
		case m.Good("name") && names[s.Name]:
			m.Error("name", fmt.Sprintf("there is already a source %q", s.Name), "give it a name of its own")
		case solids.Has("growth") && m.Has("growth") && m.Good("growth"):
			m.Error("growth", "the growth of all sources is written in solids", "keep that, or write one in each source")
		}
		names[s.Name] = true
		if g.source != "" {
			rests = append(rests, g.source)
		}
		good = good && amountGood(m) && s.Base > 0
		f.Sources = append(f.Sources, s)
	}
	r.solidsKnown = good && solids.Good("sources") && len(f.Sources) > 0
	if !r.solidsKnown {
		f.Growth, f.Sources = r.grown.Growth, nil
		return
	}
	f.Combine()
	if solids.Has("growth") {
		f.Growth = r.grown.Growth
		return
	}
	r.grown = grown{Growth: f.Growth, source: strings.Join(rests, "; ")}
}

// source reads one of them.
func (r *reader) source(m *yamlfile.Map) (plant.Source, grown) {
	var f plant.Feed
	s := plant.Source{}
	read(m, sourceRows, &s)
	g := r.sends(m, &f)
	s.Base, s.Growth, s.Month, s.Weekday, s.CakeSolids = f.Base, f.Growth, f.Month, f.Weekday, f.CakeSolids
	return s, g
}

// ofEachSource are the keys that belong to the sources where there are some.
func ofEachSource() []string {
	var keys []string
	for i := range amounts {
		keys = append(keys, amounts[i].key.Path)
	}
	for i := range sentRows {
		keys = append(keys, sentRows[i].Path)
	}
	return keys
}

// contents returns the solids contents of cake that the file has, all sources' and
// months'.
func (r *reader) contents() (most, least float64) {
	f := &r.m.Feed
	most, least = slices.Max(f.CakeSolids[:]), slices.Min(f.CakeSolids[:])
	for i := range f.Sources {
		months := f.Sources[i].CakeSolids[:]
		most, least = max(most, slices.Max(months)), min(least, slices.Min(months))
	}
	return most, least
}
