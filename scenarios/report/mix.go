package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"loamcast/facility/mix"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/units"
)

// MixTerminal writes the design of a mix: the answer, the loading card, the
// mix against its targets, what there is to load, and the what-if on cake
// solids if it was asked for.
func MixTerminal(w io.Writer, a *mixplan.Answer, sys units.System) error {
	m := mixText{newPage(sys), a}
	m.head()
	m.card()
	m.properties()
	m.materials()
	m.sweep()
	m.notes()
	return m.writeTo(w)
}

type mixText struct {
	*page
	a *mixplan.Answer
}

func (m mixText) head() {
	a := m.a
	m.para("%s", m.headline())
	m.para("%s", m.binds())
	b := a.Design
	full := "full by volume"
	if b.ByPayload {
		full = "full by the payload"
	}
	m.para("A vessel takes %s of %s: %s, %s, %s; %s of cake, %s dry. Of the chips %s are recovered.",
		batches(b.Batches), scaleText(b.Load/float64(b.Batches), m.sys), m.show(b.Load, mass),
		m.show(b.LoadVolume, volume), full, m.show(b.Cake, mass), m.show(b.CakeDry, mass), m.with(b.RecoveredShare, share, 0))
	if b.Priced {
		m.para("It costs %s a vessel, %s of dry cake.", m.show(b.Cost, costUSD), m.show(b.CostPerDry, perDry))
	}
	m.para("%s", m.againstRun())
	if len(b.Unmet) > 0 {
		m.para("Warning: a %s load of this mix does not meet %s in the time that the file gives it; see `loamcast cycle --month %s`.",
			a.Month, list(b.Unmet), strings.ToLower(a.Month.String()[:3]))
	}
	m.para("%s, %s, cake of %s solids%s. Recovered chips are those that this mix gives back, month after month.",
		shorten(printable(a.Facility), 40), a.Month, m.with(a.CakeSolids, share, 1), whatIf(a))
	if a.Invented {
		m.para(inventedNotice)
	}
}

const inventedNotice = "INVENTED DATA: this is an example; no such plant exists."

func whatIf(a *mixplan.Answer) string {
	if a.WhatIf {
		return " (asked for)"
	}
	return ""
}

// headline is the answer in a sentence or two.
func (m mixText) headline() string {
	a := m.a
	if a.Met() {
		return fmt.Sprintf("Load %s in %s: %s.", m.perCake(), a.Month, m.qualities())
	}
	var reasons []string
	for _, miss := range a.Misses {
		reasons = append(reasons, m.miss(miss))
	}
	return fmt.Sprintf("The targets cannot be met in %s, because %s.%s The nearest mix is %s: %s.",
		a.Month, list(reasons), m.heldBack(), m.perCake(), m.qualities())
}

// perCake is the recipe: "2.4 yd3 of chips and 0.2 yd3 of sawdust for each yd3
// of cake".
func (m mixText) perCake() string {
	a := m.a
	unit := volume.label(m.sys)
	one := func(v float64, name string) string {
		return strings.ReplaceAll(fmt.Sprintf("%.2f %s", v, unit), " ", noBreak) + " of " + name
	}
	parts := []string{one(a.Design.ChipsToCake, "chips")}
	for _, x := range a.Materials[m.firstOther():] {
		if x.Used > 0 {
			parts = append(parts, one(x.Used/a.Design.CakeVolume, printable(x.Name)))
		}
	}
	return fmt.Sprintf("%s for each %s of cake", list(parts), unit)
}

// firstOther is the place of the first amendment in Answer.Materials.
func (m mixText) firstOther() int {
	for i, x := range m.a.Materials {
		if x.Amendment {
			return i
		}
	}
	return len(m.a.Materials)
}

func (m mixText) qualities() string {
	b := m.a.Design
	return fmt.Sprintf("moisture %s, C:N\u00a0%.0f, free air space %s",
		m.with(b.Moisture, share, 0), b.CarbonToNitrogen, m.with(b.FreeAirSpace, share, 0))
}

// miss says by how much the nearest mix misses a target.
func (m mixText) miss(x mix.Miss) string {
	q := mixplan.QualityOf(x.Target)
	reached, required, most := x.Reached, x.Required, x.Target.AtMost()
	if q == mixplan.Moisture { // asked for as solids
		reached, required, most = 1-reached, 1-required, !most
	}
	bound, side := "at least", "too low"
	if most {
		bound, side = "at most", "too high"
	}
	return fmt.Sprintf("%s comes to %s where %s %s is asked (%s %s)", qualityName(q), m.quality(q, reached),
		bound, m.quality(q, required), m.difference(q, math.Abs(reached-required)), side)
}

// heldBack says what keeps the nearest mix from coming nearer.
func (m mixText) heldBack() string {
	var by []string
	for _, t := range m.a.Binding {
		by = append(by, m.bound(t))
	}
	for _, name := range m.a.UsedUp {
		if name != "recovered chips" { // fresh ones take their place
			by = append(by, "the "+printable(name)+" on hand")
		}
	}
	if len(by) == 0 {
		return ""
	}
	return " What stands against it: " + list(by) + "."
}

// bound names a target with its limit: "moisture of at most 65 %".
func (m mixText) bound(t mix.Target) string {
	q := mixplan.QualityOf(t)
	most, w := t.AtMost(), m.window(q)
	if q == mixplan.Moisture {
		most = !most
	}
	if most {
		return fmt.Sprintf("%s of at most %s", qualityName(q), m.quality(q, w.High))
	}
	return fmt.Sprintf("%s of at least %s", qualityName(q), m.quality(q, w.Low))
}

func (m mixText) window(q mixplan.Quality) mix.Window {
	for _, p := range m.a.Properties {
		if p.Name == q {
			return p.Window
		}
	}
	return mix.Window{}
}

// binds says what decides the mix.
func (m mixText) binds() string {
	a := m.a
	if !a.Met() {
		return "Change a target, the cake or what there is to add; the margins below say how far each is off." + m.unrest()
	}
	var by []string
	for _, t := range a.Binding {
		by = append(by, m.bound(t))
	}
	text := "No target binds."
	if len(by) > 0 {
		text = "What decides it: " + list(by) + "."
	}
	return text + m.unrest()
}

// unrest warns of a search that did not end in a mix that stays the same.
func (m mixText) unrest() string {
	if m.a.Settled {
		return ""
	}
	return " The search did not come to rest: read the figures as approximate, and a better mix may exist."
}

// difference writes the difference of two values of a quality.
func (m mixText) difference(q mixplan.Quality, v float64) string {
	switch q {
	case mixplan.Moisture, mixplan.FreeAirSpace:
		return m.fixed(v, share, 1) + noBreak + "points"
	}
	return m.quality(q, v)
}

func (m mixText) againstRun() string {
	run, design := m.a.AsRun.ChipsToCake, m.a.Design.ChipsToCake
	if math.Abs(run-design) < 0.05 {
		return fmt.Sprintf("The file's fixed ratio, %.2f, which `run` uses, is this one.", run)
	}
	return fmt.Sprintf("Note: `run` uses the file's fixed ratio, %.2f of chips to 1 of cake, and not %.2f; see its column below.", run, design)
}

func batches(n int) string {
	if n == 1 {
		return "1 batch"
	}
	return fmt.Sprintf("%d batches", n)
}

func scaleText(kg float64, sys units.System) string {
	number, unit := scaleMass(kg, sys)
	return number + noBreak + unit
}

func qualityName(q mixplan.Quality) string {
	return [...]string{"moisture", "C:N", "free air space", "bulk density", "chips to cake"}[q]
}

// quality writes a value of a quality.
func (m mixText) quality(q mixplan.Quality, v float64) string {
	switch q {
	case mixplan.Moisture, mixplan.FreeAirSpace:
		return m.with(v, share, 1)
	case mixplan.BulkDensity:
		return m.show(v, density)
	case mixplan.CarbonToNitrogen:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.2f", v)
}
