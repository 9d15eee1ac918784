package report

import (
	"bytes"
	"encoding/json"
	"io"

	"loamcast/scenarios/outfile"
	"loamcast/scenarios/plan"
	doc "loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// PlanTerminal writes the answers one below the other, each with how sure it is.
func PlanTerminal(w io.Writer, a *plan.Answer, sys units.System) error {
	p := newPage(sys)
	p.part("Vessels", a.Vessels.Document().Headline.In(sys))
	if others := a.Vessels.Others(); !others.Empty() {
		p.para("%s", others.In(sys))
	}
	p.para("%s", a.Vessels.Sure().In(sys))
	p.part("Chips", a.Chips.Document().Headline.In(sys))
	p.part("Compost", a.Product.Document().Headline.In(sys))
	if a.Options != nil {
		o := optionsText{p, a.Options, len(a.Options.Choices)}
		p.part("Option", printable(a.Options.Headline()))
		for _, doubt := range a.Options.Doubts() {
			o.para("%s", printable(doubt))
		}
	} else {
		p.part("Option", "None is named: "+a.NoOptions+".")
	}
	p.blank()
	p.para("%s, seed %d. Chips and compost: %s of the year, growth by weight. More of each: loamcast when, chips, product, options; what to build: loamcast expand; what matters most: loamcast drivers.",
		shorten(printable(a.Facility), 40), a.Seed, counted(a.Chips.Replications, "replication"))
	if a.Invented {
		p.para(inventedNotice)
	}
	p.para("! A plan, not a certificate: monitoring, records, the permitting authority and a licensed engineer decide.")
	return p.writeTo(w)
}

// part begins an answer under its name.
func (p *page) part(name, answer string) {
	if len(p.text) > 0 {
		p.blank()
	}
	p.text = append(p.text, name)
	p.para("%s", answer)
}

// PlanJSON writes the answers as one JSON object of those of their own commands.
func PlanJSON(w io.Writer, a *plan.Answer, sys units.System) error {
	members := []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"units", sys.String()},
	}
	var failed error
	add := func(name string, write func(io.Writer) error) {
		var b bytes.Buffer
		if err := write(&b); err != nil && failed == nil {
			failed = err
		}
		members = append(members, member{name, json.RawMessage(b.Bytes())})
	}
	add("vessels", func(w io.Writer) error { return doc.JSON(w, a.Vessels.Document(), sys) })
	add("chips", func(w io.Writer) error { return doc.JSON(w, a.Chips.Document(), sys) })
	add("product", func(w io.Writer) error { return doc.JSON(w, a.Product.Document(), sys) })
	if a.Options != nil {
		add("options", func(w io.Writer) error { return OptionsJSON(w, a.Options, sys) })
	}
	if failed != nil {
		return failed
	}
	return writeJSON(w, append(members, member{"cautions", jsonCautions(a.Cautions)}))
}

// PlanFiles returns plan.txt and plan.json, and everything that the answers leave
// in a folder of their own.
func PlanFiles(a *plan.Answer, sys units.System) ([]File, error) {
	files, err := filesOf("plan", a.Facility,
		func(w io.Writer) error { return PlanTerminal(w, a, sys) },
		func(w io.Writer) error { return PlanJSON(w, a, sys) }, nil)
	if err != nil {
		return nil, err
	}
	parts := []func() ([]outfile.File, error){
		func() ([]outfile.File, error) { return doc.Files(a.Vessels.Document(), sys) },
		func() ([]outfile.File, error) { return doc.Files(a.Chips.Document(), sys) },
		func() ([]outfile.File, error) { return doc.Files(a.Product.Document(), sys) },
	}
	if a.Options != nil {
		parts = append(parts, func() ([]outfile.File, error) { return OptionsFiles(a.Options, sys) })
	}
	for _, part := range parts {
		more, err := part()
		if err != nil {
			return nil, err
		}
		for _, f := range more {
			if f.Name != cautionsFile { // the same for all
				files = append(files, f)
			}
		}
	}
	return files, nil
}
