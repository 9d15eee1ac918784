package drivers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/sensitivity"
)

// Document tells what moves an answer most: a sentence, the inputs in order with
// how far each moves it, and how that was found.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	a.facts(d)
	d.Para("%s", a.context())
	if a.Invented {
		d.Para("%s: %s", doc.Name(a.Facility, 40), doc.Invented)
	}
	d.Add(a.shown(), a.inputs())
	a.notes(d)
	d.Add(doc.Gap{})
	d.Para("! It ranks what to find out more about; it says nothing of inputs that the file takes as known.")
	d.Figures = a.figures()
	return d
}

// facts are what files have beside the inputs.
func (a *Answer) facts(d *doc.Document) {
	q := a.Output.quantity()
	d.Fact("answer", doc.Count, a.Output.String())
	d.Fact("option", doc.Count, a.Of.Name)
	d.Fact("mean", q, a.Mean)
	d.Fact("least", q, a.Least)
	d.Fact("most", q, a.Most)
	switch {
	case a.byRuns():
		d.Fact("single_runs_because", doc.Count, a.ByRuns)
		d.Fact("runs_kept_to_the_end", doc.Share, a.Kept)
	case a.Output == VesselYear:
		d.Fact("all_inputs_at_their_medians", q, a.Median)
		d.Fact("points_kept_to_the_end", doc.Share, a.Kept)
		d.Fact("points_missed_from_the_start", doc.Share, a.Begun)
		d.Fact("years_simulated", doc.Count, a.Simulated)
	}
	d.Fact("paths", doc.Count, a.Trajectories)
	d.Fact("points_of_a_path", doc.Count, a.Points)
	d.Fact("runs_of_a_point", doc.Count, a.RunsAPoint)
	if a.Rows > 0 {
		d.Fact("variance_rows", doc.Count, a.Rows)
		d.Fact("standard_deviation", q, a.SD)
	}
	d.Fact("runs", doc.Count, a.Runs)
	d.Fact("correlations_left_out", doc.Count, a.Correlated)
}

// quantity is what an output is measured in.
func (o Output) quantity() doc.Quantity {
	switch o {
	case ChipsBought:
		return doc.VolumeAYear
	case PresentWorth:
		return doc.Money
	}
	return doc.Years
}

// named is the output in a sentence.
func (a *Answer) named() string {
	switch {
	case a.Output == ChipsBought:
		return "the fresh chips bought a year" + a.Of.of()
	case a.Output == PresentWorth:
		return fmt.Sprintf("the present worth of the costs%s (money of %d)", a.Of.of(), a.PricesOf)
	case !a.byRuns():
		return "the year from which " + a.missing() + " of the years miss the service target with the " + a.vessels()
	}
	miss := "miss"
	if a.Installed == 1 && !a.Committed {
		miss = "misses"
	}
	return "the mean year in which the " + a.vessels() + " first " + miss + " the service target"
}

// ofYear says behind an amount of money of which year it is.
func (a *Answer) ofYear() string {
	if a.Output != PresentWorth {
		return ""
	}
	return fmt.Sprintf(" of %d", a.PricesOf)
}

// byRuns reports whether the vessels' year is a mean over runs.
func (a *Answer) byRuns() bool { return a.Output == VesselYear && a.ByRuns != "" }

// missing is the share of years that a target does not allow.
func (a *Answer) missing() string { return "more than " + doc.ShareText(a.Target.MissShare) }

func (a *Answer) vessels() string {
	text := doc.Counted(a.Installed, "vessel")
	if a.Installed == 1 {
		text = "one vessel"
	}
	if a.Committed {
		text += " and those that the file adds"
	}
	return text
}

// headlineNames is how many inputs the headline names at most.
const headlineNames = 3

// headline is the answer in a sentence or two.
func (a *Answer) headline() doc.Text {
	first, above := &a.Drivers[0], a.AboveNoise()
	switch {
	case a.Kept == 1 && !a.byRuns():
		return doc.Say("Nothing that is uncertain makes %s of the years miss the service target with the %s: it is kept through %s at every set of inputs tried.",
			a.missing(), a.vessels(), a.Label(a.Horizon-1))
	case a.Kept == 1:
		return doc.Say("Nothing that is uncertain makes the %s miss the service target: it is kept through %s in every run.",
			a.vessels(), a.Label(a.Horizon-1))
	case first.Effect.MuStar.Estimate == 0:
		return doc.Say("Nothing that is uncertain moves %s.", a.named())
	case above == 0:
		return doc.Say("Nothing that is uncertain moves %s more than chance alone does (%s): the most is %s, %s.",
			a.named(), a.size(a.Noise.Effect), first.Name(), a.size(first.Effect))
	}
	text := doc.Say("What moves %s most is %s: over its range it moves it by %s", a.named(), first.Name(), a.size(first.Effect))
	more := a.Drivers[1:min(above, headlineNames)]
	next := "next "
	for i := range more {
		text = text.Then("; %s%s, %s", next, more[i].Name(), a.size(more[i].Effect))
		next = ""
	}
	text = text.Then("%s.", a.rest(a.Drivers[1+len(more):], above))
	if a.TooNear() {
		text = text.Then(" The first two are too near to each other to be sure of their order.")
	}
	return text
}

// rest says how little the inputs do that the headline does not name.
func (a *Answer) rest(list []Driver, above int) doc.Text {
	switch {
	case len(list) == 0:
		return doc.Text{}
	case list[0].Effect.MuStar.Estimate == 0:
		return doc.Say("; %s not at all", others(list))
	case above <= headlineNames:
		return doc.Say("; %s no more than chance alone, %s", others(list), a.size(a.Noise.Effect))
	}
	text := doc.Say("; %s by %s", others(list), a.size(list[0].Effect))
	if len(list) > 1 {
		text = text.Then(" or less")
	}
	return text
}

func others(list []Driver) string {
	if len(list) == 1 {
		return list[0].Name()
	}
	return "the rest"
}

// between is a range whose ends have as many decimals as its width has two digits.
type between struct {
	low, high float64
	quantity  doc.Quantity
	points    bool // what is added to percents, and is none itself
}

// In implements [doc.Part].
func (b between) In(sys units.System) string {
	decimals := 0
	if width := math.Abs(b.quantity.In(b.high, sys) - b.quantity.In(b.low, sys)); width > 0 {
		decimals = max(0, 1-int(math.Floor(math.Log10(width))))
	}
	text := doc.Fixed(b.low, b.quantity, decimals).In(sys) + " to " + doc.With(b.high, b.quantity, decimals).In(sys)
	if b.points {
		text = strings.Replace(text, "%", "points", 1)
	}
	return text
}

// size is an effect with two digits and its unit, though with no more decimals than the
// table has unless it would be nothing then.
type size struct {
	effect   float64
	quantity doc.Quantity
	decimals int
}

func (a *Answer) size(e sensitivity.Effect) size {
	return size{e.MuStar.Estimate, a.Output.quantity(), a.Output.decimals()}
}

// In implements [doc.Part].
func (s size) In(sys units.System) string {
	v := s.quantity.In(s.effect, sys)
	if v > 0 {
		digit := math.Pow(10, math.Floor(math.Log10(v))-1)
		if last := math.Pow(10, -float64(s.decimals)); v >= last/2 {
			digit = max(digit, last)
		}
		v = digit * math.Round(v/digit)
	}
	return strings.ReplaceAll(units.FormatNumber(v)+" "+doc.Units{Quantity: s.quantity}.In(sys), " ", doc.NoBreak)
}

// context says where the output lies.
func (a *Answer) context() doc.Text {
	q := a.Output.quantity()
	if a.Output != VesselYear {
		return doc.Say("Over the sets of inputs tried it is %s%s in the mean, from %s to %s.",
			doc.With(a.Mean, q, 0), a.ofYear(), doc.Fixed(a.Least, q, 0), doc.Fixed(a.Most, q, 0))
	}
	if !a.byRuns() {
		return a.yearContext()
	}
	text := doc.Say("Over the sets of inputs tried the target is missed first after %.1f"+doc.NoBreak+"years in the mean, %s; at the earliest after %.1f (%s), at the latest after %.1f (%s).",
		a.Mean, a.year(a.Mean), a.Least, a.year(a.Least), a.Most, a.year(a.Most))
	if a.Kept > 0 {
		text = text.Then(" In %s of the runs it is kept to the end of the %d"+doc.NoBreak+"years: these count as missed at the end, so that true effects may be larger.",
			doc.ShareText(a.Kept), a.Horizon)
	}
	return text.Then(" It is a mean over runs, and not the year of loamcast when, because %s; it is no date to order by, for some runs miss the target long before.", a.ByRuns)
}

// yearContext says where the year lies from which on the target is missed.
func (a *Answer) yearContext() doc.Text {
	growth := ""
	if a.Main != "" {
		growth = fmt.Sprintf(" and growth “%s”", doc.Name(a.Main, 40))
	}
	var text doc.Text
	if a.Median < float64(a.Horizon) {
		text = doc.Say("With every uncertain input at its median%s, that is %.1f"+doc.NoBreak+"years after the start (%s).", growth, a.Median, a.year(a.Median))
	} else {
		text = doc.Say("With every uncertain input at its median%s, the target is kept to the end of the %d"+doc.NoBreak+"years.", growth, a.Horizon)
	}
	text = text.Then(" Over the sets of inputs tried it is %.1f"+doc.NoBreak+"years in the mean (%s), %.1f at the earliest (%s), %.1f at the latest (%s).",
		a.Mean, a.year(a.Mean), a.Least, a.year(a.Least), a.Most, a.year(a.Most))
	if a.Kept > 0 {
		text = text.Then(" In %s of them the target is kept to the end: these count as missed from then on, so that true effects may be larger.", doc.ShareText(a.Kept))
	}
	if a.Begun > 0 {
		text = text.Then(" In %s of them it is missed from the first year on: these count as missed from the start.", doc.ShareText(a.Begun))
	}
	return text.Then(" For a date to order by ask loamcast when: it answers with all that is uncertain at once.")
}

// year is in which year of the horizon a time lies.
func (a *Answer) year(at float64) string {
	if int(at) >= a.Horizon {
		return "the end of the horizon"
	}
	return "in " + a.Label(int(at))
}

// notes say how the figures were found.
func (a *Answer) notes(d *doc.Document) {
	each := fmt.Sprintf(", each the mean of %s over the horizon", doc.Counted(a.RunsAPoint, "run"))
	if a.Output == VesselYear && !a.byRuns() {
		each = ""
	}
	d.Para("Moves it by: twice what half of the input's range does in the mean (elementary effects, Morris 1991); %d paths of %d points%s.%s",
		a.Trajectories, a.Points, each, a.uneven())
	d.Para("Chance alone: what an input without effect would seem to do if it were tried with other days, weather, breakdowns and deliveries each time. All inputs meet the same chance events: an effect somewhat below may yet be real.")
	switch {
	case a.byRuns():
		d.Para("Service target: %v. A run alone misses it in a year that has more of either; between the ends of years they go in a straight line.", a.Target)
	case a.Output == VesselYear:
		d.Para("Service target: %v.", a.Target)
		d.Add(doc.Paragraph{Rank: 1, Text: doc.Say("How much more or less the plant carries with a set of inputs than with every input at its median is found by %s of each up a ramp of production in the same days, weather, breakdowns and deliveries%s. The year is that in which the production of the set passes it; between years it goes in a straight line.",
			doc.Counted(a.RunsAPoint, "run"), a.changes())})
	}
	switch {
	case a.Of.Found:
		d.Para("The best of the catalogue is what `expand` finds: %s.", a.Of.Words)
	case a.Of.Name == "" && a.Builds && a.Output == PresentWorth:
		d.Para("That is the plant as it is, which builds no more than the file itself has on dates: what capital does is told for an option, or for the best of the catalogue, by --option.")
	}
	if a.Unpriced {
		d.Para("The uncertain prices of the file move the cost alone and are left out.")
	}
	if a.Correlated {
		d.Para("Each input is moved alone: the correlations of the file play no part.")
	}
	if a.Rows > 0 {
		d.Para("Variance (Jansen 1999, %d rows; 95 %% intervals): of that of %s, whose standard deviation is %s%s, an input accounts for so much alone, and in all with what it does together with others.",
			a.Rows, a.varies(), doc.With(a.SD, a.Output.quantity(), a.Output.decimals()), a.ofYear())
	}
	d.Para("%s, seed %d.", a.effort(), a.Seed)
}

// effort is what was simulated.
func (a *Answer) effort() string {
	if a.Output == VesselYear && !a.byRuns() {
		return doc.Say("%s years simulated, with warm-ups", doc.Bare(float64(a.Simulated), doc.Count)).Plain(units.SI)
	}
	return doc.Counted(a.Runs, "run")
}

// changes says what of the file's own changes the points leave out.
func (a *Answer) changes() string {
	if !a.Committed {
		return ""
	}
	return ", with all that the file adds in use"
}

// varies is what has the variance that inputs account for.
func (a *Answer) varies() string {
	if a.Output == VesselYear && !a.byRuns() {
		return "the year"
	}
	return "one run's answer"
}

// uneven explains the column of that name, if it is there.
func (a *Answer) uneven() string {
	if a.Rows > 0 {
		return ""
	}
	return " Uneven by: the standard deviation of these moves; near the effect, the input bends or works with others."
}

// decimals are those of the output in tables.
func (o Output) decimals() int {
	if o == VesselYear {
		return 1
	}
	return 0
}

// InOrder lists the inputs with the noise before those that do less.
func (a *Answer) InOrder() []Driver {
	return slices.Insert(slices.Clone(a.Drivers), a.AboveNoise(), a.Noise)
}

// Range is between which values an input lies, nine times in ten.
func (d *Driver) Range() doc.Text {
	switch {
	case d.Key == NoiseKey:
		return doc.Text{}
	case d.LowName != "":
		return doc.Words(fmt.Sprintf("%s to %s", doc.Name(d.LowName, 12), doc.Name(d.HighName, 12)))
	}
	return doc.Say("%s", between{d.Low, d.High, d.quantity(), d.added()})
}

func (d *Driver) quantity() doc.Quantity { return doc.Quantity{Dim: d.Dimension, ToBase: 1} }
