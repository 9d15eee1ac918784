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

// classes reduces them, class by class; none where there is one class only.
func (r Runs) classes(years []Year) []Class {
	v := &r.Plant.Vessels
	var out []Class
	for i := range v.Classes {
		for y := range years {
			total := func(of func(*plant.MonthlyClass) float64) func(*plant.Record) float64 {
				return func(rec *plant.Record) float64 {
					sum := 0.0
					for _, m := range inYear(y)(rec) {
						sum += of(&m.Classes[i])
					}
					return sum
				}
			}
			over := func(of func(*plant.Record) float64) answer.Spread { return spread(r.Records, of) }
			loads := total(func(c *plant.MonthlyClass) float64 { return c.Loads })
			each := func(of func(*plant.MonthlyClass) float64) answer.Spread {
				return over(func(rec *plant.Record) float64 { return total(of)(rec) / max(1, loads(rec)) })
			}
			out = append(out, Class{
				Name: v.ClassName(i), Year: years[y].Label,
				Installed: over(func(rec *plant.Record) float64 {
					months := inYear(y)(rec)
					return months[len(months)-1].Classes[i].Installed
				}),
				InUse: over(func(rec *plant.Record) float64 {
					days, vesselDays := 0.0, 0.0
					for _, m := range inYear(y)(rec) {
						days += m.Days
						vesselDays += m.Days * m.Classes[i].Mean
					}
					return vesselDays / days
				}),
				Loads:   over(loads),
				Wet:     each(func(c *plant.MonthlyClass) float64 { return c.Wet }),
				CakeDry: each(func(c *plant.MonthlyClass) float64 { return c.CakeDry }),
			})
		}
	}
	return out
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
