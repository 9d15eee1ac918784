package process

import "math"

const (
	molarAir    = 28.966 // g/mol, dry
	molarOxygen = 31.998 // g/mol
)

// airPerOxygen converts an uptake into a fall of oxygen: 1 kg of oxygen taken
// from airPerOxygen kg of dry air lowers its oxygen by 1 % by volume.
const airPerOxygen = 100 * molarAir / molarOxygen

// poreOxygen returns the oxygen, % by volume, of well-mixed pores through which
// air (kg dry) passes while matter could take up potential kg of oxygen if
// oxygen did not limit it. The uptake is potential·c/(c + half), so that
//
//	c = c_in − airPerOxygen·potential/air · c/(c + half)
//
// of which this is the positive root.
func poreOxygen(potential, air, half float64) float64 {
	if air <= 0 {
		if potential > 0 {
			return 0
		}
		return inletOxygen
	}
	b := half - inletOxygen + airPerOxygen*potential/air
	root := math.Sqrt(b*b + 4*inletOxygen*half)
	if b > 0 { // avoids the difference of nearly equal numbers
		return 2 * inletOxygen * half / (b + root)
	}
	return (root - b) / 2
}

// airFor returns the dry air, kg, that keeps c % oxygen in the pores.
func airFor(potential, c, half float64) float64 {
	return airPerOxygen * potential * c / (c + half) / (inletOxygen - c)
}

// airToHold returns the dry air, kg, that takes away all heat which oxidation
// sets free above what must stay: heat·potential·c/(c + half) = stays + cool·air,
// with c the pore oxygen at that flow; heat in kJ/kg O2, stays in kJ, cool in kJ
// per kg of dry air. Writing air by c gives a quadratic whose larger root is the
// flow on the branch where more air means a cooler load. It returns 0 when
// there is no heat to take away.
func airToHold(potential, heat, stays, cool, half float64) float64 {
	most := heat * potential
	if most <= stays || cool <= 0 {
		return 0
	}
	a := most - stays
	b := most*inletOxygen - stays*(inletOxygen-half) - cool*airPerOxygen*potential
	d := b*b - 4*a*stays*half*inletOxygen
	if d < 0 {
		return 0
	}
	c := (b + math.Sqrt(d)) / (2 * a)
	if c <= 0 {
		return 0
	}
	return max(0, (most*c/(c+half)-stays)/cool)
}
