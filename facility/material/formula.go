package material

// Formula is the elemental composition of a volatile class, in atoms.
type Formula struct{ C, H, O, N float64 }

// Empirical formulas of the degradable classes, after Haug, The Practical
// Handbook of Compost Engineering (1993), from memory.
var (
	// Biosolids stands for the readily degradable volatile solids of sludge.
	Biosolids = Formula{C: 10, H: 19, O: 3, N: 1}
	// Wood stands for cellulose-like, slowly degradable volatile solids.
	Wood = Formula{C: 6, H: 10, O: 5}
)

// Molar masses, g/mol (IUPAC standard atomic weights, abridged).
const (
	molarC   = 12.011
	molarH   = 1.008
	molarO   = 15.999
	molarN   = 14.007
	molarO2  = 2 * molarO
	molarCO2 = molarC + 2*molarO
	molarH2O = 2*molarH + molarO
	molarNH3 = molarN + 3*molarH
)

// Molar returns the molar mass, g/mol.
func (f Formula) Molar() float64 {
	return f.C*molarC + f.H*molarH + f.O*molarO + f.N*molarN
}

// Yields are masses per kg of volatile solids oxidised, kg/kg. Oxygen and the
// solids go in; the rest come out: 1 + O2 = CO2 + H2O + NH3.
type Yields struct {
	O2, CO2, H2O, NH3 float64
	Carbon, Nitrogen  float64 // of the elements in the solids
}

// Yields balances complete oxidation with ammonia as the nitrogen product:
//
//	C_a H_b O_c N_d + (a + b/4 − c/2 − 3d/4) O2 → a CO2 + (b − 3d)/2 H2O + d NH3
func (f Formula) Yields() Yields {
	m := f.Molar()
	return Yields{
		O2:       (f.C + f.H/4 - f.O/2 - 3*f.N/4) * molarO2 / m,
		CO2:      f.C * molarCO2 / m,
		H2O:      (f.H - 3*f.N) / 2 * molarH2O / m,
		NH3:      f.N * molarNH3 / m,
		Carbon:   f.C * molarC / m,
		Nitrogen: f.N * molarN / m,
	}
}
