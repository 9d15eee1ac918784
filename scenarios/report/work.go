package report

import (
	"fmt"
	"math"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// workFields are the fields of the work in a record.
func workFields[T any](of func(*T) *simulate.Work) []field[T] {
	with := func(name string, kind quantity, spread func(*simulate.Work) answer.Spread) field[T] {
		return field[T]{name: name, kind: kind, spread: func(r *T) answer.Spread { return spread(of(r)) }}
	}
	return []field[T]{
		with("operator_hours", count, func(w *simulate.Work) answer.Spread { return w.OperatorHours }),
		with("loader_hours", count, func(w *simulate.Work) answer.Spread { return w.LoaderHours }),
		with("vessel_moves", count, func(w *simulate.Work) answer.Spread { return w.Moves }),
		with("machine_energy", energy, func(w *simulate.Work) answer.Spread { return w.MachineEnergy }),
		with("blower_energy", energy, func(w *simulate.Work) answer.Spread { return w.BlowerEnergy }),
		with("biofilter_media", volume, func(w *simulate.Work) answer.Spread { return w.MediaVolume }),
		with("product_store_full_hours", count, func(w *simulate.Work) answer.Spread { return w.StoreFull }),
	}
}

// airFields are the fields of the site's air in a record, not numbers where it
// is not followed.
func airFields[T any](of func(*T) *simulate.Air) []field[T] {
	with := func(name string, kind quantity, spread func(*simulate.Air) answer.Spread) field[T] {
		return field[T]{name: name, kind: kind, spread: func(r *T) answer.Spread {
			if air := of(r); air != nil {
				return spread(air)
			}
			return notFollowed
		}}
	}
	return []field[T]{
		with("air_mean", airFlow, func(a *simulate.Air) answer.Spread { return a.Mean }),
		with("air_peak", airFlow, func(a *simulate.Air) answer.Spread { return a.Peak }),
		with("hours_over_air_limit", count, func(a *simulate.Air) answer.Spread { return a.HoursOver }),
	}
}

var notFollowed = answer.Spread{Mean: math.NaN(), P10: math.NaN(), P50: math.NaN(), P90: math.NaN()}

// airLimit is null in JSON where there is no limit.
func airLimit(a *simulate.Answer, sys units.System) number {
	if a.AirLimit == 0 {
		return number(math.NaN())
	}
	return number(airFlow.in(a.AirLimit, sys))
}

// overAir says for how long the last year asks for more air than there is.
func (s summary) overAir() []string {
	last := len(s.a.Years) - 1
	if last < 0 || s.a.Years[last].Air == nil || s.a.Years[last].Air.HoursOver.P90 == 0 {
		return nil
	}
	y := &s.a.Years[last]
	return wrap(fmt.Sprintf("in %s vessels ask for over %s, the limit, during %.0f h (peak %s)",
		y.Label, s.show(s.a.AirLimit, airFlow), y.Air.HoursOver.P50, s.number(y.Air.Peak.P50, airFlow)), label("Air"), label(""))
}
