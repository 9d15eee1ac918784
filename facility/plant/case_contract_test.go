package plant

import (
	"testing"
	"time"

	"loamcast/sim/calendar"
)

// filling is the plant of the cases without a vessel: 2,400 kg dry a day, 12,000 kg wet,
// run into a holding of ten days, and nothing but a contract takes any of it.
func filling() Model {
	m := paper()
	m.Vessels.Installed = 0
	m.Holding.Capacity = 24_000
	return m
}

const hoursADay = 24.0

// endOf is the hour at which a day of January 2027 ends, counted on into February.
func endOf(day int) float64 { return float64(day) * hoursADay }

// A contract that takes 15,000 kg wet a day, 3,000 dry, and 60,000 a month, 12,000 dry,
// called above 75 % of the holding, 18,000 kg, with three days of notice.
//
//	9 January   midnight finds 8 × 2,400 = 19,200: the plant calls
//	10          the holding is full at its end; 2,400 are diverted on each of the 11th and 12th
//	12          first day of hauling, at its end 24,000 − 3,000 = 21,000
//	13, 14, 15  20,400; 19,800; 19,200: four days are the month's limit, and the call is over
//	16          19,200 is above 18,000: the plant calls again. From the 19th on trucks would
//	            come, but the month has nothing left
//	17          full at its end; 14 × 2,400 are diverted from the 18th to the 31st
//	1 February  diverted, 2,400; hauled at its end, and so until the 4th
//	5, 6        room for 4,800; diverted from the 7th to the 28th, 22 × 2,400
func TestCaseContract(t *testing.T) {
	m := filling()
	m.Contract = Contract{Number: 7, MostPerMonth: 60_000, MostPerDay: 15_000, Notice: calendar.Span{Days: 3}, CallAt: 0.75, DownTo: 0.5}
	rec, d := follow(t, m, caseKey)

	hauled := d.on("cake hauled by contract").before(endOf(31 + 28))
	hauled.at(t, "hauled", endOf(12), endOf(13), endOf(14), endOf(15), endOf(31+1), endOf(31+2), endOf(31+3), endOf(31+4))
	hauled.count(t, "days of hauling", 8)
	for _, mv := range hauled {
		near(t, "a day, kg wet", mv.Amount.Total, 15_000, 1e-6)
	}
	for month, want := range []struct{ diverted, calls float64 }{{2*2400 + 14*2400, 2}, {2400 + 22*2400, 1}} {
		h := rec.Months[month].Holding
		near(t, "diverted, kg dry", h.DivertedDry, want.diverted, 1e-6)
		near(t, "by contract, kg dry", h.ContractDry, 12_000, 1e-6)
		near(t, "by contract, kg wet", h.ContractWet, 60_000, 1e-6)
		same(t, "calls", h.Calls, want.calls)
		if len(h.Contracts) != 1 || h.Contracts[0].Number != 7 {
			t.Errorf("month %d: contracts %+v", month, h.Contracts)
		}
	}
	near(t, "untreated share", UntreatedShare(rec.Months[:2]), (38_400+55_200)/(59*2400.0), 1e-9)
}

// A contract that takes more than there is, 8,000 kg dry a day at most. Called on the 9th
// with three days of notice it hauls on the 12th from 24,000 to 16,000 and on the 13th from
// 18,400 to 12,000, which is half of the holding: the call is over. The next is on the
// 17th, when 12,000 + 3 × 2,400 = 19,200 are held, and hauls on the 20th. Where the mixer
// rests at weekends, a notice of a day more or less does not hurry a truck: one that is
// over on Saturday, 16 January, waits for Monday.
func TestCaseContractDownTo(t *testing.T) {
	m := filling()
	m.Contract = Contract{MostPerMonth: 1e6, MostPerDay: 40_000, Notice: calendar.Span{Days: 3}, CallAt: 0.75, DownTo: 0.5}
	rec, d := follow(t, m, caseKey)
	hauled := d.on("cake hauled by contract").before(endOf(20))
	hauled.at(t, "hauled", endOf(12), endOf(13), endOf(20))
	hauled.count(t, "days of hauling", 3)
	near(t, "first day, kg dry", hauled[:1].dry(), 8000, 1e-6)
	near(t, "second day, kg dry", hauled[1:2].dry(), 6400, 1e-6)
	same(t, "peak", rec.Months[0].Holding.Peak, 24_000)

	work, err := calendar.NewWork(calendar.Clock{Start: m.Begin()}, weekdays(calendar.Shift{Open: 8 * 60, Close: 16 * 60}))
	if err != nil {
		t.Fatal(err)
	}
	m.Mixer.Hours = work
	for notice, first := range map[int]int{6: 15, 7: 18, 8: 18, 9: 18, 10: 19} {
		m.Contract.Notice.Days = notice
		_, d := follow(t, m, caseKey)
		d.on("cake hauled by contract")[:1].at(t, "first hauled", endOf(first))
	}
}

// A contract that takes the place of another ends its call, and has a limit of its own.
// The one above is called on the 9th; on the 13th another comes, of 6,000 kg wet a month
// without notice, called above half and down to 40 %, 9,600 kg. It is called at once, on
// the 13th, and hauls on that day. The 12th, whose end is the beginning of the change, has
// nothing hauled any more.
func TestCaseContractReplaced(t *testing.T) {
	m := filling()
	m.Contract = Contract{Number: 1, MostPerMonth: 60_000, MostPerDay: 15_000, Notice: calendar.Span{Days: 2}, CallAt: 0.75, DownTo: 0.5}
	m.Changes = []Change{{Name: "other", Date: calendar.Date{Year: 2027, Month: time.January, Day: 13},
		Contract: Contract{Number: 2, MostPerMonth: 6000, MostPerDay: 6000, CallAt: 0.5, DownTo: 0.4}}}
	rec, d := follow(t, m, caseKey)
	hauled := d.on("cake hauled by contract").before(endOf(31))
	hauled.at(t, "hauled", endOf(11), endOf(13))
	hauled.count(t, "days of hauling", 2)
	january := rec.Months[0].Holding.Contracts
	if len(january) != 2 || january[0].Number != 1 || january[1].Number != 2 {
		t.Fatalf("January: %+v", january)
	}
	near(t, "first, kg wet", january[0].Wet, 15_000, 1e-6)
	near(t, "second, kg wet", january[1].Wet, 6000, 1e-6)
	february := rec.Months[1].Holding.Contracts
	if len(february) != 1 || february[0].Number != 2 {
		t.Fatalf("February: %+v", february)
	}
	near(t, "second in February, kg wet", february[0].Wet, 6000, 1e-6)
}
