package costs_test

import (
	"math"
	"testing"

	"loamcast/scenarios/costs"
	"loamcast/scenarios/money"
)

// Every part of a cost has a column of its own and is drawn once: the bars to
// the right of zero end at the costs, and those to the left at what comes in.
func TestPartsAreTold(t *testing.T) {
	var parts money.Amounts
	for i := range parts {
		parts[i] = float64(i + 1)
	}
	parts[money.Sales] = -100
	cols := costs.Columns(true, func(a *money.Amounts) *money.Amounts { return a })
	for i, part := range money.Parts() {
		if got := cols[i].Of(&parts); got != parts[part] || cols[i].Name != "present_worth_of_"+part.String() {
			t.Errorf("%s shows %v, not %g", cols[i].Name, got, parts[part])
		}
	}
	left, right := 0.0, 0.0
	for _, b := range costs.Bars(&parts) {
		if math.Abs(b.To) < math.Abs(b.From) {
			t.Errorf("a bar from %g to %g runs towards zero", b.From, b.To)
		}
		left, right = min(left, b.To), max(right, b.To)
	}
	if left != -100 || math.Abs(right+left-parts.Total()) > 1e-9 {
		t.Errorf("bars from %g to %g; the parts sum to %g", left, right, parts.Total())
	}
}
