package plant

import (
	"errors"
	"fmt"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Dewatering makes the cake of a batch when the batch asks for it, from the
// solids that are held. Without a rate the cake is at hand as soon as it is held.
type Dewatering struct {
	Rate  float64 // kg dry per hour
	Hours *calendar.Work
}

// Feedstock is what arrives beside the cake and is held and mixed with it:
// hauled-in cake, manure, food residuals.
type Feedstock struct {
	Material material.Spec
	PerDay   [12]float64 // kg dry per day by month, mean over the week
	Weekday  [7]float64  // relative, Sunday first; scaled to a mean of 1
	CV       float64     // day-to-day variation, independent from day to day
}

// Held says what the holding keeps and a load is mixed of: cake, or cake and
// feedstocks.
func (m *Model) Held() string {
	if len(m.Feedstocks) > 0 {
		return "cake and feedstocks"
	}
	return "cake"
}

// Pulse is more production for some days, as when a digester is cleaned out.
type Pulse struct {
	From   calendar.Date
	Days   int
	PerDay float64 // kg dry per day, on top of the rest
}

// Media is the bed of the biofilter, made of fresh chips and replaced Every so
// often. No Every means none.
type Media struct {
	Every  sim.Duration
	Volume float64 // m3
}

func validateSupply(m *Model) error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(m.Dewatering.Rate >= 0, "the rate of dewatering cannot be negative")
	check(m.Dewatering.Rate == 0 || m.Dewatering.Hours != nil, "dewatering needs working hours")
	check(m.Media.Every >= 0 && m.Media.Volume >= 0, "the media of the biofilter cannot be negative")
	check(m.Media.Volume <= m.Chips.OrderUpTo, "the media of the biofilter (%.0f m3) is more than the chips ordered up to (%.0f m3)", m.Media.Volume, m.Chips.OrderUpTo)
	for _, f := range m.Feedstocks {
		errs = append(errs, f.Material.Validate(m.Chemistry))
		check(f.CV >= 0 && mean(f.Weekday[:]) > 0, "feedstock %s needs weekdays and a variation that is not negative", f.Material.Name)
		for _, v := range f.PerDay {
			check(v >= 0, "feedstock %s cannot be negative", f.Material.Name)
		}
	}
	for _, p := range m.Feed.Pulses {
		check(p.From.Valid() && p.Days > 0 && p.PerDay >= 0, "a pulse needs a date, days and an amount")
	}
	return errors.Join(errs...)
}

// pulse returns the extra production of a day, kg dry.
func (f *Feed) pulse(d calendar.Date) float64 {
	sum := 0.0
	for _, p := range f.Pulses {
		if day := p.From.DaysUntil(d); day >= 0 && day < p.Days {
			sum += p.PerDay
		}
	}
	return sum
}

// replaceMedia takes the biofilter's new bed from the fresh chips. What is not
// there is taken as it is delivered, a day later at the earliest.
func (p *plant) replaceMedia() {
	p.mediaOwed += p.Media.Volume
	p.k.After(p.Media.Every, "biofilter media due", func() {
		p.replaceMedia()
		p.settle()
	})
	p.takeMedia()
}

// takeMedia takes what is owed and there.
func (p *plant) takeMedia() {
	fresh, _ := p.chipVolumes()
	if p.mediaOwed <= 0 || fresh <= 0 {
		return
	}
	var bed material.Parcel
	taken := p.chips.fresh.take(&bed, p.mediaOwed)
	p.mediaOwed -= taken
	p.stations.fresh.take(p.k.Now(), bed.Dry())
	p.move(p.books.media, &bed, 0)
	p.month.Chips.Biofilter += taken
	p.countFresh(taken)
	p.orderChips()
}
