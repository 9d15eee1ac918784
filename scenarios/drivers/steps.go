package drivers

import (
	"context"
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Best is the name under which the plan that expand finds is asked for, unless an option
// of the file has it.
const Best = "best"

// Tested is the plan whose output is asked about: the plant as it is, an option of the
// file, or what the question expand finds in the catalogue.
type Tested struct {
	Name  string   // of the option; Best; empty for the plant as it is
	Found bool     // by expand
	Words doc.Text // the steps of what was found

	steps []facilityfile.Step
}

// tested finds the steps of a plan by its name.
func tested(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (Tested, error) {
	if o.Option == "" {
		return Tested{}, nil
	}
	if o.Output == VesselYear {
		return Tested{}, answer.WrongOption("option", "%q: the year of --answer vessels is that of the plant as it is; ask for --answer cost or chips", o.Option)
	}
	var known []string
	for _, option := range s.File.Planning.Options {
		if option.Name == o.Option {
			return Tested{Name: option.Name, steps: option.Steps}, nil
		}
		known = append(known, fmt.Sprintf("%q", option.Name))
	}
	if len(s.File.Planning.Catalogue) > 0 {
		if o.Option == Best {
			return best(ctx, s, setup)
		}
		known = append(known, fmt.Sprintf("%q", Best))
	}
	if len(known) == 0 {
		return Tested{}, answer.WrongOption("option", "%q: the file has neither options nor a catalogue", o.Option)
	}
	return Tested{}, answer.WrongOption("option", "%q: the file has %s", o.Option, strings.Join(known, ", "))
}

// best is the plan that expand finds.
func best(ctx context.Context, s *study.Study, setup answer.Setup) (Tested, error) {
	plan, err := expand.Cheapest(ctx, s, setup, expand.Options{})
	if err != nil {
		return Tested{}, err
	}
	t := Tested{Name: Best, Found: true, Words: plan.InWords(), steps: plan.Dated}
	if len(plan.Steps) == 0 {
		t.Words = doc.Words("to build nothing more")
	}
	return t, nil
}

// of says of what plan an output is, behind its name.
func (t *Tested) of() string {
	switch {
	case t.Name == "":
		return ""
	case t.Found:
		return " with the best of the catalogue"
	}
	return " with “" + doc.Printable(t.Name) + "”"
}
