package mix

// Quantity names what a published range is about.
type Quantity int

const (
	MoistureContent  Quantity = iota // water per wet mass
	SolidsContent                    // dry per wet mass
	NitrogenContent                  // per dry mass
	CarbonNitrogen                   // mass ratio
	BulkDensity                      // as delivered or as mixed, kg/m3
	FreeAirSpace                     // air per volume
	ChipsToCakeRatio                 // volume ratio
)

// Subject names what a published range describes.
type Subject string

// Subjects of Published.
const (
	OfMix     Subject = "mix"
	OfChips   Subject = "wood chips"
	OfSawdust Subject = "sawdust"
	OfCake    Subject = "dewatered cake"
)

// Range is a published or customary range of values. High 0 is no upper bound.
// Preferred marks the narrower range that a source recommends within the
// reasonable one, AsFilled free air that is measured before a heap settles.
type Range struct {
	Subject   Subject
	Quantity  Quantity
	Low, High float64
	Preferred bool
	AsFilled  bool
	Source    string
}

// Contains reports whether v lies in the range.
func (r Range) Contains(v float64) bool { return v >= r.Low && (r.High == 0 || v <= r.High) }

const (
	extension = "LSU AgCenter publication 3838-D, after NRAES-54"
	handbook  = "On-Farm Composting Handbook, NRAES-54, appendix A"
	envEng    = "Environmental engineering handbook, table 7.55.1, biosolids in vessels"
	cakeRule  = "common practice, no source"
)

// Published returns the ranges that a plausible mix and its materials lie in.
// Values outside deserve a warning, not an error.
func Published() []Range {
	return []Range{
		{Subject: OfMix, Quantity: CarbonNitrogen, Low: 20, High: 40, Source: extension},
		{Subject: OfMix, Quantity: CarbonNitrogen, Low: 25, High: 30, Preferred: true, Source: extension},
		{Subject: OfMix, Quantity: MoistureContent, Low: 0.40, High: 0.65, Source: extension},
		{Subject: OfMix, Quantity: MoistureContent, Low: 0.50, High: 0.55, Preferred: true, Source: extension},
		{Subject: OfMix, Quantity: BulkDensity, Low: 475, High: 712, Source: extension},
		{Subject: OfMix, Quantity: BulkDensity, Low: 475, High: 653, Preferred: true, Source: extension},
		{Subject: OfMix, Quantity: FreeAirSpace, Low: 0.40, AsFilled: true, Source: extension + ": porosity"},
		{Subject: OfMix, Quantity: CarbonNitrogen, Low: 25, High: 35, Preferred: true, Source: envEng},
		{Subject: OfMix, Quantity: FreeAirSpace, Low: 0.20, Source: "Eftoda and McCartney, biosolids with chips"},
		{Subject: OfMix, Quantity: ChipsToCakeRatio, Low: 2.5, Source: "Eftoda and McCartney (free air space); Ponsá et al. (full scale)"},
		{Subject: OfMix, Quantity: ChipsToCakeRatio, Low: 2.8, Preferred: true, Source: "Eftoda and McCartney (pore oxygen 5 %)"},

		{Subject: OfChips, Quantity: NitrogenContent, Low: 0.0004, High: 0.0023, Source: handbook},
		{Subject: OfChips, Quantity: CarbonNitrogen, Low: 212, High: 1313, Source: handbook},
		{Subject: OfChips, Quantity: MoistureContent, Low: 0.15, High: 0.40, Source: handbook},
		{Subject: OfChips, Quantity: BulkDensity, Low: 264, High: 368, Source: handbook},
		{Subject: OfSawdust, Quantity: NitrogenContent, Low: 0.0006, High: 0.0080, Source: handbook},
		{Subject: OfSawdust, Quantity: CarbonNitrogen, Low: 200, High: 750, Source: handbook},
		{Subject: OfSawdust, Quantity: MoistureContent, Low: 0.19, High: 0.65, Source: handbook},
		{Subject: OfSawdust, Quantity: BulkDensity, Low: 207, High: 267, Source: handbook},
		{Subject: OfCake, Quantity: SolidsContent, Low: 0.15, High: 0.25, Source: cakeRule},
		{Subject: OfCake, Quantity: BulkDensity, Low: 950, High: 1050, Source: cakeRule},
	}
}

// Outside returns the ranges of a subject and quantity that do not contain v.
func Outside(s Subject, q Quantity, v float64) []Range {
	var out []Range
	for _, r := range Published() {
		if r.Subject == s && r.Quantity == q && !r.Contains(v) {
			out = append(out, r)
		}
	}
	return out
}
