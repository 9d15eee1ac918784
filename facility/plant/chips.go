package plant

import (
	"errors"
	"fmt"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Chips is the bulking agent: what is bought, when it is ordered, and where it
// is kept. Volumes are loose, as delivered, m3.
type Chips struct {
	Fresh    material.Spec
	Moisture [12]float64 // of deliveries by month, 0…1

	Capacity  float64 // of the fresh-chip store, m3
	Reorder   float64 // order when fresh chips on hand and on order fall to this, m3
	OrderUpTo float64 // m3
	Truckload float64 // m3
	LeadTime  sim.Duration
	LeadCV    float64 // coefficient of variation of the lead time
	// Sources are where chips come from, if from several. Fresh, Moisture, Truckload and
	// lead time are then what [Chips.Combine] makes of them.
	Sources []ChipSource
}

func (c Chips) validate() error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	buying := c.Ordering()
	errs = append(errs, buying.validate("chips", c.Capacity))
	for i, m := range c.Moisture {
		check(m >= 0 && m < 0.8, "chip moisture of month %d is %.3g %%; 0 to 80 %% can be simulated", i+1, 100*m)
	}
	return errors.Join(errs...)
}

// Ordering returns the rule by which chips are bought.
func (c *Chips) Ordering() Ordering {
	return Ordering{Reorder: c.Reorder, OrderUpTo: c.OrderUpTo, Truckload: c.Truckload, LeadTime: c.LeadTime, LeadCV: c.LeadCV}
}

// Lead returns the distribution of the lead time, s.
func (c *Chips) Lead() random.Distribution {
	o := c.Ordering()
	return o.Lead()
}

// ChipOrder is an order of fresh chips.
type ChipOrder struct {
	Date       calendar.Date
	Truckloads float64
	Source     int // of several
}

// chipStore is the state of both chip piles.
type chipStore struct {
	fresh, recovered pile
	onOrder          float64 // m3
	orders           uint64
	sources          []chipSourceState
}

// volumes returns the fresh and the recovered volume on hand, m3.
func (p *plant) chipVolumes() (fresh, recovered float64) {
	return p.chips.fresh.volume, p.chips.recovered.volume
}

// takeChips removes volume m3, the given share of it from the recovered pile.
// When one pile is short, the other makes up. The caller has checked that both
// together suffice, but for rounding. It returns what it took, m3.
func (p *plant) takeChips(out *material.Parcel, volume, recoveredShare float64) float64 {
	fresh, recovered := p.chipVolumes()
	fromRecovered := min(volume*recoveredShare, recovered)
	fromFresh := min(volume-fromRecovered, fresh)
	fromRecovered = min(volume-fromFresh, recovered)
	now := p.k.Now()
	fromRecovered = p.chips.recovered.take(out, fromRecovered)
	p.stations.recovered.take(now, out.Dry())
	var bought material.Parcel
	fromFresh = p.chips.fresh.take(&bought, fromFresh)
	p.stations.fresh.take(now, bought.Dry())
	out.Mix(&bought)
	p.month.Chips.Used += fromRecovered + fromFresh
	p.month.Chips.FreshUsed += fromFresh
	p.countFresh(fromFresh)
	return fromRecovered + fromFresh
}

// countFresh enters fresh chips taken into the account of the day.
func (p *plant) countFresh(volume float64) {
	p.month.Chips.FreshByDay[p.dateNow().Day-1] += volume
}

// orderChips orders whole truckloads when the reorder point is reached.
func (p *plant) orderChips() {
	c := &p.Chips
	if len(c.Sources) > 0 {
		p.orderFromSources()
		return
	}
	position := p.chips.fresh.volume + p.chips.onOrder
	if position > c.Reorder {
		return // as after nearly every batch
	}
	buying := c.Ordering()
	trucks := buying.due(position)
	if trucks == 0 {
		return
	}
	volume := trucks * c.Truckload
	p.chips.onOrder += volume
	p.chips.orders++
	p.rec.ChipOrders = append(p.rec.ChipOrders, ChipOrder{Date: p.dateNow(), Truckloads: trucks})
	lead := sim.DurationOf(c.Lead().Draw(p.key.Stream("chip delivery", p.chips.orders)))
	p.k.After(lead, "chip delivery", func() {
		p.receiveChips(volume, trucks)
		p.settle()
	})
}

func (p *plant) receiveChips(volume, trucks float64) {
	delivery := p.freshChips(volume)
	p.chips.onOrder -= volume
	p.chips.fresh.add(&delivery, &p.Bulk)
	p.stations.fresh.put(p.k.Now(), delivery.Dry())
	p.move(p.books.delivered, &delivery, 0)
	fresh, _ := p.chipVolumes()
	p.month.Chips.StorePeak = max(p.month.Chips.StorePeak, fresh)
	p.month.Chips.Bought += volume
	p.month.Chips.BoughtDry += delivery.Dry()
	p.month.Chips.Truckloads += trucks
}

// freshChips returns chips as they are delivered today.
func (p *plant) freshChips(volume float64) material.Parcel {
	today := p.dateNow()
	spec := p.Chips.Fresh.WithMoisture(p.spellOn(today).ofChips(p.Chips.Moisture[today.Month-1]))
	return spec.OfWet(volume * spec.BulkDensity)
}

// openChipStore starts the run with the fresh-chip store as the opening says or, without
// one, filled up.
func (p *plant) openChipStore() {
	bought := p.freshChips(p.Chips.OrderUpTo)
	if p.Opening != nil {
		bought = p.Opening.Fresh
	}
	p.chips.fresh.add(&bought, &p.Bulk)
	p.stations.fresh.put(0, p.chips.fresh.parcel.Dry())
	p.openChipSources()
}

// share returns part/whole within 0…1, 0 when the whole is nothing.
func share(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return min(max(part/whole, 0), 1)
}
