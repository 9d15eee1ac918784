package setback

import (
	"fmt"

	doc "loamcast/scenarios/document"
)

// Document tells what setbacks cost.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	d.Fact("verdict_wrong_at_most", doc.Share, a.Wrong)
	d.Fact("assumed", doc.Count, a.Assumed)
	d.Para("%s, %s.", doc.Name(a.Facility, 40), doc.Runs(&a.Basis))
	if a.Invented {
		d.Para(doc.Invented)
	}
	a.others(d)
	d.Add(doc.Gap{})
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		if y := s.decides(); s.Fails() && !y.harmless() {
			d.Add(a.byMonth(s, y), doc.Gap{})
		}
	}
	if a.seasonal() {
		d.Add(a.seasons(), doc.Gap{})
	}
	d.Add(a.files(), a.decisions())
	a.notes(d)
	d.Figures = a.figures()
	return d
}

// decides returns the year of which the headline speaks: the last that keeps the target, or
// the only one that was asked about.
func (s *Setback) decides() *Year { return &s.Years[len(s.Years)-1] }

// headline tells the first setback of vessels or, where there is none, the first season.
func (a *Answer) headline() doc.Text {
	s := a.leading()
	return a.says(s, s.decides())
}

// leading is the setback of which the headline speaks.
func (a *Answer) leading() *Setback {
	if s := a.first(false); s != nil {
		return s
	}
	return &a.Setbacks[0]
}

// first returns the first season, or the first setback of vessels; nil if there is none.
func (a *Answer) first(season bool) *Setback {
	for i := range a.Setbacks {
		if a.Setbacks[i].Season() == season {
			return &a.Setbacks[i]
		}
	}
	return nil
}

func (a *Answer) seasonal() bool { return a.first(true) != nil }

// others tells what the headline leaves out: other setbacks in the year that decides, and
// vessels that fail in other years.
func (a *Answer) others(d *doc.Document) {
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		for k := range s.Years {
			y := &s.Years[k]
			leads, decides := s == a.leading(), y == s.decides()
			if leads && decides || s.Season() && !decides {
				continue
			}
			d.Add(doc.Paragraph{Label: a.Label(y.Year), Text: a.says(s, y)})
		}
	}
}

// notes say what to do with it, and what the figures are.
func (a *Answer) notes(d *doc.Document) {
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		y := s.decides()
		if !s.Fails() || y.harmless() || !y.Told() {
			continue
		}
		text := doc.Say("what takes %s out for up to %s is best begun in %s; the other months surely cost more.", counted(s.Vessels), lasting(s.For), y.monthsOf(y.least()))
		if s.LoadDry > 0 {
			text = text.Then(" The time counts from when the vessel stands empty; what is in it composts to its end, and if it is lost as well, that is %s dry of cake more.", mass(s.LoadDry))
		}
		d.Labelled("Planned work", "%s", text)
		b := &y.Begins[y.Most]
		d.Add(doc.Paragraph{Label: "Holding", Rank: 2, Text: doc.Say("from %s on it is %s full at most in the mean of the runs, %s without; %s loads more fail.", monthOf(b.From),
			doc.With(b.Fullest.Mean, doc.Share, 0), doc.With(b.FullestWithout.Mean, doc.Share, 0), doc.Fixed(max(0, b.Lost.Mean), doc.Count, 1))})
		break
	}
	if a.seasonal() {
		d.Add(doc.Paragraph{Label: "Recipe", Rank: 2, Text: doc.Words("loads of a season are mixed as ever; more chips to wet cake, or a roof over chips, may save some.")})
	}
	if a.Assumed {
		d.Labelled("Assumed", "the file lists no setbacks, so these are tried: %s.", a.assumed())
	}
	d.Add(doc.Paragraph{Label: "Target", Rank: 3, Text: doc.Say("%v", a.Target)})
	d.Add(doc.Paragraph{Label: "Figures", Rank: 2, Text: doc.Say("against the same %d runs without it, over the twelve months from its first day. 90 %% sure: of the mean. P10–P90: of the runs. "+
		"Felt: until the plant has caught up. Open: where the chance that the target is kept, and that it is not, are both above %s.", a.Replications, doc.With(a.Wrong, doc.Share, 0))})
}

// assumed says what is tried where the file lists nothing.
func (a *Answer) assumed() doc.Text {
	var list []doc.Text
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		if s.Fails() {
			list = append(list, doc.Say("one of the largest vessels out for %s", lasting(s.For)))
			continue
		}
		w := &s.Spell
		list = append(list, doc.Say("the three coldest months with cake %s points and chips %s points wetter, air %s points more humid and %s colder, and %s more cake",
			points(-w.CakeSolids), points(w.ChipMoisture), points(w.Humidity), doc.With(-w.Temperature, doc.Difference, 1), doc.With(w.Production, doc.Share, 0)))
	}
	return doc.List(list...)
}

func points(part float64) string { return fmt.Sprintf("%.3g", 100*part) }
