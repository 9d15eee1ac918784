package questions

import (
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/options"
	"loamcast/scenarios/plan"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/setback"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/sizing"
	"loamcast/scenarios/vesselplan"
)

// All are the questions in the order in which they are listed.
var All = []*question.Question{
	&plan.Question,
	&vesselplan.Question,
	&chipplan.Question,
	&productplan.Question,
	&options.Question,
	&expand.Question,
	&drivers.Question,
	&setback.Question,
	&simulate.Question,
	&mixplan.Question,
	&cycleplan.Question,
	&sizing.Question,
}
