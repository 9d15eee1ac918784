package facilityfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/random"
)

// uncertainAt is where an uncertain Input stands: its entry, and the key of its
// distribution.
type uncertainAt struct {
	entry *yamlfile.Map
	form  string
}

// uncertain reads what is not known for sure.
func (r *reader) uncertain() {
	taken := map[string]bool{}
	for _, m := range r.root.ListIf("uncertain") {
		key := m.OneOf("input", inputKeys()...)
		if m.Good("input") && taken[key] {
			m.Error("input", "this input is there already", "keep one of the two")
		}
		taken[key] = true
		in, known := InputNamed(key)
		if !known {
			passOver(m)
			continue
		}
		if !r.p.Priced && r.root.Good("money") && in.UsedBy == ForPlanning {
			m.Error("input", "prices count only where the file has a section on money", "add money, or remove this entry")
		}
		if key == "money.missing" && r.p.Priced && !r.missingPriced {
			m.Error("input", "missing the target has no price that could be uncertain", "add money: {missing: 400 USD/short ton}, or remove this entry")
		}
		if key == "money.carbon.price" && r.p.Priced && !r.carbonPriced {
			m.Error("input", "carbon has no price that could be uncertain", "add money: {carbon: {price: 60 USD/t}}, or remove this entry")
		}
		if why, hint := r.idle(key); why != "" {
			m.Error("input", why, hint)
		}
		in.Low, in.High = r.ends(in)
		d, form := distribution(m, in)
		u := Uncertain{Key: key, Distribution: d, Dimension: in.Dimension, set: in.Set}
		if d != nil {
			u.low, u.high = cut(d, in, form)
			r.warnOfCut(m, form, u, in)
			r.warnOfFile(m, form, u, in)
		}
		r.p.Inputs = append(r.p.Inputs, u)
		r.uncertainAt = append(r.uncertainAt, uncertainAt{m, form})
	}
}

// idle says why the plant of the file would not heed an input, and what to write; nothing
// if it does.
func (r *reader) idle(key string) (why, hint string) {
	switch {
	case key == "screen.dry_enough" && r.group("screen").Good("wet_lots") && r.m.Drying.Gate == plant.ScreenAnyway:
		return "lots are screened as they are, however wet", "add screen: {wet_lots: " + dryFirst + "}, or remove this entry"
	case key == "chips.lead_time" && len(r.m.Chips.Sources) > 0:
		return "each source of chips has a lead time of its own", "write lead_time_variation in the sources, and remove this entry"
	}
	return "", ""
}

// passOver makes the keys of an entry known whose input is not.
func passOver(m *yamlfile.Map) {
	for _, key := range m.Names() {
		if m.IsMap(key) {
			m.MapIf(key).Names()
		}
	}
}

// ends returns what an input may be, which for some depends on the rest of the
// file.
func (r *reader) ends(in Input) (low, high float64) {
	low, high = in.Low, in.High
	v := &r.m.Vessels
	switch in.Key {
	case "vessels.residence":
		high = float64(v.Maximum)
		if r.group("vessels").Has("shortest_residence") {
			low = float64(v.Minimum)
		}
		for _, c := range v.Classes { // that follow the residence that is drawn
			if c.Residence == 0 && c.Maximum != 0 {
				high = min(high, float64(c.Maximum))
			}
			if c.Residence == 0 && c.Minimum != 0 {
				low = max(low, float64(c.Minimum))
			}
		}
		for _, c := range r.m.Active.Criteria {
			if c.Where == process.InVessel {
				low = max(low, c.Hours*hour)
			}
		}
	case "solids.cake_solids":
		if !r.group("solids").Good("cake_solids") {
			return -1, 1 // what is wrong is told there
		}
		low = min(0, leastCakeSolids-r.thinnest)
		high = max(0, mostCakeSolids-r.thickest)
	}
	return low, high
}

// forms are the ways to write a distribution.
var forms = []struct {
	key  string
	read func(*yamlfile.Map, Input) random.Distribution
}{
	{"uniform", uniform},
	{"triangular", triangular},
	{"pert", pert},
	{"normal", normal},
	{"lognormal", lognormal},
	{"empirical", empirical},
}

// distribution reads the one form that an entry has, or returns nil.
func distribution(m *yamlfile.Map, in Input) (d random.Distribution, form string) {
	var known, given []string
	for _, f := range forms {
		known = append(known, f.key)
		if !m.Has(f.key) {
			continue
		}
		read := f.read(m, in) // even of a second form, so that its keys are known
		if len(given) == 0 {
			d, form = read, f.key
		}
		given = append(given, f.key)
	}
	if len(given) > 1 {
		m.Error(given[1], "the distribution is given already, by "+form, "keep one of "+strings.Join(known, ", "))
		return nil, form
	}
	if form == "" && m.Good("input") && !m.Strange() { // a key that is not known is told as such
		m.Error("input", "it is not said how this is spread", "add one of "+strings.Join(known, ", "))
	}
	if !m.Good("input", form) {
		return nil, form
	}
	return d, form
}

// within asks for the range of an input.
func (in Input) within() yamlfile.Check { return yamlfile.Between(in.Low, in.High) }

// values reads a list of so many values in rising order.
func values(m *yamlfile.Map, key string, in Input, what ...string) []float64 {
	list := m.Quantities(key, in.Dimension, in.within())
	switch {
	case !m.Good(key):
	case len(list) != len(what):
		m.Error(key, fmt.Sprintf("the list has %d entries where %d are needed", len(list), len(what)), "write "+strings.Join(what, ", "))
	case !slices.IsSorted(list):
		m.Error(key, "the values are not in rising order", "write "+strings.Join(what, ", "))
	case list[0] == list[len(list)-1]:
		m.Error(key, "the least and the largest are the same, so that nothing is uncertain", "spread them, or remove this entry")
	}
	if !m.Good(key) {
		return make([]float64, len(what))
	}
	return list
}

func uniform(m *yamlfile.Map, in Input) random.Distribution {
	v := values(m, "uniform", in, "the least", "the largest")
	return random.Uniform{Min: v[0], Max: v[1]}
}

func triangular(m *yamlfile.Map, in Input) random.Distribution {
	v := values(m, "triangular", in, "the least", "the most likely", "the largest")
	return random.Triangular{Min: v[0], Mode: v[1], Max: v[2]}
}

func pert(m *yamlfile.Map, in Input) random.Distribution {
	v := values(m, "pert", in, "the least", "the most likely", "the largest")
	return random.PERT{Min: v[0], Mode: v[1], Max: v[2]}
}

func normal(m *yamlfile.Map, in Input) random.Distribution {
	g := m.MapIf("normal")
	d := random.Normal{Expected: g.Quantity("mean", in.Dimension, in.within()), SD: g.Quantity("sd", in.Dimension, yamlfile.Positive(), yamlfile.AtMost(in.High-in.Low))}
	return ifGood(g, d, "mean", "sd")
}

func lognormal(m *yamlfile.Map, in Input) random.Distribution {
	g := m.MapIf("lognormal")
	d := random.LognormalMeanCV{
		Expected: g.Quantity("mean", in.Dimension, yamlfile.Positive(), in.within()),
		CV:       g.Quantity("variation", units.Fraction, yamlfile.Between(leastVariation, mostVariation)),
	}
	return ifGood(g, d, "mean", "variation")
}

// ifGood returns a distribution of which nothing was complained, or nil.
func ifGood(g *yamlfile.Map, d random.Distribution, keys ...string) random.Distribution {
	if !g.Present() || !g.Good(keys...) {
		return nil
	}
	return d
}

func empirical(m *yamlfile.Map, in Input) random.Distribution {
	list := slices.Clone(m.Quantities("empirical", in.Dimension, in.within()))
	if m.Good("empirical") && len(list) < 2 {
		m.Error("empirical", "a single value is not uncertain", "write the values that were measured, two or more")
	}
	slices.Sort(list) // so that a draw grows with its random number
	return random.Empirical{Values: list}
}

// tail is the probability on either side at which a distribution without end is
// cut.
const tail = 1e-4

// cut returns between what values an input is drawn.
func cut(d random.Distribution, in Input, form string) (low, high float64) {
	if form == "normal" || form == "lognormal" {
		return max(in.Low, d.Quantile(tail)), min(in.High, d.Quantile(1-tail))
	}
	return in.Low, in.High
}

// warnOfCut warns of a distribution of which more than 1 % lies beyond the range
// of its input on one side.
func (r *reader) warnOfCut(m *yamlfile.Map, form string, u Uncertain, in Input) {
	const much = 0.01
	side, at := "below", in.Low
	switch {
	case u.Distribution.Quantile(much) < in.Low:
	case u.Distribution.Quantile(1-much) > in.High:
		side, at = "above", in.High
	default:
		return
	}
	m.Warn(form, fmt.Sprintf("more than 1 %% of it lies %s %s and is moved there", side, units.Format(at, in.Dimension, r.units)), "narrow it, or use another form")
}

// warnOfFile warns of an input that is never drawn near the value that stands above
// in the file, which a run keeps: one of the two is out of date.
func (r *reader) warnOfFile(m *yamlfile.Map, form string, u Uncertain, in Input) {
	if in.Get == nil {
		return
	}
	value, low, high := in.Get(r.parts), u.Quantile(0), u.Quantile(1)
	if slack := 1e-9 * math.Abs(value); value >= low-slack && value <= high+slack {
		return
	}
	m.Warn(form, units.Format(value, in.Dimension, r.units)+", the value of the file, is never drawn",
		fmt.Sprintf("drawn are %s to %s: bring the two together", units.Format(low, in.Dimension, r.units), units.Format(high, in.Dimension, r.units)))
}

// possible refuses uncertain Inputs that would give a plant that cannot run: each
// at either end, and those of the cake, which must fit together, in every
// combination of their ends.
func (r *reader) possible() {
	var cake []int
	for i, u := range r.p.Inputs {
		if !r.tried(i) {
			return
		}
		if strings.HasPrefix(u.Key, "cake.") {
			cake = append(cake, i)
		}
	}
	if len(cake) > 1 {
		r.tried(cake...)
	}
}

// tried reports whether the plant can run with some inputs at any of their ends,
// and complains at the last of them if it cannot.
func (r *reader) tried(which ...int) bool {
	for corner := range 1 << len(which) {
		m, e := *r.m, r.p.Economy
		for bit, i := range which {
			in := &r.p.Inputs[i]
			in.set(Parts{Model: &m, Economy: &e}, in.Quantile(float64(corner>>bit&1)))
		}
		if err := m.Validate(); err != nil {
			r.refuse(which[len(which)-1], err)
			return false
		}
	}
	return true
}

// refuse says why an input must not be spread as it is.
func (r *reader) refuse(i int, err error) {
	in, at := &r.p.Inputs[i], r.uncertainAt[i]
	low, high := units.Format(in.Quantile(0), in.Dimension, r.units), units.Format(in.Quantile(1), in.Dimension, r.units)
	at.entry.Error(at.form, "from "+low+" to "+high+" the plant cannot always run: "+oneLine(err).Error(), "narrow it")
}
