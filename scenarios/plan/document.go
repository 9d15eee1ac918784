package plan

import (
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/vesselplan"
)

// Document tells the answers one below the other, each with how sure it is.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, doc.Text{})
	part := func(title, name string, from *doc.Document, beside ...doc.Text) {
		d.Parts = append(d.Parts, doc.Section{Name: name, Document: from})
		d.Add(doc.Heading(title), doc.Paragraph{Text: from.Headline})
		for _, text := range beside {
			if !text.Empty() {
				d.Add(doc.Paragraph{Text: text})
			}
		}
	}
	part("Vessels", "vessels", a.Vessels.Document(), a.Vessels.Others(), a.Vessels.Sure(), a.Vessels.Whatever(), a.Vessels.ByContract())
	part("Chips", "chips", a.Chips.Document())
	part("Compost", "product", a.Product.Document())
	if a.Options != nil {
		part("Option", "options", a.Options.Document(), append([]doc.Text{a.found()}, a.Options.Doubts()...)...)
	} else {
		d.Add(doc.Heading("Option"))
		d.Para("None is named: %s.", a.NoOptions)
	}
	d.Add(doc.Gap{})
	growth := ""
	if len(a.Chips.Growths) > 1 {
		growth = ", growth by weight"
	}
	d.Para("%s, seed %d. Chips and compost: %s%s.", doc.Name(a.Facility, 40), a.Seed, doc.Counted(a.Chips.Replications, "replication"), growth)
	d.Add(doc.Paragraph{Text: doc.Words("The same at more length: loamcast when, chips, product, options; what to build: loamcast expand; what matters most: loamcast drivers."), Terminal: true})
	if a.Invented {
		d.Para(doc.Invented)
	}
	d.Para("! A plan, not a certificate: monitoring, records, the permitting authority and a licensed engineer decide.")
	return d
}

// found is the plan of the catalogue, and why its dates need not be that of the vessels.
func (a *Answer) found() doc.Text {
	text := a.Options.Found()
	if text.Empty() || a.Vessels.Advice(&a.Vessels.All) != vesselplan.OrderInTime {
		return text
	}
	return text.Then(" The order above is for vessels and nothing else, in the quarter in which they fall short; what the catalogue brings comes at the start of a year.")
}
