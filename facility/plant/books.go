package plant

import "loamcast/facility/material"

// books names the plant's stores and flows in its ledger.
type books struct {
	material.Ledger
	stores []func() material.Parcel // inventories, in order of account

	feed                       []material.Path // cake, then feedstocks
	divertedCake               material.Path
	media                      material.Path // chips into the biofilter
	delivered                  material.Path
	cakeToMixer, chipsToMixer  material.Path
	mixToVessel                material.Path
	vesselToPad, divertedLoads material.Path
	screenToPad, padToProduct  material.Path
	padToScreen                material.Path
	toProduct, toChips, reject material.Path
	sold                       material.Path

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
		return b.Account(name, holds().Components())
	}
	const fence = material.Outside
	holding := account("cake holding", func() material.Parcel { return p.holding.parcel })
	chips := account("chips", func() material.Parcel { return p.chips.fresh.parcel.Plus(p.chips.recovered.parcel) })
	mixer := account("mixer", func() material.Parcel { return p.mixer.content })
	vessels := account("vessels", p.vesselsHold)
	pad := account("curing pad", p.padHolds)
	screen := account("screen", func() material.Parcel { return p.screen.content() })
	product := account("product store", func() material.Parcel { return p.product.parcel })

	b.feed = []material.Path{b.Path("cake produced", fence, holding)}
	for _, f := range p.Feedstocks {
		b.feed = append(b.feed, b.Path(f.Material.Name+" brought in", fence, holding))
	}
	b.media = b.Path("biofilter media", chips, fence)
	b.divertedCake = b.Path("cake diverted", holding, fence)
	b.delivered = b.Path("chips delivered", fence, chips)
	b.cakeToMixer = b.Path("cake mixed", holding, mixer)
	b.chipsToMixer = b.Path("chips mixed", chips, mixer)
	b.mixToVessel = b.Path("mix loaded", mixer, vessels)
	b.vesselToPad = b.Path("compost unloaded", vessels, pad)
	b.divertedLoads = b.Path("failed loads hauled away", vessels, fence)
	b.padToScreen = b.Path("cured mix screened", pad, screen)
	b.screenToPad = b.Path("screened, to be cured", screen, pad)
	b.padToProduct = b.Path("product cured", pad, product)
	b.toProduct = b.Path("product screened", screen, product)
	b.toChips = b.Path("chips recovered", screen, chips)
	b.reject = b.Path("rejects", screen, fence)
	b.sold = b.Path("product taken", product, fence)
	b.vesselAir = b.airPaths("vessels", vessels)
	b.padAir = b.airPaths("curing", pad)
	return b
}

func (b *books) airPaths(where string, a material.Account) airPaths {
	const fence = material.Outside
	return airPaths{
		oxygen:        b.Path("oxygen, "+where, fence, a),
		metabolic:     b.Path("metabolic water, "+where, fence, a),
		carbonDioxide: b.Path("carbon dioxide, "+where, a, fence),
		ammonia:       b.Path("ammonia, "+where, a, fence),
		vapour:        b.Path("water vapour, "+where, a, fence),
		leachate:      b.Path("leachate, "+where, a, fence),
		oxidised:      b.Path("volatile solids oxidised, "+where, a, fence),
	}
}

// close ends a period against what the stores hold now.
func (b *books) close() (material.Period, error) {
	inventory := make([]material.Components, len(b.stores))
	for i, holds := range b.stores {
		inventory[i] = holds().Components()
	}
	return b.Close(inventory)
}
