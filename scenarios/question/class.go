package question

import (
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
)

// ofClass is the name of the option that chooses a class of vessels.
const ofClass = "class"

// OfClass is the option of questions that look at one vessel.
var OfClass = Option{Name: ofClass, Kind: Words, Words: "class of the vessel, by its name, where the file has several (default: the first)"}

// Class returns the place of the class of vessels that was asked for among those of a
// plant, 0 if none was. A name that no class has is an *answer.OptionError.
func (v Values) Class(vessels *plant.Vessels) (int, error) {
	if !v.Given(ofClass) {
		return 0, nil
	}
	asked := v.Text(ofClass)
	if len(vessels.Classes) == 0 {
		return 0, answer.WrongOption(ofClass, "%q: the vessels of this file are of one class; leave it out", asked)
	}
	var names []string
	for class := range vessels.Classes {
		if vessels.ClassName(class) == asked {
			return class, nil
		}
		names = append(names, document.Printable(vessels.ClassName(class)))
	}
	return 0, answer.WrongOption(ofClass, "%q: no class of vessels has that name; there are %s", asked, strings.Join(names, ", "))
}
