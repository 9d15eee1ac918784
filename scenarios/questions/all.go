package questions

import (
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/options"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/simulate"
)

// All are the questions in the order in which they are listed.
var All = []*question.Question{
	&chipplan.Question,
	&productplan.Question,
	&options.Question,
	&expand.Question,
	&simulate.Question,
}
