package process

import (
	"math"
	"time"

	"loamcast/facility/material"
)

// Materials as delivered: dewatered digested cake and fresh wood chips within
// the ranges of checks (cake about 1,000 kg/m3, practice; chips after NRAES-54).
// The degradable shares are assumptions.
func cakeSpec() material.Spec {
	return material.Spec{Name: "cake", Moisture: 0.80, Volatile: 0.75, Readily: 0.45, Slowly: 0.20,
		Nitrogen: 0.045, BulkDensity: 1000}
}

func chipSpec() material.Spec {
	return material.Spec{Name: "chips", Moisture: 0.38, Volatile: 0.98, Readily: 0.03, Slowly: 0.50,
		Nitrogen: 0.002, Coarse: 0.92, BulkDensity: 300}
}

// mix returns a load of kg wet mass with ratio volumes of chips per volume of
// cake.
func mix(cake, chips material.Spec, ratio, kg float64) material.Parcel {
	p := cake.OfWet(cake.BulkDensity).Plus(chips.OfWet(ratio * chips.BulkDensity))
	return p.Times(kg / p.Total())
}

// standardLoad is 20 short tons of 1 volume of cake with 2.5 volumes of chips.
func standardLoad() material.Parcel { return mix(cakeSpec(), chipSpec(), 2.5, 18144) }

// significantReduction is the lower class: 40 °C for five days with more than
// 55 °C for four hours within them (40 CFR 257 App. II, read).
func significantReduction() Criterion {
	return Criterion{Name: "significant pathogen reduction", Kind: HoldWithPeak,
		Temperature: 40, Hours: 5 * hoursPerDay, Peak: 55, PeakHours: 4}
}

// uptakeRate is the respiration rate by which stability is judged: the oxygen
// that p would take up at t °C with nothing limiting it, mg O2 per g of volatile
// solids and hour.
func uptakeRate(k Kinetics, p material.Parcel, c material.Chemistry, t float64) float64 {
	constants, held, oxygen := k.constants(), poolsOf(&p), oxygenPer(&c)
	perDay := 0.0
	for i, m := range held {
		perDay += m * constants[i] * oxygen[i]
	}
	return perDay * k.Curve.At(t) / p.Volatile() * 1000 / hoursPerDay
}

// of and from return what Of and From fill in.
func (r *Responses) of(p material.Parcel, month time.Month) (Response, error) {
	return r.from(p, month, math.NaN())
}

func (r *Responses) from(p material.Parcel, month time.Month, start float64) (s Response, err error) {
	err = r.From(&s, &p, month, start)
	return s, err
}

// integrated returns how many standard loads have been integrated so far, and how
// many loads on their own because no standard loads would do.
func (r *Responses) integrated() (standard, direct int) {
	r.mu.RLock()
	defer r.mu.RUnlock()
	return len(r.nodes), int(r.direct.Load())
}
