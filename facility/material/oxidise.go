package material

// CarbonPerCO2 and NitrogenPerNH3 are the element's share of the gas's mass.
const (
	CarbonPerCO2   = molarC / molarCO2
	NitrogenPerNH3 = molarN / molarNH3
)

// Chemistry fixes how each degradable class oxidises. What is rapidly degradable
// oxidises by the formula of what is readily so: it is a part of the same matter.
type Chemistry struct {
	Readily, Slowly Yields
	// Retained is the fraction of the ammonia released that stays in the
	// material (taken up into humus) instead of leaving with the air.
	Retained float64
	// Microbes, if counted, keep nitrogen in its place.
	Microbes Microbes
}

// DefaultChemistry oxidises the readily degradable class as biosolids and the
// slowly degradable class as wood. That half of the ammonia stays is an
// assumption; published nitrogen losses of biosolids composting spread widely.
func DefaultChemistry() Chemistry {
	return Chemistry{Readily: Biosolids.Yields(), Slowly: Wood.Yields(), Retained: 0.5}
}

// Oxidation is a request: kg of each class to oxidise, by size class.
type Oxidation struct {
	FineReadily, FineSlowly     float64
	CoarseReadily, CoarseSlowly float64
	FineRapidly, CoarseRapidly  float64
}

// Exchange is what a parcel traded with the air, kg.
type Exchange struct {
	O2       float64 // taken from the air
	CO2      float64 // given to the air
	NH3      float64 // given to the air
	Water    float64 // metabolic water, formed and kept in the parcel
	Volatile float64 // net loss of volatile solids
	Vapour   float64 // water evaporated to the air
	Leachate float64 // water drained
}

// Plus returns the sum of two exchanges.
func (e Exchange) Plus(f Exchange) Exchange {
	return Exchange{
		O2: e.O2 + f.O2, CO2: e.CO2 + f.CO2, NH3: e.NH3 + f.NH3,
		Water: e.Water + f.Water, Volatile: e.Volatile + f.Volatile,
		Vapour: e.Vapour + f.Vapour, Leachate: e.Leachate + f.Leachate,
	}
}

// Minus returns the exchange without another.
func (e Exchange) Minus(f Exchange) Exchange {
	return Exchange{
		O2: e.O2 - f.O2, CO2: e.CO2 - f.CO2, NH3: e.NH3 - f.NH3,
		Water: e.Water - f.Water, Volatile: e.Volatile - f.Volatile,
		Vapour: e.Vapour - f.Vapour, Leachate: e.Leachate - f.Leachate,
	}
}

// Oxidise burns the requested masses, limited to what is there, and returns
// the exchange with the air. Total mass is conserved to the atom:
// the parcel's change equals O2 − CO2 − NH3.
func (p *Parcel) Oxidise(o Oxidation, c *Chemistry) Exchange {
	var e Exchange
	e.oxidise(&p.Fine, o.FineRapidly, o.FineReadily, o.FineSlowly, c)
	e.oxidise(&p.Coarse, o.CoarseRapidly, o.CoarseReadily, o.CoarseSlowly, c)
	p.Water += e.Water
	return e
}

func (e *Exchange) oxidise(s *Solids, rapidly, readily, slowly float64, c *Chemistry) {
	rapidly = min(max(rapidly, 0), s.Rapidly)
	readily = min(max(readily, 0), s.Readily)
	slowly = min(max(slowly, 0), s.Slowly)
	s.Rapidly -= rapidly
	s.Readily -= readily
	s.Slowly -= slowly
	readily += rapidly

	released := readily*c.Readily.NH3 + slowly*c.Slowly.NH3
	decayed := readily*c.Readily.Carbon + slowly*c.Slowly.Carbon
	kept := released * c.Retained
	lost := released - kept
	if c.Microbes.Counted() {
		lost = c.Microbes.ammonia(s, decayed, released)
		kept = released - lost // of the mass: what the formulas release short of it comes from elsewhere
	}

	s.Refractory += kept
	s.Carbon -= decayed
	s.Nitrogen -= lost * NitrogenPerNH3

	e.O2 += readily*c.Readily.O2 + slowly*c.Slowly.O2
	e.CO2 += readily*c.Readily.CO2 + slowly*c.Slowly.CO2
	e.Water += readily*c.Readily.H2O + slowly*c.Slowly.H2O
	e.NH3 += lost
	e.Volatile += readily + slowly - kept
}
