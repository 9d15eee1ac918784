package facilityfile

import (
	"slices"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/scenarios/money"
	"loamcast/sim/random"
)

// Keys returns all keys of the file in its order.
func Keys() []Key {
	return slices.Concat(headKeys, under("", showingRows, func(p Parts) *File { return p.File }), siteKeys(), mixtureKeys(), vesselKeys(), treatmentKeys(), openingKeys(),
		hoursKeys(), courseKeys(), decayKeys(), structureKeys(), changeKeys(), targetKeys(), scenarioKeys(), distributionKeys(), fiscalKeys(), moneyKeys(), planKeys(), setbackKeys())
}

// group is a group that must be there, optional one that need not.
func group(path, words string) Key { return Key{Path: path, Kind: Group, Words: words} }

func optional(path, words, otherwise string) Key {
	return Key{Path: path, Kind: Group, Words: words, Default: elseAs(otherwise, "")}
}

// siteKeys are the surroundings, and what arrives.
func siteKeys() []Key {
	feed := func(p Parts) *plant.Feed { return &p.Model.Feed }
	return slices.Concat(
		[]Key{group("site", "the air around the plant")},
		under("site", siteRows, func(p Parts) *process.Site { return &p.Model.Active.Site }),
		[]Key{group("solids", "dewatered solids that come to the plant")},
		under("solids", baseRows, feed),
		amountKeys("solids"),
		growthKeys("solids.growth"),
		under("solids", sentRows, feed),
		under("solids", solidsRows, feed),
		sourceKeys(),
		[]Key{optional("solids.day_to_day", "how production varies from day to day", "no variation")},
		under("solids.day_to_day", noiseRows, func(p Parts) *random.AR1Lognormal { return &p.Model.Feed.Noise }),
		[]Key{{Path: "solids.pulses", Kind: List, Words: "days of more production, as when a digester is cleaned out", Default: none}},
		under("solids.pulses[]", pulseRows, nil),
		placed("solids.pulses[]", pulseFor),
		[]Key{group("cake", "what the cake is made of")},
		under("cake", cakeRows, func(p Parts) *material.Spec { return &p.Model.Cake }),
		[]Key{{Path: "feedstocks", Kind: List, Words: "what else arrives, to be held and mixed with the cake", Default: none}},
		under("feedstocks[]", feedstockRows, nil),
		under("feedstocks[]", fineRows(nil), nil),
	)
}

// mixtureKeys are what is held, the chips and the mixer.
func mixtureKeys() []Key {
	keys := slices.Concat(
		[]Key{group("holding", "cake, or the solids upstream that become cake, kept until a load is made")},
		under("holding", holdingRows, func(p Parts) *plant.Holding { return &p.Model.Holding }),
		contractKeys(haulingContract.Path, haulingContract, func(p Parts) *plant.Contract { return &p.Model.Contract }),
		[]Key{optional("dewatering", "cake that is made while a batch is loaded, from what is held", "cake is there as soon as it is held")},
		under("dewatering", dewateringRows, func(p Parts) *plant.Dewatering { return &p.Model.Dewatering }),
		[]Key{group("chips", "wood chips, and how they are bought")},
		under("chips", deliveredRows, func(p Parts) *plant.Chips { return &p.Model.Chips }),
		under("chips", chipsSpecRows, func(p Parts) *material.Spec { return &p.Model.Chips.Fresh }),
		under("chips", chipsRows, func(p Parts) *plant.Chips { return &p.Model.Chips }),
		under("chips", supplyRows, func(p Parts) *plant.Chips { return &p.Model.Chips }),
		under("chips", chipsPriceRows, func(p Parts) *MixDesign { return p.Mix }),
		chipSourceKeys(),
		[]Key{group("mix", "the batch, and the mixer that makes it")},
		under("mix", recipeRows, func(p Parts) *plant.Recipe { return &p.Model.Recipe }),
		under("mix", mixerRows, func(p Parts) *plant.Mixer { return &p.Model.Mixer }),
		[]Key{{Path: "mix.targets", Kind: Group, Words: "what a mix is designed for; a run uses it where mix.recipe is designed", Default: elseAs("the defaults", ""), UsedBy: ForMixing}},
		under("mix.targets", mixTargetRows, func(p Parts) *mix.Targets { return &p.Mix.Targets }),
	)
	for _, w := range mixWindows {
		at := "mix.targets." + w.path
		keys = append(keys, Key{Path: at, Kind: Group, Words: w.words, Default: elseAs("the default", ""), UsedBy: ForMixing})
		keys = append(keys, under(at, w.rows(), func(p Parts) *mix.Window { return w.at(&p.Mix.Targets) })...)
	}
	keys = append(keys, recipeKeys()...)
	keys = append(keys, Key{Path: "materials", Kind: List, Words: "what a design may add where it makes the mix cheaper, and mix.amendments hold", Default: none, UsedBy: ForMixing})
	composition := under("materials[]", fineRows(nil), nil)
	for i := range composition {
		composition[i].UsedBy = ForMixing
	}
	return slices.Concat(keys, under("materials[]", amendmentRows, nil), composition, placed("materials[]", amendmentCost))
}

// vesselKeys are the vessels and the yard around them.
func vesselKeys() []Key {
	vessels := func(p Parts) *plant.Vessels { return &p.Model.Vessels }
	yard := func(p Parts) *plant.Yard { return &p.Model.Yard }
	keys := slices.Concat(
		[]Key{group("vessels", "the composting vessels")},
		under("vessels", vesselRows[:1], vessels),
		classKeys(),
		under("vessels", roomRows, func(p Parts) *Planning { return p.Planning }),
		under("vessels", vesselOrderRows, func(p Parts) *Planning { return p.Planning }),
		[]Key{{Path: "vessels.additions", Kind: List, Words: "vessels that come on dates, the short form of changes", Default: none}},
		under("vessels.additions[]", additionRows, nil),
		placed("vessels.additions[]", classKey),
		under("vessels.additions[]", assetRows, nil),
		under("vessels", vesselRows[1:], vessels),
		under("vessels", residenceRows, vessels),
		[]Key{optional("vessels.maintenance", "of each vessel, when it is empty", "none")},
		under("vessels.maintenance", maintenanceRows, func(p Parts) *plant.Maintenance { return &p.Model.Vessels.Service }),
		[]Key{optional("yard", "what moves vessels, where they stand and who works there", "nothing is short")},
		under("yard", yardRows[:1], yard),
		under("yard", moveRows, yard),
		under("yard", yardRows[1:], yard),
		[]Key{optional("yard.place_maintenance", "of each aerated place, when one is free", "none")},
		under("yard.place_maintenance", maintenanceRows, func(p Parts) *plant.Maintenance { return &p.Model.Yard.PlaceService }),
		[]Key{optional("breakdowns", "of machines", "nothing breaks down")},
	)
	for _, b := range breakdowns {
		at := "breakdowns." + b.key
		keys = append(keys, optional(at, "of "+b.words, "none"))
		keys = append(keys, under(at, failureRows, func(p Parts) *plant.Failure { return b.at(p.Model) })...)
	}
	return keys
}

// breakdowns are the machines that break down.
var breakdowns = []struct {
	key, words string
	count      string // key of the yard without which a breakdown is never felt; empty for none
	at         func(*plant.Model) *plant.Failure
}{
	{"mixer", "each mixer", "", func(m *plant.Model) *plant.Failure { return &m.Mixer.Failure }},
	{"screen", "each screen", "", func(m *plant.Model) *plant.Failure { return &m.Screening.Failure }},
	{"truck", "each truck", "trucks", func(m *plant.Model) *plant.Failure { return &m.Yard.Trucks.Failure }},
	{"loader", "each loader", "loaders", func(m *plant.Model) *plant.Failure { return &m.Yard.Loaders.Failure }},
}

// decayKeys are how fast solids decay, and how warm they come.
func decayKeys() []Key {
	return slices.Concat(
		[]Key{optional("decay", "how fast solids decay, in vessels and on the pad", "the defaults")},
		under("decay", decayRows, func(p Parts) *process.Kinetics { return &p.Model.Active.Kinetics }),
		[]Key{optional("intake", "how warm materials come to the mixer", "cake at 20 °C, chips at the mean outdoors but not below 2 °C")},
		under("intake", intakeRows, nil),
	)
}

// treatmentKeys are what follows the vessels.
func treatmentKeys() []Key {
	curing := func(p Parts) *plant.Curing { return &p.Model.Curing }
	settings := func(p Parts) *screening.Settings { return &p.Model.Screening.Settings }
	drying := func(p Parts) *plant.Drying { return &p.Model.Drying }
	pile := Key{Path: "curing.pile", Kind: Group, Words: "the piles on the pad", When: "with pad_area"}
	return slices.Concat(
		[]Key{group("curing", "the pad between vessels and screen")},
		under("curing", padRows, curing),
		placed("curing", padArea),
		[]Key{pile},
		under("curing.pile", pileRows, nil),
		under("curing.pile", pileTopRows, nil),
		under("curing", curingTimeRows, curing),
		under("curing", curingRows, curing),
		handlingKeys(),
		[]Key{optional("curing.aeration", "air of the piles", "the defaults")},
		under("curing.aeration", pileAirRows, func(p Parts) *process.Model { return p.Model.Pile }),
		[]Key{optional("curing.rewet", "water for lots that are too dry when they are put up to cure", "none is added")},
		under("curing.rewet", rewetRows, func(p Parts) *plant.Rewet { return &p.Model.Curing.Rewet }),
		[]Key{group("screen", "the screen, which gives chips back")},
		under("screen", screenRows[:1], settings),
		under("screen", openingRows, settings),
		under("screen", screenRows[1:], settings),
		under("screen", screeningRows, func(p Parts) *plant.Screening { return &p.Model.Screening }),
		under("screen", gateRows, drying),
		under("screen", waitRows, drying),
		under("screen", dryingAirRows, drying),
		[]Key{group("product", "the store of screened compost, and its demand")},
		under("product", productRows, func(p Parts) *plant.Product { return &p.Model.Product }),
		[]Key{optional("biofilter", "its bed: the air that it takes, and its media of fresh chips", "no limit, no media")},
		under("biofilter", bedRows, func(p Parts) *plant.Air { return &p.Model.Air }),
		under("biofilter", mediaRows, func(p Parts) *plant.Media { return &p.Model.Media }),
	)
}

// courseKeys are what a load must show, and how vessels are aerated.
func courseKeys() []Key {
	return slices.Concat(
		[]Key{{Path: "criteria", Kind: List, Words: "time and temperature that a load must show before it may leave",
			Default: elseAs("pathogen and vector attraction reduction", "40 CFR 503 App. B and 503.33(b)(5), from memory")}},
		under("criteria[]", criterionRows, nil),
		under("criteria[]", holdRows, nil),
		under("criteria[]", peakRows, nil),
		under("criteria[]", meanRows[:1], nil),
		under("criteria[]", meanRows[2:], nil),
		under("criteria[]", equationRows, nil),
		[]Key{optional("aeration", "how the vessels are aerated", "the defaults"),
			{Path: "aeration.program", Kind: List, Words: "parts of the course of a load", Default: elseAs("a built-in program", assumption)}},
		under("aeration.program[]", segmentRows, nil),
		under("aeration.program[]", rampRows, nil),
		under("aeration.program[]", untilRows, nil),
		under("aeration.program[]", keptRows, nil),
		under("aeration.program[]", longestRows, nil),
		under("aeration", programRows, func(p Parts) *process.Model { return p.Model.Active }),
		under("aeration", vesselAirRows, func(p Parts) *process.Model { return p.Model.Active }),
		[]Key{optional("aeration.drying", "air that dries a load when it is due and complies, before it leaves its vessel", "none")},
		under("aeration.drying", vesselDryingRows, func(p Parts) *plant.VesselDrying { return &p.Model.Drying.Vessel }),
		under("aeration", blowerRows, func(p Parts) *plant.Air { return &p.Model.Air }),
		ammoniaKeys(),
	)
}

func targetKeys() []Key {
	at := Key{Path: "target", Kind: Group, Words: "by what a year is judged", Default: elseAs("the defaults", commonPractice), UsedBy: ForPlanning}
	return append([]Key{at}, under("target", targetRows, func(p Parts) *Target { return &p.Planning.Target })...)
}

func moneyKeys() []Key {
	economy := func(p Parts) *Economy { return p.Economy }
	return slices.Concat(
		[]Key{{Path: "money", Kind: Group, Words: "what things cost, in the money of one year, in any one currency", Default: elseAs("costs are not known", ""), UsedBy: ForPlanning}},
		under("money", ratesRows, func(p Parts) *money.Rates { return &p.Economy.Rates }),
		under("money", priceRows[:2], economy),
		under("money", fuelRows, economy),
		under("money", priceRows[2:], economy),
		[]Key{{Path: "money.carbon", Kind: Group, Words: "what is paid for what power and fuel give off", Default: none, UsedBy: ForPlanning}},
		under("money.carbon", carbonRows, economy),
		[]Key{{Path: "money.escalation", Kind: Group, Words: "prices that rise otherwise than inflation", Default: elseAs("all rise with inflation", ""), UsedBy: ForPlanning}},
		under("money.escalation", escalationRows, nil),
		[]Key{capitalInput},
	)
}
