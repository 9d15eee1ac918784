package plant

import (
	"math"
	"slices"
	"testing"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/sim/calendar"
)

// dailyModel is a second, simpler plant to check the first against: steps of a
// day, no events, no shifts, no crews and no noise. A load is made on the day on
// which its cake is there and a vessel is free, and stays for a fixed time in its
// vessel and then on a pad without bounds. Of the plant it shares the inputs,
// the physics of one load, the screen and the model of volume.
type dailyModel struct {
	t    testing.TB
	m    Model
	date calendar.Date
	day  int // since the run began

	cake             material.Parcel // held
	fresh, recovered material.Parcel
	freeFrom         []int // day, of each vessel
	active, curing   []dailyLot
	orders           []dailyOrder

	vesselLoss, curingLoss dailyLoss
	years                  []dailyYear
}

type dailyLot struct {
	due    int // day
	parcel material.Parcel
}

type dailyOrder struct {
	due    int // day
	volume float64
}

// dailyYear sums what both models count: kg dry and m3.
type dailyYear struct{ fed, mixed, diverted, chipsBought, chipsFresh, chipsRecovered, product float64 }

// runDaily returns the reported years of a model.
func runDaily(t testing.TB, m Model) []dailyYear {
	d := &dailyModel{t: t, m: m, date: m.Begin(), freeFrom: make([]int, m.Vessels.Installed),
		vesselLoss: dailyLoss{model: m.Active, hours: m.Vessels.Residence.Hours()},
		curingLoss: dailyLoss{model: m.Pile, hours: m.Curing.Time.Hours()}}
	d.fresh = d.delivery(m.Chips.OrderUpTo)
	for end := m.Start.AddYears(m.Years); d.date.Before(end); d.date = d.date.AddDays(1) {
		if d.date.Month == m.Start.Month && d.date.Day == 1 {
			d.years = append(d.years, dailyYear{})
		}
		d.step(&d.years[len(d.years)-1])
		d.day++
	}
	return d.years[m.WarmUp:]
}

// step is one day: screen, unload, receive chips and cake, make loads.
func (d *dailyModel) step(y *dailyYear) {
	d.curing = whenDue(d.curing, d.day, func(lot material.Parcel) {
		split := screening.Screen(lot, d.m.Screening.Settings)
		d.recovered.Add(split.Recovered)
		y.chipsRecovered += d.m.Bulk.Volume(split.Recovered)
		y.product += d.m.Bulk.Volume(split.Product)
	})
	d.active = whenDue(d.active, d.day, func(load material.Parcel) {
		cured := d.curingLoss.of(d.t, load, d.date)
		d.curing = append(d.curing, dailyLot{due: d.day + wholeDays(d.m.Curing.Time.Days()), parcel: cured})
	})
	d.orders = slices.DeleteFunc(d.orders, func(o dailyOrder) bool {
		if o.due > d.day {
			return false
		}
		d.fresh.Add(d.delivery(o.volume))
		y.chipsBought += o.volume
		return true
	})

	fed := d.produced()
	y.fed += fed.Dry()
	d.cake.Add(fed)
	for n := d.loadsToday(); n > 0; n-- {
		d.makeLoad(y, d.m.Bulk.Volume(d.recovered)/float64(n))
	}
	if over := d.cake.Dry() - d.m.Holding.Capacity; over > 0 {
		y.diverted += over
		d.cake = d.cake.Times(d.m.Holding.Capacity / d.cake.Dry())
	}
}

// whenDue hands out the lots that are due and returns the others.
func whenDue(lots []dailyLot, day int, take func(material.Parcel)) []dailyLot {
	for len(lots) > 0 && lots[0].due <= day {
		take(lots[0].parcel)
		lots = lots[1:]
	}
	return lots
}

// produced returns the cake of the day.
func (d *dailyModel) produced() material.Parcel {
	f := &d.m.Feed
	sum := 0.0
	for _, v := range f.Month {
		sum += v
	}
	dry := f.Base * f.Growth.Factor((float64(d.m.Start.DaysUntil(d.date))+0.5)/365.25) * f.Month[d.date.Month-1] * 12 / sum
	return d.m.Cake.WithMoisture(1 - f.CakeSolids[d.date.Month-1]).OfDry(dry)
}

func (d *dailyModel) delivery(volume float64) material.Parcel {
	chips := d.m.Chips.Fresh.WithMoisture(d.m.Chips.Moisture[d.date.Month-1])
	return chips.OfWet(volume * chips.BulkDensity)
}

// loadsToday returns how many full loads there are vessels and cake for. The
// loads of a day share out the recovered chips.
func (d *dailyModel) loadsToday() int {
	if d.cake.Dry() == 0 {
		return 0
	}
	free := 0
	for _, day := range d.freeFrom {
		if day <= d.day {
			free++
		}
	}
	held, recovered := d.m.Bulk.Volume(d.cake), d.m.Bulk.Volume(d.recovered)
	n := 0
	for n < free && float64(n+1)*d.cakeOfFullLoad(recovered/float64(n+1)) <= held {
		n++
	}
	return n
}

// makeLoad fills a vessel with at most so many m3 of recovered chips.
func (d *dailyModel) makeLoad(y *dailyYear, recovered float64) {
	volume := d.cakeOfFullLoad(recovered)
	chips := volume * d.m.Recipe.ChipsPerCake
	reused := min(chips, recovered)
	y.chipsFresh += chips - reused

	load := d.cake.Take(volume / d.m.Bulk.Volume(d.cake))
	y.mixed += load.Dry()
	load.Add(takeVolume(&d.recovered, reused, &d.m.Bulk))
	load.Add(takeVolume(&d.fresh, chips-reused, &d.m.Bulk))
	d.orderChips()

	vessel := slices.IndexFunc(d.freeFrom, func(day int) bool { return day <= d.day })
	stay := wholeDays(d.m.Vessels.Residence.Days())
	d.freeFrom[vessel] = d.day + stay + wholeDays(d.m.Vessels.Turnaround.Days())
	d.active = append(d.active, dailyLot{due: d.day + stay, parcel: d.vesselLoss.of(d.t, load, d.date)})
}

// cakeOfFullLoad finds by bisection the m3 of cake that, with its chips, fill a
// vessel by mass or by volume. Recovered chips, at most so many m3, come first.
func (d *dailyModel) cakeOfFullLoad(recovered float64) float64 {
	b := &d.m.Bulk
	cake := d.cake.Times(1 / b.Volume(d.cake))
	low, high := 0.0, d.m.Vessels.Volume
	for range 40 {
		v := (low + high) / 2
		chips := v * d.m.Recipe.ChipsPerCake
		reused := min(chips, recovered)
		old, fresh := d.recovered, d.fresh
		mix := cake.Times(v)
		mix.Add(takeVolume(&old, reused, b))
		mix.Add(takeVolume(&fresh, chips-reused, b))
		if mix.Total() > d.m.Vessels.Payload || b.Volume(mix) > d.m.Vessels.Volume {
			high = v
		} else {
			low = v
		}
	}
	return low
}

func takeVolume(heap *material.Parcel, volume float64, b *material.Bulk) material.Parcel {
	if volume == 0 {
		return material.Parcel{}
	}
	return heap.Take(volume / b.Volume(*heap))
}

// orderChips orders whole truckloads as the plant's rule has it.
func (d *dailyModel) orderChips() {
	c := &d.m.Chips
	position := d.m.Bulk.Volume(d.fresh)
	for _, o := range d.orders {
		position += o.volume
	}
	if position > c.Reorder {
		return
	}
	volume := math.Floor((c.OrderUpTo-position)/c.Truckload) * c.Truckload
	d.orders = append(d.orders, dailyOrder{due: d.day + wholeDays(c.LeadTime.Days()), volume: volume})
}

func wholeDays(days float64) int { return int(math.Round(days)) }

// dailyLoss is what becomes of loads in some hours: the first of each day is
// integrated, the others lose the same shares of their masses. One a month will
// not do: loads of a day differ from those of the next by the chips that have come
// back, and the screen is not linear in moisture, so that the figures of a year
// would be off by up to 3 %.
type dailyLoss struct {
	model *process.Model
	hours float64
	date  calendar.Date   // of which kept speaks
	kept  material.Parcel // the shares, mass by mass
}

// of returns what is left of a load that begins on a date.
func (l *dailyLoss) of(t testing.TB, load material.Parcel, date calendar.Date) material.Parcel {
	t.Helper()
	if date != l.date {
		course, err := l.model.Course(load, date.Month, l.hours)
		if err != nil {
			t.Fatal(err)
		}
		l.date, l.kept = date, sharesLeft(course.Final().Parcel, load)
	}
	return material.Parcel{
		Water:  load.Water * l.kept.Water,
		Fine:   timesEach(load.Fine, l.kept.Fine),
		Coarse: timesEach(load.Coarse, l.kept.Coarse),
	}
}

// sharesLeft returns after/before, mass by mass.
func sharesLeft(after, before material.Parcel) material.Parcel {
	return material.Parcel{
		Water:  after.Water / before.Water,
		Fine:   timesEach(after.Fine, inverse(before.Fine)),
		Coarse: timesEach(after.Coarse, inverse(before.Coarse)),
	}
}

func timesEach(a, b material.Solids) material.Solids {
	return material.Solids{Fixed: a.Fixed * b.Fixed, Readily: a.Readily * b.Readily, Slowly: a.Slowly * b.Slowly,
		Refractory: a.Refractory * b.Refractory, Carbon: a.Carbon * b.Carbon, Nitrogen: a.Nitrogen * b.Nitrogen}
}

func inverse(a material.Solids) material.Solids {
	of := func(x float64) float64 {
		if x == 0 {
			return 0
		}
		return 1 / x
	}
	return material.Solids{Fixed: of(a.Fixed), Readily: of(a.Readily), Slowly: of(a.Slowly),
		Refractory: of(a.Refractory), Carbon: of(a.Carbon), Nitrogen: of(a.Nitrogen)}
}
