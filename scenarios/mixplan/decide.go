package mixplan

import (
	"math"

	"loamcast/facility/mix"
)

// Met reports whether the design meets every target.
func (a *Answer) Met() bool { return len(a.Misses) == 0 }

// Met reports whether the design at these solids meets every target.
func (p *Point) Met() bool { return len(p.Misses) == 0 }

// few is what is not told apart of the chips to cake, m3 per m3: less is no chips.
const few = 0.005

// NoChips reports that the design has no chips: they take it further from its
// targets, or it meets them without. A run always mixes chips.
func (a *Answer) NoChips() bool { return a.Design.ChipsToCake < few }

// AsFile reports whether the file's fixed ratio, which a run uses, is that of the
// design, but for what no loader can tell apart.
func (a *Answer) AsFile() bool {
	const near = 0.05 // m3 per m3
	return math.Abs(a.AsRun.ChipsToCake-a.Design.ChipsToCake) < near
}

// recoveredChips are what the screen gives back.
const recoveredChips = "recovered chips"

// Exhausted names the materials that stand in the way of a better mix because
// there is no more of them. Recovered chips are not among them: fresh ones take
// their place.
func (a *Answer) Exhausted() []string {
	list := []string{}
	for _, name := range a.UsedUp {
		if name != recoveredChips {
			list = append(list, name)
		}
	}
	return list
}

// Amendments are the materials beside cake and chips that the design uses.
func (a *Answer) Amendments() []Material {
	var list []Material
	for _, m := range a.Materials {
		if m.Amendment && m.Used > 0 {
			list = append(list, m)
		}
	}
	return list
}

// Limit is an end of what is asked of a quality.
type Limit struct {
	Quality Quality
	At      float64
	AtMost  bool // or at least
}

// limitOf turns a target, which asks for solids, into one of the mix's moisture.
func limitOf(t mix.Target, at float64) Limit {
	l := Limit{QualityOf(t), at, t.AtMost()}
	if l.Quality == Moisture {
		l.At, l.AtMost = 1-at, !l.AtMost
	}
	return l
}

// Decides are the limits on which the design lies. Where targets are missed, they
// keep it from coming nearer.
func (a *Answer) Decides() []Limit {
	var list []Limit
	for _, t := range a.Binding {
		l := limitOf(t, 0)
		for _, p := range a.Properties {
			if p.Name == l.Quality && l.AtMost {
				l.At = p.Window.High
			} else if p.Name == l.Quality {
				l.At = p.Window.Low
			}
		}
		list = append(list, l)
	}
	return list
}

// Shortfall is a limit that the design misses.
type Shortfall struct {
	Limit
	Reached float64
}

// By is how far the design is off.
func (s Shortfall) By() float64 { return math.Abs(s.Reached - s.At) }

// Shortfalls are the misses as qualities of the mix.
func (a *Answer) Shortfalls() []Shortfall {
	var list []Shortfall
	for _, m := range a.Misses {
		list = append(list, Shortfall{limitOf(m.Target, m.Required), limitOf(m.Target, m.Reached).At})
	}
	return list
}

// Qualities that the design at these solids misses, or, where it misses none,
// those that decide it.
func (p *Point) Qualities() []Quality {
	var list []Quality
	for _, m := range p.Misses {
		list = append(list, QualityOf(m.Target))
	}
	if p.Met() {
		for _, t := range p.Binding {
			list = append(list, QualityOf(t))
		}
	}
	return list
}

// Standing says how a property stands to what is asked of it.
type Standing int

// Standings of properties.
const (
	NotAsked Standing = iota
	Inside
	OnBound
	Outside
)

// String names the standing for files.
func (s Standing) String() string {
	return [...]string{"not asked", "inside", "binds", "missed"}[s]
}

// Standing returns how the property stands.
func (p *Property) Standing() Standing {
	switch {
	case !p.Asked:
		return NotAsked
	case p.Binds:
		return OnBound
	case p.Margin < 0:
		return Outside
	}
	return Inside
}
