package plant

import "loamcast/facility/material"

// Flow says what goes along a path of the ledger, for programs; a path's name is
// for people.
type Flow int

// Flows, by where they come from.
const (
	CakeProduced Flow = iota
	FeedstockBrought
	CakeDiverted
	CakeContracted // hauled by contract
	CakeMixed
	ChipsDelivered
	ChipsMixed
	ChipsRecovered
	BiofilterMedia
	MixLoaded
	LoadUnloaded
	LoadFailed // and hauled away
	LotScreened
	LotToCure // screened first
	ProductCured
	ProductScreened
	ProductTaken
	Rejects
	OxygenTaken
	MetabolicWater
	VolatilesOxidised
	CarbonDioxideGiven
	AmmoniaGiven
	VapourGiven
	LeachateGiven
	WaterAdded         // to lots that are put up to cure, or by rain
	AmendmentDelivered // on order
	AmendmentBrought   // of own sources
	AmendmentMixed
)

// Path describes a path of the ledger.
type Path struct {
	material.PathInfo
	Flow Flow
}

// path opens a path of the ledger for a flow.
func (b *books) path(f Flow, name string, from, to material.Account) material.Path {
	b.flows = append(b.flows, f)
	return b.Path(name, from, to)
}

// paths lists the paths in the order in which they were opened.
func (b *books) paths() []Path {
	out := make([]Path, len(b.flows))
	for i, info := range b.Paths() {
		out[i] = Path{info, b.flows[i]}
	}
	return out
}
