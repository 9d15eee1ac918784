package setback

import (
	"fmt"
	"strconv"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// columns are those of the screen behind the first, which say what a row is.
func columns(first ...doc.Col[row]) []doc.Col[row] {
	const more, misses = "more, {units} dry", "misses, %"
	one := func(group string, heads []string, q doc.Quantity, decimals int, of func(*Begin) float64) doc.Col[row] {
		return doc.Num(group, heads, q, decimals, func(r *row) float64 { return of(r.Begin) })
	}
	share := func(head string, of func(*Begin) stats.Interval) doc.Col[row] {
		return doc.Txt(misses, []string{head, ""}, doc.Count, func(r *row) any { return doc.BareShare(of(r.Begin).Estimate) })
	}
	return append(first,
		one(more, []string{"mean", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.Mean }),
		doc.Txt(more, []string{"90 % sure", ""}, doc.Mass, func(r *row) any { return between(r.Untreated.Interval) }),
		one(more, []string{"P10", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.P10 }),
		one(more, []string{"P90", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.P90 }),
		one("", []string{"days", "more"}, doc.Count, 1, func(b *Begin) float64 { return b.Delay.Mean }),
		share("without", func(b *Begin) stats.Interval { return b.Without }),
		share("with", func(b *Begin) stats.Interval { return b.Missed }),
		doc.Left([]string{"target", ""}, func(r *row) any { return judged(r.Verdict) }),
		doc.Txt("", []string{"felt,", "months"}, doc.Count, func(r *row) any { return strconv.Itoa(r.Felt) }))
}

// row is a beginning with what it is of.
type row struct {
	*Begin
	setback *Setback
	year    *Year
}

// between writes the ends of an interval of masses.
func between(i stats.Interval) doc.Text {
	return doc.Say("%s to %s", doc.Fixed(i.Low, doc.Mass, 1), doc.Fixed(i.High, doc.Mass, 1))
}

// judged says on which side of what the target leaves a chance lies.
func judged(v stats.Verdict) string {
	switch v {
	case stats.Below:
		return "kept"
	case stats.Above:
		return "missed"
	}
	return "open"
}

// byMonth is the table of the months in which vessels may fail in a year.
func (a *Answer) byMonth(s *Setback, y *Year) doc.Table {
	var rows []row
	for i := range y.Begins {
		rows = append(rows, row{&y.Begins[i], s, y})
	}
	t := doc.TableOf(doc.Table{In: doc.Screen, More: "; %d months that cost next to nothing are left out", Title: doc.Say("%s in %s, by the month in which it begins: what more leaves untreated, and how many days longer cake waits", doc.Capital(doc.Name(s.Name, longestName)), y.inWords(a))},
		rows, columns(begins)...)
	for i := range t.Rows {
		if b := &y.Begins[i]; b.Nothing() && b.Delay.Mean < waitsFrom && i != y.Least && i != y.Most {
			t.Rows[i].Rank = 1
		}
	}
	return t
}

// seasons is the table of all seasons.
func (a *Answer) seasons() doc.Table {
	var rows []row
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		for k := range s.Years {
			for n := range s.Years[k].Begins {
				if s.Season() {
					rows = append(rows, row{&s.Years[k].Begins[n], s, &s.Years[k]})
				}
			}
		}
	}
	name := doc.Left([]string{"season", ""}, func(r *row) any { return doc.Name(r.setback.Name, longestName) })
	name.Shrink = 9
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("Seasons that are not as usual: what more leaves untreated, and how many days longer cake waits")}, rows, columns(name, begins)...)
}

// begins is the month in which a setback begins.
var begins = doc.Left([]string{"begins", ""}, func(r *row) any { return fmt.Sprintf("%s %d", r.From.Month.String()[:3], r.From.Year) })

// longestName is how much of a setback's name the screen has room for.
const longestName = 30

// files is the table of everything.
func (a *Answer) files() doc.Table {
	type list = doc.Col[row]
	excess := func(name, means string, basis doc.Basis, q doc.Quantity, of func(*Begin) *Excess) []list {
		return []list{
			doc.Spr(name, q, func(r *row) answer.Spread { return of(r.Begin).Spread }).Means(means, basis),
			doc.Est(name+"_of_mean", q, func(r *row) stats.Interval { return of(r.Begin).Interval }).Means("mean of: "+means, basis),
		}
	}
	cols := []list{
		doc.Key("name", func(r *row) any { return r.setback.Name }).Means("setback by its name in the file"),
		doc.Key("begins", func(r *row) any { return r.From }).Means("day on which the setback begins"),
		doc.Any("year", func(r *row) any { return a.Label(r.year.Year) }).Means("year of the horizon in which the setback begins"),
		doc.Any("vessels_out", func(r *row) any { return r.setback.Vessels }).Means("vessels that are out of use"),
		doc.Any("months", func(r *row) any { return r.setback.For.Months }).Means("months that the setback lasts"),
		doc.Any("days", func(r *row) any { return r.setback.For.Days }).Means("days that the setback lasts beyond whole months"),
	}
	cols = append(cols, excess("untreated_more", "solids that leave untreated within twelve months more than without the setback", doc.Dry, doc.Mass, func(b *Begin) *Excess { return &b.Untreated })...)
	cols = append(cols, excess("untreated_in_failed_loads_more", "solids that leave untreated in failed loads within twelve months more than without the setback", doc.Dry, doc.Mass, func(b *Begin) *Excess { return &b.Failed })...)
	cols = append(cols, excess("cake_waits_longer", "how much longer cake waits for what is short, mean of the twelve months", doc.NoBasis, doc.Days, func(b *Begin) *Excess { return &b.Delay })...)
	cols = append(cols, excess("loads_lost_more", "loads that fail more than without the setback", doc.NoBasis, doc.Count, func(b *Begin) *Excess { return &b.Lost })...)
	if a.Money {
		cols = append(cols, excess("tipping_more", "what tipping costs more, money of the stated year", doc.NoBasis, doc.Money, func(b *Begin) *Excess { return &b.Tipping })...)
	}
	cols = append(cols,
		doc.Est("misses_target_without", doc.Share, func(r *row) stats.Interval { return r.Without }).Means("chance that the twelve months miss the service target without it"),
		doc.Est("misses_target", doc.Share, func(r *row) stats.Interval { return r.Missed }).Means("chance that the twelve months miss the service target with it"),
		doc.Any("target_without", func(r *row) any { return judged(r.VerdictWithout) }).Means("whether the target is kept without it, or open"),
		doc.Any("target", func(r *row) any { return judged(r.Verdict) }).Means("whether the target is kept with it, or open"),
		doc.Spr("holding_fullest_without", doc.Share, func(r *row) answer.Spread { return r.FullestWithout }).Means("most of the room in the holding that is filled, without it"),
		doc.Spr("holding_fullest", doc.Share, func(r *row) answer.Spread { return r.Fullest }).Means("most of the room in the holding that is filled, with it"),
		doc.Spr("cake_held_most_without", doc.Mass, func(r *row) answer.Spread { return r.PeakHeldWithout }).Means("most solids held at one time, without it", doc.Dry),
		doc.Spr("cake_held_most", doc.Mass, func(r *row) answer.Spread { return r.PeakHeld }).Means("most solids held at one time, with it", doc.Dry),
		doc.Any("felt_months", func(r *row) any { return r.Felt }).Means("months after its beginning in which it is still felt"),
	)
	if a.Classes {
		cols = append(cols, doc.Any("vessel_class", func(r *row) any { return r.setback.Class }).Means("class of the vessels that are out of use"))
	}
	var rows []row
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		for k := range s.Years {
			for n := range s.Years[k].Begins {
				rows = append(rows, row{&s.Years[k].Begins[n], s, &s.Years[k]})
			}
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "setbacks", File: "setbacks"}, rows, cols...)
}

// decisions is the table of what was decided of each setback in each year.
func (a *Answer) decisions() doc.Table {
	type decided struct {
		*Setback
		*Year
	}
	date := func(of func(*decided) int) func(*decided) any {
		return func(d *decided) any { return d.Begins[of(d)].From }
	}
	var rows []decided
	for i := range a.Setbacks {
		for k := range a.Setbacks[i].Years {
			rows = append(rows, decided{&a.Setbacks[i], &a.Setbacks[i].Years[k]})
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "decisions", File: "setback-decisions"}, rows,
		doc.Key("name", func(d *decided) any { return d.Name }).Means("setback by its name in the file"),
		doc.Key("year", func(d *decided) any { return a.Label(d.Year.Year) }).Means("year of the horizon in which the setback begins"),
		doc.Any("last_kept", func(d *decided) any { return d.LastKept }).Means("whether the year is the last that keeps the target"),
		doc.Any("harmless", func(d *decided) any { return d.harmless() }).Means("whether it costs next to nothing in any month"),
		doc.Any("least_from", date(func(d *decided) int { return d.Least })).Means("beginning at which it costs least"),
		doc.Any("months_as_good", func(d *decided) any {
			months := make([]int, len(d.Alike))
			for i, at := range d.Alike {
				months[i] = int(d.Begins[at].From.Month)
			}
			return months
		}).Means("months of the year in which it costs no more than that, for all that the runs can tell"),
		doc.Any("most_from", date(func(d *decided) int { return d.Most })).Means("beginning at which it costs most"),
		doc.Any("told_apart", func(d *decided) any { return d.Told() }).Means("whether the runs tell the best and the worst month apart"),
		doc.Any("by_waiting", func(d *decided) any { return d.ByDelay }).Means("whether the months are told apart by waiting and not by what leaves untreated"),
		doc.Val("load_dry", doc.Mass, func(d *decided) float64 { return d.LoadDry }).Means("solids of cake in a load of the vessels that are out", doc.Dry),
	)
}
