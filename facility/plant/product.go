package plant

import "loamcast/facility/material"

// productStore is screened compost waiting to be taken.
type productStore struct {
	pile
	blocked bool // the next lot did not fit
}

// productTakes reports whether the store has room for more, beside what is coming from
// the screens.
func (p *plant) productTakes(q material.Parcel) bool {
	return p.product.volume+p.productComing()+p.Bulk.Volume(q) <= p.Product.Capacity
}

// storeProduct stores what has become of a load.
func (p *plant) storeProduct(l *load, q material.Parcel) {
	p.month.Product.CakeDry += l.cakeDry
	p.month.Product.Volume += p.Bulk.Volume(q)
	p.month.Product.Wet += q.Total()
	p.month.Product.Dry += q.Dry()
	p.product.add(&q, &p.Bulk)
	p.month.Product.StorePeak = max(p.month.Product.StorePeak, p.product.volume)
	p.stations.product.put(p.k.Now(), q.Dry())
}

// takeProduct removes a day's demand, or what there is of it.
func (p *plant) takeProduct(month int) {
	demand := p.Product.Demand[month-1]
	var parcel material.Parcel
	taken := p.product.take(&parcel, min(demand, max(0, p.product.volume-p.keptProduct())))
	p.move(p.books.sold, &parcel, 0)
	p.month.Product.TakenVolume += taken
	p.month.Product.TakenDry += parcel.Dry()
	p.month.Product.Shortage += max(0, demand-taken)
	p.product.blocked = false
	p.stations.product.take(p.k.Now(), parcel.Dry())
}
