package plant

import "loamcast/facility/material"

// books names the plant's stores and flows in its ledger.
type books struct {
	material.Ledger
	stores []func() material.Parcel // inventories, in order of account
	flows  []Flow                   // in order of path

	feed                       []material.Path // cake, then feedstocks
	divertedCake               material.Path
	contractCake               material.Path // none without a contract
	media                      material.Path // chips into the biofilter
	delivered                  material.Path
	cakeToMixer, chipsToMixer  material.Path
	mixToVessel                material.Path
	vesselToPad, divertedLoads material.Path
	screenToPad, padToProduct  material.Path
	padToScreen                material.Path
	toProduct, toChips, reject material.Path
	sold                       material.Path
	water                      material.Path // to lots that cure; none where none is added
	rain                       material.Path // on recovered chips; none where none falls

	vesselAir, padAir airPaths
}

// airPaths are the exchanges of one store with the air.
type airPaths struct {
	oxygen, carbonDioxide, ammonia, vapour, leachate material.Path
	metabolic, oxidised                              material.Path
}

func newBooks(p *plant) *books {
	b := &books{}
	account := func(name string, holds func() material.Parcel) material.Account {
		b.stores = append(b.stores, holds)
		held := holds()
		return b.Account(name, held.Components())
	}
	const fence = material.Outside
	holding := account("cake holding", func() material.Parcel { return p.holding.parcel })
	chips := account("chips", func() material.Parcel { return p.chips.fresh.parcel.Plus(p.chips.recovered.parcel) })
	mixer := account("mixer", p.mixers.hold)
	vessels := account("vessels", p.vesselsHold)
	pad := account("curing pad", p.padHolds)
	screen := account("screen", p.screens.hold)
	product := account("product store", func() material.Parcel { return p.product.parcel })

	held := p.Held()
	b.feed = []material.Path{b.path(CakeProduced, "cake produced", fence, holding)}
	for _, f := range p.Feedstocks {
		b.feed = append(b.feed, b.path(FeedstockBrought, f.Material.Name+" brought in", fence, holding))
	}
	b.media = b.path(BiofilterMedia, "biofilter media", chips, fence)
	b.divertedCake = b.path(CakeDiverted, held+" diverted", holding, fence)
	b.delivered = b.path(ChipsDelivered, "chips delivered", fence, chips)
	for i := range p.chips.sources {
		p.chips.sources[i].coming = b.path(ChipsDelivered, "chips from "+p.Chips.Sources[i].Name, fence, chips)
	}
	b.cakeToMixer = b.path(CakeMixed, held+" mixed", holding, mixer)
	b.chipsToMixer = b.path(ChipsMixed, "chips mixed", chips, mixer)
	b.mixToVessel = b.path(MixLoaded, "mix loaded", mixer, vessels)
	b.vesselToPad = b.path(LoadUnloaded, "compost unloaded", vessels, pad)
	b.divertedLoads = b.path(LoadFailed, "failed loads hauled away", vessels, fence)
	b.padToScreen = b.path(LotScreened, "cured mix screened", pad, screen)
	b.screenToPad = b.path(LotToCure, "screened, to be cured", screen, pad)
	b.padToProduct = b.path(ProductCured, "product cured", pad, product)
	b.toProduct = b.path(ProductScreened, "product screened", screen, product)
	b.toChips = b.path(ChipsRecovered, "chips recovered", screen, chips)
	b.reject = b.path(Rejects, "rejects", screen, fence)
	b.sold = b.path(ProductTaken, "product taken", product, fence)
	b.vesselAir = b.airPaths("vessels", vessels)
	b.padAir = b.airPaths("curing", pad)
	if p.Curing.Rewet.On() {
		b.water = b.path(WaterAdded, "water added", fence, pad)
	}
	if p.Contracted() {
		b.contractCake = b.path(CakeContracted, held+" hauled by contract", holding, fence)
	}
	if p.rains() {
		b.rain = b.path(WaterAdded, "rain on recovered chips", fence, chips)
	}
	p.amendmentAccounts(b, account, mixer, product)
	return b
}

func (b *books) airPaths(where string, a material.Account) airPaths {
	const fence = material.Outside
	return airPaths{
		oxygen:        b.path(OxygenTaken, "oxygen, "+where, fence, a),
		metabolic:     b.path(MetabolicWater, "metabolic water, "+where, fence, a),
		carbonDioxide: b.path(CarbonDioxideGiven, "carbon dioxide, "+where, a, fence),
		ammonia:       b.path(AmmoniaGiven, "ammonia, "+where, a, fence),
		vapour:        b.path(VapourGiven, "water vapour, "+where, a, fence),
		leachate:      b.path(LeachateGiven, "leachate, "+where, a, fence),
		oxidised:      b.path(VolatilesOxidised, "volatile solids oxidised, "+where, a, fence),
	}
}

// close ends a period against what the stores hold now.
func (b *books) close() (material.Period, error) {
	inventory := make([]material.Components, len(b.stores))
	for i, holds := range b.stores {
		held := holds()
		inventory[i] = held.Components()
	}
	return b.Close(inventory)
}
