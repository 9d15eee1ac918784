package chipplan

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// ordersOf are the orders of some runs in the year that begins on a day.
func ordersOf(runs [][]plant.ChipOrder, begin calendar.Date) []Order {
	l := ordersFrom(begin)
	for _, run := range runs {
		l.add(run)
	}
	return l.told()
}

// Shows the days of orders by hand: of three replications two order in the year before
// and three in it, one a second time; an order of one in twenty is not told.
func TestOrdersByHand(t *testing.T) {
	on := func(year, month, day int, trucks float64) plant.ChipOrder {
		return plant.ChipOrder{Date: calendar.Date{Year: year, Month: 7, Day: 1}.AddMonths(month - 7).AddDays(day - 1), Truckloads: trucks}
	}
	begin := calendar.Date{Year: 2027, Month: 7, Day: 1}
	got := ordersOf([][]plant.ChipOrder{
		{on(2027, 6, 30, 9), on(2027, 8, 1, 2), on(2028, 3, 1, 1), on(2028, 7, 1, 9)},
		{on(2027, 8, 11, 2)},
		{on(2027, 5, 2, 9), on(2027, 8, 31, 3)},
	}, begin)
	if len(got) != 2 {
		t.Fatalf("%d orders, want 2", len(got))
	}
	if o := got[0]; o.Number != 1 || o.Median != (calendar.Date{Year: 2027, Month: 8, Day: 11}) || o.Share != 1 || o.Truckloads.P50 != 2 ||
		o.Early.Before(begin) || !o.Early.Before(o.Median) || !o.Median.Before(o.Late) {
		t.Errorf("%+v", o)
	}
	if o := got[1]; o.Number != 2 || o.Median != (calendar.Date{Year: 2028, Month: 3, Day: 1}) || o.Share*3 != 1 || o.Truckloads.Mean != 1 {
		t.Errorf("%+v", o)
	}
	runs := make([][]plant.ChipOrder, 20)
	runs[3] = []plant.ChipOrder{on(2027, 8, 1, 1)}
	if got := ordersOf(runs, begin); len(got) > 0 {
		t.Errorf("one run in twenty orders: %+v", got)
	}
}

// Shows how orders are counted in words.
func TestOrdinals(t *testing.T) {
	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 22: "22nd", 113: "113th"} {
		if got := ordinal(n); got != want {
			t.Errorf("%d is %s", n, got)
		}
	}
}
