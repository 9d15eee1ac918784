package plant

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// onlooker hands out the streams of a key and keeps what was asked for and drawn.
type onlooker struct {
	key    random.Key
	asked  map[string][][]uint64   // entities by name, in the order asked for
	values map[string][]*spySource // what each of them gave
}

func newOnlooker(key random.Key) *onlooker {
	return &onlooker{key: key, asked: map[string][][]uint64{}, values: map[string][]*spySource{}}
}

func (o *onlooker) Stream(name string, entity ...uint64) *rand.Rand {
	s := &spySource{source: o.key.Stream(name, entity...)}
	o.asked[name] = append(o.asked[name], slices.Clone(entity))
	o.values[name] = append(o.values[name], s)
	return rand.New(s)
}

type spySource struct {
	source rand.Source
	drawn  []uint64
}

func (s *spySource) Uint64() uint64 {
	x := s.source.Uint64()
	s.drawn = append(s.drawn, x)
	return x
}

// restless is a plant in which everything that can vary does.
func restless() Model {
	m := model()
	m.Feed.Noise, m.Feed.SolidsCV = random.AR1Lognormal{CV: 0.2, Correlation: 0.5}, 0.05
	m.Feedstocks = []Feedstock{{Material: m.Cake, PerDay: repeat12(100), Weekday: [7]float64{1, 1, 1, 1, 1, 1, 1}, CV: 0.3}}
	m.Chips.LeadCV = 0.3
	often := Failure{Every: 20 * sim.Day, Repair: 8 * sim.Hour}
	m.Mixer.Failure, m.Screening.Failure = often, often
	m.Yard.Loaders, m.Yard.Operators = Crew{Count: 2, Failure: often}, Crew{Count: 3}
	m.Yard.Trucks = Crew{Count: 2, Failure: often}
	m.Vessels.Installed = 7
	return m
}

// Shows common random numbers for every stream of a replication: whatever is
// changed about the plant, each purpose asks for the same streams in the same
// order, each stream gives the same numbers, and a stream of one entity gives as
// many. So the tenth truckload is as late, and the third breakdown as long, with
// seven vessels as with twelve.
func TestEveryStreamIsCommon(t *testing.T) {
	look := func(alter func(*Model)) *onlooker {
		m := restless()
		alter(&m)
		o := newOnlooker(random.Key{Seed: 11, Replication: 3})
		if _, err := plantOf(t, m).run(t.Context(), o.key.Replication, o, nil); err != nil {
			t.Fatal(err)
		}
		return o
	}
	base := look(func(*Model) {})
	for _, name := range []string{"production", "cake solids", "feedstock", "chip delivery", "mixer breakdown", "mixer repair", "screen breakdown", "loader breakdown", "loader repair"} {
		if len(base.asked[name]) == 0 {
			t.Errorf("no stream %q, but of %q: the test looks on at too little", name, slices.Sorted(maps.Keys(base.asked)))
		}
	}
	for what, alter := range map[string]func(*Model){
		"more vessels":     func(m *Model) { m.Vessels.Installed += 5 },
		"a vessel less":    func(m *Model) { m.Vessels.Installed-- },
		"a larger screen":  func(m *Model) { m.Screening.Settings.Capacity *= 2 },
		"a larger holding": func(m *Model) { m.Holding.Capacity *= 2 },
		"more is produced": func(m *Model) { m.Feed.Base *= 1.1 },
		"vessels fail": func(m *Model) {
			m.Outages = []Outage{{Date: calendar.Date{Year: 2027, Month: time.May, Day: 3}, For: 42 * sim.Day, Vessels: 2}}
		},
		"a wet spell": func(m *Model) {
			m.Spells = []Spell{{From: calendar.Date{Year: 2027, Month: time.May, Day: 3}, For: calendar.Span{Months: 4}, CakeSolids: -0.015, ChipMoisture: 0.08, Temperature: -2, Production: 0.1}}
		},
		"steps to come": func(m *Model) {
			m.Changes = []Change{{Name: "all", Date: calendar.Date{Year: 2027, Month: time.May, Day: 3}, Vessels: 3,
				Loaders: 1, Operators: 1, Trucks: 1, Pad: 100, ScreenCapacity: 90, CakeSolids: 0.02}}
		},
	} {
		other := look(alter)
		for name, mine := range base.asked {
			theirs := other.asked[name]
			for i := range min(len(mine), len(theirs)) {
				if !slices.Equal(mine[i], theirs[i]) {
					t.Errorf("%s: request %d of %q is for %v, was for %v", what, i+1, name, theirs[i], mine[i])
					break
				}
				a, b := base.values[name][i].drawn, other.values[name][i].drawn
				n := min(len(a), len(b))
				if !slices.Equal(a[:n], b[:n]) || len(mine[i]) > 0 && name != "feedstock" && len(a) != len(b) {
					t.Errorf("%s: %q %v gives %d numbers, gave %d, or others", what, name, mine[i], len(b), len(a))
					break
				}
			}
			if len(theirs) == 0 {
				t.Errorf("%s: no stream %q", what, name)
			}
		}
		for name := range other.asked {
			unit := what == "steps to come" && (name == "loader 3 breakdown" || name == "truck 3 breakdown") // which is not there before
			if base.asked[name] == nil && !unit {
				t.Errorf("%s: a stream %q of its own", what, name)
			}
		}
		// What varies by the day alone is drawn as often.
		for _, name := range []string{"production", "cake solids", "feedstock"} {
			if a, b := count(base, name), count(other, name); a != b {
				t.Errorf("%s: %s numbers of %q, %s before", what, b, name, a)
			}
		}
	}
}

func count(o *onlooker, name string) string {
	var n []string
	for _, s := range o.values[name] {
		n = append(n, fmt.Sprint(len(s.drawn)))
	}
	return strings.Join(n, ", ")
}
