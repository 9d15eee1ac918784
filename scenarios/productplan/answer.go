package productplan

import (
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/sim/stats"
)

// Answer is what compost to expect.
type Answer struct {
	answer.Basis
	fiscal.Naming
	Growths []fiscal.Share // empty if the file has no scenarios
	Store   float64        // m3, as in the file; changes may enlarge it
	Price   Price
	Years   []Year
	Months  []Month
}

// Price is what product brings.
type Price struct {
	Known      bool        // the file has a section on money
	Monthly    [12]float64 // USD/m3, January first, as the file states it
	Stated     int         // year of its money
	Escalation float64     // per year, nominal
}

// Flows are quantities of compost in a month or year.
type Flows struct {
	Volume    answer.Spread // screened, or cured where screening comes first
	Wet, Dry  answer.Spread // its mass
	Taken     answer.Spread // m3
	Unmet     answer.Spread // m3 of demand for which there was no product
	StorePeak answer.Spread
	StoreEnd  answer.Spread
	HoursFull answer.Spread  // during which a lot waited for room in the store
	Revenue   answer.Spread  // 0 if no price is known
	Full      stats.Interval // chance that the store is full at some time
	Short     stats.Interval // chance that demand goes unmet on some day
}

// Month is a month of the plan.
type Month struct {
	fiscal.Month
	Flows
}

// Year is a fiscal year of the plan.
type Year struct {
	Label string
	Flows
	Glut, Shortage Season
}

// Season is the months of a year in which something happens with a chance of
// at least [Notable].
type Season struct {
	Months []time.Month // in order of the fiscal year
	Chance float64      // in the likeliest of them
}

// Notable is the least chance at which a month is named as one of glut or of
// shortage.
const Notable = 0.10
