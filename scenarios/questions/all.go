package questions

import (
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/vesselplan"
)

// All are the questions in the order in which they are listed.
var All = []*question.Question{
	&vesselplan.Question,
	&chipplan.Question,
	&productplan.Question,
}
