package plant

import "loamcast/facility/material"

// productStore is screened compost waiting to be taken.
type productStore struct {
	parcel  material.Parcel
	blocked bool // the next lot did not fit
}

func (p *plant) productTakes(q material.Parcel) bool {
	return p.Bulk.Volume(p.product.parcel)+p.Bulk.Volume(q) <= p.Product.Capacity
}

func (p *plant) storeProduct(q material.Parcel) {
	p.product.parcel.Add(q)
	volume := p.Bulk.Volume(q)
	p.month.ProductVolume += volume
	p.month.ProductWet += q.Total()
	p.month.ProductDry += q.Dry()
	held := p.Bulk.Volume(p.product.parcel)
	p.month.ProductPeak = max(p.month.ProductPeak, held)
	p.stations.product.put(p.k.Now(), q.Dry())
}

// takeProduct removes a day's demand, or what there is of it.
func (p *plant) takeProduct(month int) {
	held := p.Bulk.Volume(p.product.parcel)
	demand := p.Product.Demand[month-1]
	taken := p.product.parcel.Take(share(demand, held))
	p.move(p.books.sold, taken, 0)
	p.month.TakenVolume += p.Bulk.Volume(taken)
	p.month.TakenDry += taken.Dry()
	p.month.Shortage += max(0, demand-held)
	p.product.blocked = false
	p.stations.product.take(p.k.Now(), taken.Dry())
}
