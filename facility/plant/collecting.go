package plant

// farFromLoad reports whether the cake that is held, with what runs in until midnight, is
// surely too little to begin a vessel by any plan that could be made now, whatever share
// recovered chips have in its load. A small plant collects a load for a week, and a plan at
// every turn would say no more. Where there is about as much as the last plan asked for, it
// is left to a plan to say; so it is where loads may be of several sizes or hold amendments.
func (p *plant) farFromLoad() bool {
	h := &p.holding
	held := h.dry + h.rate*float64(p.untilMidnight())
	if held >= planFrom*p.toStart(&p.next) || h.dry == 0 || len(p.kinds) > 1 || len(p.Amendments) > 0 {
		return false
	}
	cake := h.parcel.Matter()
	cake = cake.Times(1 / p.Bulk.VolumeOfMatter(cake)) // 1 m3
	fresh, recovered := p.chipsToPlan()
	if fresh.volume == 0 {
		fresh = recovered
	}
	if recovered.volume == 0 {
		recovered = fresh
	}
	ratio := p.chipsPerCake()
	one, other := cake.PlusTimes(fresh.perVolume(), ratio), cake.PlusTimes(recovered.perVolume(), ratio)
	load := p.kinds[0].loadsOf(max(one.Total(), other.Total()), p.Bulk.MostVolumeBetween(one, other))
	least := min(p.Holding.StartWith*cake.Dry()*load, fullHolding*p.Holding.Capacity)
	return held < least*(1-rounding)
}

// planFrom is the share of what the last plan asked for from which on loads are planned.
const planFrom = 0.85
