package capability

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"strings"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Kinship is how nearly the plants of two files are the same, as far as what they carry
// is concerned.
type Kinship int

// Degrees of kinship.
const (
	Apart    Kinship = iota // the plants may carry different amounts
	ByGrowth                // the same plant, and production grows otherwise: it carries the same
	ByPrices                // the same plant under the same growth: every run is the same
)

// Kin compares two files.
func Kin(a, b *facilityfile.File) Kinship {
	was, is := values(a), values(b)
	kin := ByPrices
	for path := range both(was, is) {
		switch {
		case was[path].Used == is[path].Used || path == "name":
		case strings.HasPrefix(path, "money.") || priced(was[path].Key) || priced(is[path].Key):
		case strings.HasPrefix(path, "growth_scenarios[") || strings.HasPrefix(path, "solids.growth"):
			kin = ByGrowth
		default:
			return Apart
		}
	}
	// What the values make of the plant decides: a recipe may follow prices, and what
	// is brought on the first day people.
	one, other := a.Model, b.Model
	one.Feed.Growth, other.Feed.Growth = nil, nil
	if !reflect.DeepEqual(one, other) || a.Seed != b.Seed || len(a.Planning.Growths) != len(b.Planning.Growths) {
		return Apart
	}
	return kin
}

// priced reports whether a key is a price or an amount of money.
func priced(k *facilityfile.Key) bool { return k != nil && k.Dimension.Monetary() }

// values are those of a file by their paths.
func values(f *facilityfile.File) map[string]facilityfile.Setting {
	out := map[string]facilityfile.Setting{}
	for _, s := range f.Settings() {
		if had, ok := out[s.Path]; ok { // a list that is written entry by entry
			s.Used = had.Used + "\n" + s.Used
		}
		out[s.Path] = s
	}
	return out
}

// both are the paths of either.
func both(a, b map[string]facilityfile.Setting) map[string]facilityfile.Setting {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}

// errNotFound says that a study has not found what it was to lend.
var errNotFound = errors.New("capability: nothing is known yet that could be lent")

// Lend gives a study what another has found of its plant in so many runs, so that it
// simulates none of it again. Where the files are kin [ByPrices], all answers are those
// that the study would find by itself; where they are kin [ByGrowth], they are as sure,
// though they rest on ramps that began elsewhere by chance. Files that are apart are an
// error, and so is a study that has found nothing. The lender must not be asked anything
// meanwhile.
func Lend(ctx context.Context, from, to *study.Study, runs int) error {
	if Kin(from.File, to.File) == Apart {
		return errors.New("capability: the plants differ")
	}
	k := statesKey{runs, fmt.Sprint([]float64(nil))}
	kept, err := from.Once(k, func() (any, error) { return nil, errNotFound })
	if err != nil {
		return err
	}
	lent := kept.(*findings)
	_, err = to.Once(k, func() (any, error) {
		demand, err := demands(ctx, to, nil)
		if err != nil {
			return nil, err
		}
		return &findings{
			study: to, own: to.File.Model.Changes, main: lent.main, known: maps.Clone(lent.known), glances: maps.Clone(lent.glances),
			footings: maps.Clone(lent.footings), rests: maps.Clone(lent.rests), demand: demand, odds: map[*Capability][]Odds{},
		}, nil
	})
	return err
}

// Known reports whether a study has found what its plant carries in so many runs.
func Known(s *study.Study, runs int) bool {
	_, err := s.Once(statesKey{runs, fmt.Sprint([]float64(nil))}, func() (any, error) { return nil, errNotFound })
	return err == nil
}
