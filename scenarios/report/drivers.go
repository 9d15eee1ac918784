package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"loamcast/scenarios/document"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/units"
	"loamcast/sim/sensitivity"
	"loamcast/sim/stats"
)

// DriversTerminal writes what moves an answer most: a sentence, the inputs in
// order with how far each moves it, and how that was found.
func DriversTerminal(w io.Writer, a *drivers.Answer, sys units.System) error {
	d := newDriversText(a, sys)
	for d.fill(); len(d.text) > screenLines && d.rows > leastDrivers; d.fill() {
		d.rows--
	}
	return d.writeTo(w)
}

// leastDrivers is how many rows the table has at least, if there are so many.
const leastDrivers = 5

// fill writes the whole text anew.
func (d *driversText) fill() {
	d.text = nil
	d.para("%s", d.headline())
	d.para("%s", d.context())
	if d.a.Invented {
		d.para("%s: %s", shorten(printable(d.a.Facility), 40), inventedNotice)
	}
	d.table("How far each input moves it over its range, the largest effect first", d.columns())
	d.notes()
	d.blank()
	d.para("! It ranks what to find out more about; it says nothing of inputs that the file takes as known.")
}

type driversText struct {
	*page
	a        *drivers.Answer
	rows     int      // of the table
	short    string   // name of the output in a few words
	measure  quantity // of the output
	unit     string   // of the output, in text
	cell     quantity // of the output in tables, which show it in cellUnit
	cellUnit string
	decimals int
}

func newDriversText(a *drivers.Answer, sys units.System) *driversText {
	d := &driversText{page: newPage(sys), a: a, rows: len(a.Drivers) + 1}
	switch a.Output {
	case drivers.ChipsBought:
		d.short = "the fresh chips bought a year"
		d.measure, d.unit = volume, volume.label(sys)+" a year"
		d.cell, d.cellUnit = volume, volume.label(sys)+"/year"
	case drivers.PresentWorth:
		d.short = "the present worth of the costs"
		d.measure, d.unit = costUSD, costUSD.label(sys)
		d.cell, d.cellUnit = quantity{units.Money, 1e-3}, "1000 USD"
	default:
		d.short = "the year of the first miss"
		d.measure, d.unit = count, "years"
		d.cell, d.cellUnit, d.decimals = count, "years", 1
	}
	return d
}

// named is the output in a sentence.
func (d *driversText) named() string {
	if d.a.Output != drivers.VesselYear {
		return d.short
	}
	miss := verb(d.a.Installed == 1 && !d.a.Committed, "misses", "miss")
	return "the year in which the " + d.vessels() + " first " + miss + " the service target"
}

func (d *driversText) vessels() string {
	text := vesselCount(d.a.Installed)
	if d.a.Installed == 1 {
		text = "one vessel"
	}
	if d.a.Committed {
		text += " and those that the file adds"
	}
	return text
}

// headlineNames is how many inputs the headline names at most.
const headlineNames = 3

// headline is the answer in a sentence or two.
func (d *driversText) headline() string {
	a := d.a
	first := &a.Drivers[0]
	above := 0
	for i := range a.Drivers {
		if a.Above(&a.Drivers[i]) {
			above++
		}
	}
	switch {
	case a.Kept == 1:
		return fmt.Sprintf("Nothing that is uncertain makes the %s miss the service target: it is kept through %s in every run.",
			d.vessels(), a.Label(a.Years-1))
	case first.Effect.MuStar.Estimate == 0:
		return fmt.Sprintf("Nothing that is uncertain moves %s.", d.named())
	case above == 0:
		return fmt.Sprintf("Nothing that is uncertain moves %s more than luck alone does (%s): the most is %s, %s.",
			d.named(), d.size(a.Luck.Effect), first.Name(), d.size(first.Effect))
	}
	text := fmt.Sprintf("What moves %s most is %s: over its range it moves it by %s", d.named(), first.Name(), d.size(first.Effect))
	more := a.Drivers[1:min(above, headlineNames)]
	next := "next "
	for i := range more {
		text += fmt.Sprintf("; %s%s, %s", next, more[i].Name(), d.size(more[i].Effect))
		next = ""
	}
	return text + d.rest(a.Drivers[1+len(more):], above) + "." + d.tooNear()
}

// rest says how little the inputs do that the headline does not name.
func (d *driversText) rest(list []drivers.Driver, above int) string {
	switch {
	case len(list) == 0:
		return ""
	case list[0].Effect.MuStar.Estimate == 0:
		return "; " + d.others(list) + " not at all"
	case above <= headlineNames:
		return fmt.Sprintf("; %s no more than luck alone, %s", d.others(list), d.size(d.a.Luck.Effect))
	}
	text := fmt.Sprintf("; %s by %s", d.others(list), d.size(list[0].Effect))
	if len(list) > 1 {
		text += " or less"
	}
	return text
}

func (d *driversText) others(list []drivers.Driver) string {
	if len(list) == 1 {
		return list[0].Name()
	}
	return "the rest"
}

// tooNear says that the order of the first two may be otherwise.
func (d *driversText) tooNear() string {
	if list := d.a.Drivers; len(list) > 1 && list[1].Effect.MuStar.High > list[0].Effect.MuStar.Low && d.a.Above(&list[1]) {
		return " The first two are too near to each other to be sure of their order."
	}
	return ""
}

// size writes an effect with two digits and its unit.
func (d *driversText) size(e sensitivity.Effect) string {
	v := d.measure.in(e.MuStar.Estimate, d.sys)
	if v > 0 {
		digit := math.Pow(10, math.Floor(math.Log10(v))-1)
		v = digit * math.Round(v/digit)
	}
	return strings.ReplaceAll(units.FormatNumber(v)+" "+d.unit, " ", noBreak)
}

// context says where the output lies.
func (d *driversText) context() string {
	a := d.a
	if a.Output != drivers.VesselYear {
		return fmt.Sprintf("Over the sets of inputs tried it is %s%s%s in the mean, from %s to %s.",
			d.fixed(a.Mean, d.measure, 0), noBreak, strings.ReplaceAll(d.unit, " ", noBreak), d.fixed(a.Least, d.measure, 0), d.fixed(a.Most, d.measure, 0))
	}
	text := fmt.Sprintf("Over the sets of inputs tried the target is missed first after %.1f%syears in the mean, %s; at the earliest after %.1f%s, at the latest after %.1f%s.",
		a.Mean, noBreak, d.year(a.Mean), a.Least, d.inBrackets(a.Least), a.Most, d.inBrackets(a.Most))
	if a.Kept > 0 {
		text += fmt.Sprintf(" In %s of the runs it is kept to the end of the %d%syears: these count as missed at the end, so that true effects may be larger.",
			document.ShareText(a.Kept), a.Years, noBreak)
	}
	return text
}

func (d *driversText) year(at float64) string {
	if int(at) >= d.a.Years {
		return "the end of the horizon"
	}
	return "in " + d.a.Label(int(at))
}

func (d *driversText) inBrackets(at float64) string { return " (" + d.year(at) + ")" }

// columns is the table of inputs, with luck where it belongs. Shares of the
// variance take the place of what says how sure the effect is.
func (d *driversText) columns() []column {
	list := d.inOrder()[:d.rows]
	cells := func(cell func(*drivers.Driver) string) []string { return cellsOf(list, cell) }
	input := []column{
		words([]string{"Input", ""}, cells(func(x *drivers.Driver) string { return shorten(printable(x.Title()), 31) })),
		{headings: []string{"nine times in ten", "from … to"}, cells: cells(d.ends)},
	}
	effect := column{group: "moves it by", headings: []string{"", d.cellUnit}, cells: cells(func(x *drivers.Driver) string { return d.inCell(x.Effect.MuStar.Estimate) })}
	rises := column{headings: []string{"when it", "rises"}, cells: cells(d.rises)}
	if d.a.Rows > 0 {
		effect.group, effect.headings[0] = "", "moves it by"
		return append(input, effect, rises,
			column{group: "variance, %", headings: []string{"", "alone"}, cells: cells(func(x *drivers.Driver) string { return part(x.Share.First) })},
			column{group: "variance, %", headings: []string{"", "in all"}, cells: cells(func(x *drivers.Driver) string { return part(x.Share.Total) })})
	}
	return append(input, effect,
		column{group: "moves it by", headings: []string{"95 %", "interval"}, cells: cells(func(x *drivers.Driver) string {
			return d.inCell(x.Effect.MuStar.Low) + "–" + d.inCell(x.Effect.MuStar.High)
		})},
		rises,
		column{headings: []string{"uneven", "by"}, cells: cells(func(x *drivers.Driver) string { return d.inCell(x.Effect.Sigma) })})
}

// part writes a share of the variance with its interval. Below nothing there is
// only sampling error.
func part(i stats.Interval) string {
	percent := func(v float64) string { return fmt.Sprintf("%.0f", 100*max(0, v)) }
	return fmt.Sprintf("%s (%s–%s)", percent(i.Estimate), percent(i.Low), percent(i.High))
}

// inCell writes a value of the output in a table.
func (d *driversText) inCell(v float64) string { return d.fixed(v, d.cell, d.decimals) }

// inOrder lists the inputs with luck before those that do less.
func (d *driversText) inOrder() []drivers.Driver {
	at := 0
	for at < len(d.a.Drivers) && d.a.Above(&d.a.Drivers[at]) {
		at++
	}
	return slices.Insert(slices.Clone(d.a.Drivers), at, d.a.Luck)
}

// ends are between which values an input lies.
func (d *driversText) ends(x *drivers.Driver) string {
	switch {
	case x.Key == drivers.LuckKey:
		return ""
	case x.LowName != "":
		return shorten(printable(x.LowName), 12) + " to " + shorten(printable(x.HighName), 12)
	}
	q := quantity{x.Dimension, 1}
	return d.number(x.Low, q) + " to " + plainSpaces(d.show(x.High, q))
}

// directions are what an output does when an input rises, and when not always the
// same.
var directions = [...]struct{ up, down string }{
	drivers.VesselYear:   {"later", "sooner"},
	drivers.ChipsBought:  {"more", "fewer"},
	drivers.PresentWorth: {"dearer", "cheaper"},
}

// rises says what happens when an input rises, if it is nearly always the same.
func (d *driversText) rises(x *drivers.Driver) string {
	const nearly = 0.9
	e := x.Effect
	switch {
	case x.Key == drivers.LuckKey || e.MuStar.Estimate == 0:
		return "-"
	case e.Mu > nearly*e.MuStar.Estimate:
		return directions[d.a.Output].up
	case e.Mu < -nearly*e.MuStar.Estimate:
		return directions[d.a.Output].down
	}
	return "either"
}

// notes say how the figures were found.
func (d *driversText) notes() {
	a := d.a
	if left := len(a.Drivers) + 1 - d.rows; left > 0 {
		d.para("%s more, which move it no more than the last of these, are in the tables.", counted(left, "row"))
	}
	d.para("Moves it by: twice what half of the input's range does in the mean (elementary effects, Morris 1991); %d paths of %d points, each the mean of %s over the horizon.%s",
		a.Trajectories, a.Points, counted(a.Replications, "run"), d.uneven())
	d.para("Luck alone: what an input without effect would seem to do if it were tried with other days, weather, breakdowns and deliveries each time. All inputs meet the same luck: an effect somewhat below may yet be real.")
	if a.Output == drivers.VesselYear {
		d.para("Service target: %v. A run alone misses it in a year that has more of either; between the ends of years they go in a straight line.", a.Target)
	}
	if a.Unpriced {
		d.para("The uncertain prices of the file move the cost alone and are left out.")
	}
	if a.Correlated {
		d.para("Each input is moved alone: the correlations of the file play no part.")
	}
	if a.Rows > 0 {
		d.para("Variance (Jansen 1999, %d rows; 95 %% intervals): of that of one run's answer, whose standard deviation is %s%s%s, an input accounts for so much alone, and in all with what it does together with others.",
			a.Rows, d.fixed(a.SD, d.measure, d.decimals), noBreak, strings.ReplaceAll(d.unit, " ", noBreak))
	}
	d.para("%d runs, seed %d.", a.Runs, a.Seed)
}

// uneven explains the column of that name, if it is there.
func (d *driversText) uneven() string {
	if d.a.Rows > 0 {
		return ""
	}
	return " Uneven by: the standard deviation of these moves; near the effect, the input bends or works with others."
}
