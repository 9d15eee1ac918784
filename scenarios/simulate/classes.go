package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Class is what a year did with the vessels of one class, where there are several.
type Class struct {
	Name, Year string
	Installed  answer.Spread // at the end of the year
	InUse      answer.Spread // mean over time
	Loads      answer.Spread // filled
	Wet        answer.Spread // kg of mix, mean of a load
	CakeDry    answer.Spread // kg dry of cake, mean of a load
}

// classes are those of the vessels, class by class; none where there is one only.
func (t *tally) classes() {
	v, years := &t.plant.Vessels, t.answer.Years
	t.answer.Classes = make([]Class, len(v.Classes)*len(years))
	for i := range t.answer.Classes {
		out, which, months := &t.answer.Classes[i], i/len(years), inYear(i%len(years))
		out.Name, out.Year = v.ClassName(which), years[i%len(years)].Label
		total := func(rec *plant.Record, of func(*plant.MonthlyClass) float64) float64 {
			return plant.Sum(months(rec), func(m *plant.Month) float64 { return of(&m.Classes[which]) })
		}
		loads := func(c *plant.MonthlyClass) float64 { return c.Loads }
		each := func(into *answer.Spread, of func(*plant.MonthlyClass) float64) {
			t.spread(into, func(rec *plant.Record) float64 { return total(rec, of) / max(1, total(rec, loads)) })
		}
		t.spread(&out.Installed, func(rec *plant.Record) float64 {
			all := months(rec)
			return all[len(all)-1].Classes[which].Installed
		})
		t.spread(&out.InUse, func(rec *plant.Record) float64 {
			vesselDays := plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Days * m.Classes[which].Mean })
			return vesselDays / plant.Sum(months(rec), daysIn)
		})
		t.spread(&out.Loads, func(rec *plant.Record) float64 { return total(rec, loads) })
		each(&out.Wet, func(c *plant.MonthlyClass) float64 { return c.Wet })
		each(&out.CakeDry, func(c *plant.MonthlyClass) float64 { return c.CakeDry })
	}
}

// byClass tells of the classes of vessels: on the screen of the last year.
func (a *Answer) byClass(d *doc.Document) {
	if len(a.Classes) == 0 {
		return
	}
	for i := range a.Classes {
		c := &a.Classes[i]
		if c.Year != a.last().Label {
			continue
		}
		d.Labelled(c.Year, "%s: %.0f installed, %.1f in use in the mean; %.0f loads of %s of mix with %s of dry cake", doc.Name(c.Name, 30),
			c.Installed.P50, c.InUse.P50, c.Loads.P50, doc.Show(c.Wet.P50, doc.Mass), doc.Bare(c.CakeDry.P50, doc.Mass))
	}
	d.Add(doc.TableOf(doc.Table{In: doc.Files, Name: "vessel_classes", File: "vessel-classes"}, a.Classes, classColumns...))
}

var classColumns = []doc.Col[Class]{
	doc.Key("class", func(c *Class) any { return c.Name }).Means("class of the vessels"),
	doc.Key("year", func(c *Class) any { return c.Year }).Means("year of the horizon"),
	doc.Spr("installed", doc.Count, func(c *Class) answer.Spread { return c.Installed }).Means("vessels of the class that the plant has at the end of the year"),
	doc.Spr("in_use", doc.Count, func(c *Class) answer.Spread { return c.InUse }).Means("vessels of the class in use, mean over the year"),
	doc.Spr("loads", doc.Count, func(c *Class) answer.Spread { return c.Loads }).Means("vessels of the class filled"),
	doc.Spr("mix_in_a_load", doc.Mass, func(c *Class) answer.Spread { return c.Wet }).Means("mean mass of a load in the class, as weighed", doc.Wet),
	doc.Spr("cake_dry_in_a_load", doc.Mass, func(c *Class) answer.Spread { return c.CakeDry }).Means("mean solids of cake in a load in the class", doc.Dry),
}
