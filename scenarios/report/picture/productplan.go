package picture

import (
	"fmt"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/units"
)

// ProductPlan returns the picture of the product to expect: what is screened
// month by month and what is taken, and the store under it.
func ProductPlan(a *productplan.Answer, sys units.System) []Picture {
	convert := converter(units.Volume, sys)
	of := func(spread func(*productplan.Month) answer.Spread) curves {
		return curvesOf(a.Months, spread, convert)
	}
	screened := of(func(m *productplan.Month) answer.Spread { return m.Volume })
	taken := of(func(m *productplan.Month) answer.Spread { return m.Taken })
	unmet := of(func(m *productplan.Month) answer.Spread { return m.Unmet })
	peak := of(func(m *productplan.Month) answer.Spread { return m.StorePeak })
	end := of(func(m *productplan.Month) answer.Spread { return m.StoreEnd })

	head := answer.Answer{Facility: a.Facility, Invented: a.Invented, Seed: a.Seed, Replications: a.Replications, Level: a.Level}
	band1 := interval(&head)
	axis := monthlyAxis(fiscalMonths(a.Months, func(m *productplan.Month) fiscal.Month { return m.Month }))
	flow := axis("Compost each month: what is screened, what is taken, and demand not met",
		about(&head, "lines are means; bands are "+band1), unitOf(units.Volume, sys)+" a month")
	flow.time = ""
	flow.series = []series{
		band{points: points{screened.high, middle}, low: screened.low, name: "screened, " + band1, fill: tint(purple, 0.35), labelHigh: true},
		line{points{screened.mean, middle}, "screened", stroke(purple, 2.5, solid)},
		line{points{taken.mean, middle}, "taken", stroke(blue, 1.75, dashed)},
		line{points{unmet.mean, middle}, "demand not met", stroke(vermilion, 1.75, dotted)},
	}
	store := axis("", "", unitOf(units.Volume, sys)+" of compost in the store")
	store.series = []series{
		band{points: points{end.high, middle}, low: end.low, name: "at month's end,\n" + band1, fill: tint(skyBlue, 0.4)},
		line{points{peak.high, middle}, fmt.Sprintf("peak, %s", quantile(a.Level.High)), stroke(vermilion, 1.75, dashed)},
		line{points{end.mid, middle}, "at month's end,\nmedian", stroke(blue, 2, solid)},
		steps{line{points{level(len(a.Months), convert(a.Store)), middle}, "room", stroke(black, 1.25, solid)}},
	}
	both := panels{flow, store}
	return []Picture{{Name: "product-months", Title: flow.title, draw: both.draw}}
}
