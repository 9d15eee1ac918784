package report

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// The screen: a terminal of usual size, without its last two columns.
const (
	screenLines   = 40
	screenColumns = 98
)

// Terminal writes a summary that fits one screen of 40 lines by 100 columns.
// It begins with the answer to when vessels run short; then come what goes in
// and out, a table of chosen years, a typical load, the mass balance and the
// most general cautions. Where there is more to say, or long names or numbers make
// lines wrap, the table shows fewer years, and the empty lines go at last.
func Terminal(w io.Writer, a *simulate.Answer, sys units.System) error {
	s := summary{a: a, sys: sys}
	lines := s.lines(mostYears)
	for years := mostYears - 1; len(lines) > screenLines && years >= leastYears; years-- {
		lines = s.lines(years)
	}
	if len(lines) > screenLines {
		lines = slices.DeleteFunc(lines, func(line string) bool { return line == "" })
	}
	var b strings.Builder
	for _, line := range lines {
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// summary makes the parts of the terminal's screen.
type summary struct {
	a   *simulate.Answer
	sys units.System
}

// lines puts the parts together, with an empty line between them.
func (s summary) lines(years int) []string {
	var all []string
	for _, part := range [][]string{
		s.head(), s.inAndOut(), s.table(years), slices.Concat(s.load(), s.waiting(), s.capacity(), s.overAir(), s.triggered(), s.balance()), s.cautions(),
	} {
		if len(all) > 0 && len(part) > 0 {
			all = append(all, "")
		}
		all = append(all, part...)
	}
	return all
}

// head answers the question, and says what was run.
func (s summary) head() []string {
	a := s.a
	h := a.Headline()
	lines := wrap(h.String(), "", "  ")
	for _, detail := range h.Details() {
		lines = append(lines, wrap(detail, "", "  ")...)
	}
	run := fmt.Sprintf("%s: %s from %s, %s, seed %d. Figures are medians of the replications; "+
		"(%s–%s) is where %s %% of them lie.",
		shorten(printable(a.Facility), 40), counted(len(a.Years), "year"), a.Start,
		counted(a.Replications, "replication"), a.Seed,
		quantileName(a.Level.Low), quantileName(a.Level.High), plainNumber(100*(a.Level.High-a.Level.Low)))
	lines = append(lines, wrap(run, "", "  ")...)
	if a.Invented {
		lines = append(lines, "INVENTED DATA: this is an example; no such plant exists.")
	}
	return lines
}

// inAndOut says what crosses the fence in the first and the last year.
func (s summary) inAndOut() []string {
	years := s.a.Years
	if len(years) == 0 {
		return nil
	}
	ends := []*simulate.Year{&years[0]}
	if len(years) > 1 {
		ends = append(ends, &years[len(years)-1])
	}
	var lines []string
	for _, y := range ends {
		lines = append(lines, s.goesIn(y)...)
		lines = append(lines, s.comesOut(y)...)
	}
	return lines
}

func (s summary) goesIn(y *simulate.Year) []string {
	text := fmt.Sprintf("%s cake, %s dry (%s solids); %s fresh chips, %.0f truckloads",
		s.show(y.FeedWet.P50, mass), s.number(y.FeedDry.P50, mass), s.show(ratioOf(y.FeedDry.P50, y.FeedWet.P50), share),
		s.show(y.ChipsBought.P50, volume), y.Truckloads.P50)
	return wrap(text, label(y.Label+" in"), label(""))
}

func (s summary) comesOut(y *simulate.Year) []string {
	text := fmt.Sprintf("%s product (%s), %s taken; %s dry diverted",
		s.show(y.ProductVolume.P50, volume), s.show(y.ProductWet.P50, mass),
		s.show(y.TakenVolume.P50, volume), s.show(y.DivertedDry.P50, mass))
	return wrap(text, label(y.Label+" out"), label(""))
}

// load describes a typical vessel load and what becomes of its chips.
func (s summary) load() []string {
	l := &s.a.Load
	text := fmt.Sprintf("%s of mix from %s batches, %s chips to 1 cake by volume; moisture %s in, %s out; "+
		"%s in the vessel; dry loss %s with curing; %s stay longer to comply, %s fail%s",
		s.bracketed(l.Wet, mass), fmt.Sprintf("%.1f", l.BatchesALoad.P50), units.FormatNumber(l.ChipsPerCakeV),
		s.bracketed(l.Moisture, share), s.bracketed(l.OutMoisture, share), s.bracketed(l.Residence, days),
		s.bracketed(l.DryLoss, share), s.show(l.Late.P50, share), s.show(l.Failed.P50, share), s.failedBy())
	chips := fmt.Sprintf("the screen gives back %s of the coarse, at %s moisture",
		s.bracketed(l.ChipRecovery, share), s.bracketed(l.ScreenedAt, share))
	return append(wrap(text, label("A load"), label("")), wrap(chips, label("Chips"), label(""))...)
}

// failedBy names the criterion that most failed loads missed.
func (s summary) failedBy() string {
	if len(s.a.FailedBy) == 0 || s.a.Load.Failed.P50 == 0 {
		return ""
	}
	top := s.a.FailedBy[0]
	for _, c := range s.a.FailedBy {
		if c.Share > top.Share {
			top = c
		}
	}
	return ", mostly by " + shorten(printable(top.Name), 30)
}

func (s summary) balance() []string {
	b := s.a.Balance
	text := fmt.Sprintf("closes to %s of throughput (worst: %s); bound %s",
		tiny(b.Worst), shorten(printable(b.WorstAt), 34), tiny(b.Bound))
	return wrap(text, label("Mass balance"), label(""))
}

// screenCautions is how many cautions the screen has room for.
const screenCautions = 3

// cautions gives the first sentence of the first cautions.
func (s summary) cautions() []string {
	var lines []string
	for _, c := range answer.Cautions()[:min(screenCautions, len(answer.Cautions()))] {
		lines = append(lines, shorten("! "+printable(firstSentence(c.Text)), screenColumns))
	}
	if n := len(answer.Cautions()); n > 0 {
		lines = append(lines, fmt.Sprintf("All %d cautions with their sources: %s in the report folder.", n, cautionsFile))
	}
	return lines
}

// label is the heading of a line, padded so that the texts line up.
func label(s string) string { return fmt.Sprintf("%-13s", s) }

// number writes a value in the shown unit, without its name.
func (s summary) number(v float64, q quantity) string { return units.FormatNumber(q.in(v, s.sys)) }

// show writes a value with its unit, held together.
func (s summary) show(v float64, q quantity) string {
	text := s.number(v, q) + " " + plural(q.label(s.sys))
	return strings.ReplaceAll(text, " ", noBreak)
}

// bracketed writes the median with the unit, and the interval in brackets
// where its ends differ in the digits shown.
func (s summary) bracketed(x answer.Spread, q quantity) string {
	low, high := s.number(x.P10, q), s.number(x.P90, q)
	if low == high {
		return s.show(x.P50, q)
	}
	return fmt.Sprintf("%s"+noBreak+"(%s–%s)", s.show(x.P50, q), low, high)
}

// plural makes the units that are words plural, as running text wants them.
func plural(unit string) string {
	switch unit {
	case "short ton", "day":
		return unit + "s"
	}
	return unit
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// tiny writes a very small number to one digit: "3e-14".
func tiny(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'e', 0, 64), "e-0", "e-", 1)
}

// ratioOf is a/b, or zero where there is nothing to divide by.
func ratioOf(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}
