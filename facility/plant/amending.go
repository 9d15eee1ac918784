package plant

import (
	"math"

	"loamcast/facility/material"
	"loamcast/sim"
)

// amendmentStore is the state of an amendment. For product, whose pile is that of the
// product store, only the last field counts.
type amendmentStore struct {
	pile
	one      material.Parcel // a m3 of it
	onOrder  float64         // m3
	orders   uint64
	short    sim.Time // since when mixing waits for it, or −1
	meter    *heap
	arriving material.Path // on order
	own      material.Path
	mixed    material.Path
	perCake  float64 // of the load that is planned, m3 per m3 of cake
}

// openAmendments starts the run with the stores of what is bought filled up, as the
// store of chips is, and those of own sources empty: what the season brings must come
// first.
func (p *plant) openAmendments() {
	if len(p.Amendments) == 0 {
		return
	}
	p.amendments = make([]amendmentStore, len(p.Amendments))
	p.parts = make([]batchPart, len(p.Amendments))
	for i := range p.amendments {
		a, s := &p.Amendments[i], &p.amendments[i]
		s.short = -1
		if a.Source == FromProduct {
			continue
		}
		s.one, s.meter = a.perVolume(), newHeap(a.Material.Name)
		s.put(0, a.Buying.OrderUpTo)
	}
}

// put stores some m3 of what is supplied and returns it.
func (s *amendmentStore) put(now sim.Time, m3 float64) material.Parcel {
	q := s.one.Times(m3)
	s.parcel.Mix(&q)
	s.volume += m3
	s.meter.put(now, q.Dry())
	return q
}

// amendmentAccounts opens the accounts and paths of amendments.
func (p *plant) amendmentAccounts(b *books, account func(string, func() material.Parcel) material.Account, mixer, product material.Account) {
	for i := range p.amendments {
		a, s := &p.Amendments[i], &p.amendments[i]
		name := a.Material.Name
		if a.Source == FromProduct {
			s.mixed = b.path(AmendmentMixed, name+" mixed", product, mixer)
			continue
		}
		store := account(name, func() material.Parcel { return s.parcel })
		s.arriving = b.path(AmendmentDelivered, name+" delivered", material.Outside, store)
		s.own = b.path(AmendmentBrought, name+" of own sources", material.Outside, store)
		s.mixed = b.path(AmendmentMixed, name+" mixed", store, mixer)
	}
}

// batchPart is an amendment in a batch, m3: what is planned, and what the recipe
// asks for.
type batchPart struct{ volume, asked float64 }

// onHand returns the pile from which an amendment is taken.
func (p *plant) onHand(i int) *pile {
	if p.Amendments[i].Source == FromProduct {
		return &p.product.pile
	}
	return &p.amendments[i].pile
}

// crumb is a volume of product, m3, below which there is none: what rounding leaves of a
// pile has no composition that could be told.
const crumb = 1e-6

// blendAll does what blend does, for 1 m3 of cake with the amendments of the
// recipe. Of those that loads do without when they are short, there is as much in a
// load as is on hand: that depends on the size of the load, which depends a little
// on that, so a few passes find both.
func (p *plant) blendAll(cake material.Matter, fresh, recovered *pile) (load loadSize) {
	if len(p.Amendments) == 0 {
		return p.blend(cake, fresh, recovered)
	}
	month := int(p.monthNow()) - 1
	for i := range p.amendments {
		s := &p.amendments[i]
		s.perCake = p.Amendments[i].PerCake[month]
		if p.Amendments[i].Source == FromProduct {
			s.one = material.Parcel{}
			if p.product.volume < crumb {
				s.perCake = 0
			} else {
				s.one = p.product.parcel.Times(1 / p.product.volume)
			}
		}
	}
	const mostPasses = 20
	for range mostPasses {
		feed := cake
		for i := range p.amendments {
			feed = feed.PlusTimes(p.amendments[i].one.Matter(), p.amendments[i].perCake)
		}
		load = p.blend(feed, fresh, recovered)
		if !p.doWithout(load.cake, month) {
			break
		}
	}
	return load
}

// doWithout limits the amendments that loads may do without to what is on hand for a
// load of some m3 of cake, and reports whether that changed any.
func (p *plant) doWithout(scale float64, month int) bool {
	const close = 1e-12
	changed := false
	for i := range p.amendments {
		a, s := &p.Amendments[i], &p.amendments[i]
		if !a.Without {
			continue
		}
		next := min(a.PerCake[month], p.onHand(i).volume/scale)
		changed = changed || math.Abs(next-s.perCake) > close
		s.perCake = next
	}
	return changed
}

// planParts returns the amendments of each of n batches of a load of some m3 of cake.
// The next plan writes over them.
func (p *plant) planParts(scale, n float64) []batchPart {
	if len(p.Amendments) == 0 {
		return nil
	}
	month := int(p.monthNow()) - 1
	for i := range p.parts {
		p.parts[i] = batchPart{p.amendments[i].perCake * scale / n, p.Amendments[i].PerCake[month] * scale / n}
	}
	return p.parts
}

// amendmentsFor reports whether there are amendments for a batch.
func (p *plant) amendmentsFor(plan *batchPlan) bool {
	for i := range plan.parts {
		if p.lacks(plan, i) {
			return false
		}
	}
	return true
}

// lacks reports whether mixing a batch must wait for an amendment.
func (p *plant) lacks(plan *batchPlan, i int) bool {
	return !p.Amendments[i].Without && p.amendments[i].volume < plan.parts[i].volume*p.batchCake(plan)/plan.cakeDry
}

// shortOfAmendments reports whether nothing but an amendment, or chips, is missing for
// a batch, and counts the hours for which that has been so.
func (p *plant) shortOfAmendments(plan *batchPlan) bool {
	short := false
	for i := range plan.parts {
		lacks := p.lacks(plan, i)
		p.amendmentHoursShort(i, lacks)
		short = short || lacks
	}
	return short
}

// amendmentHoursShort counts the hours since the last look during which mixing has
// waited for an amendment, and notes whether it waits now.
func (p *plant) amendmentHoursShort(i int, short bool) {
	now, s := p.k.Now(), &p.amendments[i]
	if s.short >= 0 {
		p.month.Amendments[i].HoursShort += now.Sub(s.short).Hours()
	}
	s.short = -1
	if short {
		s.short = now
	}
}

// rounding is a part of what is asked for below which nothing is missed.
const rounding = 1e-9

// takeAmendments takes those of a batch, of which it has a share, and orders more. Of
// what loads may do without it takes what is there.
func (p *plant) takeAmendments(plan *batchPlan, part float64, load uint64) (out material.Parcel) {
	now := p.k.Now()
	for i := range plan.parts {
		s, meter := &p.amendments[i], p.amendments[i].meter
		if p.Amendments[i].Source == FromProduct {
			meter = p.stations.product
		}
		var q material.Parcel
		volume := p.onHand(i).take(&q, plan.parts[i].volume*part)
		meter.take(now, q.Dry())
		p.move(s.mixed, &q, load)
		out.Mix(&q)
		m := &p.month.Amendments[i]
		m.Used += volume
		m.UsedDry += q.Dry()
		if asked := plan.parts[i].asked * part; asked-volume > rounding*asked {
			m.Missed += asked - volume
		}
		if p.Amendments[i].Source == FromProduct && volume > 0 {
			p.product.blocked, p.again = false, true // there is room again
		}
		p.orderAmendment(i)
	}
	return out
}

// supplyAmendments brings in a day's amount from own sources, and orders what is low.
func (p *plant) supplyAmendments() {
	month := int(p.monthNow()) - 1
	for i := range p.amendments {
		a, s := &p.Amendments[i], &p.amendments[i]
		if day := a.Own[month]; day > 0 {
			volume := min(day, max(0, a.Store-s.volume))
			q := s.put(p.k.Now(), volume)
			p.move(s.own, &q, 0)
			m := &p.month.Amendments[i]
			m.Own += volume
			m.OwnDry += q.Dry()
			m.Turned += day - volume
			m.StorePeak = max(m.StorePeak, s.volume)
		}
		p.orderAmendment(i)
	}
}

// orderAmendment orders whole truckloads when the reorder point is reached.
func (p *plant) orderAmendment(i int) {
	a, s := &p.Amendments[i], &p.amendments[i]
	if !a.Buying.Buys() {
		return
	}
	trucks := a.Buying.due(s.volume + s.onOrder)
	if trucks == 0 {
		return
	}
	volume := trucks * a.Buying.Truckload
	s.onOrder += volume
	s.orders++
	lead := sim.DurationOf(a.Buying.Lead().Draw(p.key.Stream("amendment delivery", uint64(i), s.orders)))
	p.k.After(lead, "amendment delivery", func() {
		p.receiveAmendment(i, volume, trucks)
		p.settle()
	})
}

// receiveAmendment takes in a delivery. Where own sources have filled the store
// meanwhile it is not refused: the pile is higher than it should be.
func (p *plant) receiveAmendment(i int, volume, trucks float64) {
	s, m := &p.amendments[i], &p.month.Amendments[i]
	s.onOrder -= volume
	q := s.put(p.k.Now(), volume)
	p.move(s.arriving, &q, 0)
	m.Bought += volume
	m.BoughtDry += q.Dry()
	m.Truckloads += trucks
	m.StorePeak = max(m.StorePeak, s.volume)
}

// openAmendmentMonth begins the sums of a month; a record keeps those of the last.
func (p *plant) openAmendmentMonth() {
	if len(p.amendments) == 0 {
		return
	}
	p.month.Amendments = make([]MonthlyAmendment, len(p.amendments))
	for i := range p.amendments {
		p.month.Amendments[i].StorePeak = p.amendments[i].volume
	}
}

// closeAmendmentMonth ends them.
func (p *plant) closeAmendmentMonth() {
	for i := range p.amendments {
		p.amendmentHoursShort(i, p.amendments[i].short >= 0)
		p.month.Amendments[i].StoreEnd = p.amendments[i].volume
	}
}

// keptProduct returns what demand leaves in the product store for mixing, m3.
func (p *plant) keptProduct() float64 {
	kept := 0.0
	for i := range p.Amendments {
		kept += p.Amendments[i].Kept
	}
	return kept
}
