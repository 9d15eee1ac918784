package recycle

import (
	"time"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/facility/plant"
)

const (
	hoursPerDay = 24
	midMonth    = 15 // the day on which a load is begun
)

// Loop is a facility in one month.
type Loop struct {
	Model      *plant.Model
	Month      time.Month
	CakeSolids float64 // 0…1
	Stay       float64 // aimed at in the vessel, h

	leastCuring float64 // h, beside the model's
	wetted      bool    // every lot gets water that is below the moisture lots are brought to
}

// New returns the loop of a facility in a month, as its model says; of several classes of
// vessels, in one of the first.
func New(m *plant.Model, month time.Month) Loop {
	if m.Vessels.ClassCount() > 1 {
		one := m.AsClass(0)
		m = &one
	}
	return Loop{Model: m, Month: month, CakeSolids: m.Feed.CakeSolids[month-1], Stay: m.Vessels.Residence.Hours()}
}

// Cake returns 1 m3 of the month's cake.
func (l Loop) Cake() material.Parcel {
	return l.cubicMetre(l.Model.Cake.WithMoisture(1 - l.CakeSolids))
}

// FreshChips returns 1 m3 of chips, loose, as delivered in the month.
func (l Loop) FreshChips() material.Parcel {
	return l.cubicMetre(l.Model.Chips.Fresh.WithMoisture(l.Model.Chips.Moisture[l.Month-1]))
}

// cubicMetre measures by the volume model, as a run does.
func (l Loop) cubicMetre(s material.Spec) material.Parcel {
	return l.cubicMetreOf(s.OfWet(1))
}

func (l Loop) cubicMetreOf(p material.Parcel) material.Parcel {
	volume := l.Model.Bulk.Volume(p)
	if volume == 0 {
		return p
	}
	return p.Times(1 / volume)
}

// Vessel returns what a vessel holds.
func (l Loop) Vessel() mix.Vessel {
	return mix.Vessel{Volume: l.Model.Vessels.Volume, Payload: l.Model.Vessels.Payload}
}

// Full returns the factor by which a parcel must be multiplied to fill a vessel
// by volume or payload, whichever comes first.
func (l Loop) Full(p material.Parcel) float64 {
	v := l.Vessel()
	return min(v.Payload/p.Total(), v.Volume/l.Model.Bulk.Volume(p))
}

// rewet returns which lots get water.
func (l Loop) rewet() plant.Rewet {
	w := l.Model.Curing.Rewet
	if l.wetted {
		w.Below = w.UpTo
	}
	return w
}

// monthAfter returns the month some hours after the load was begun, in a year
// that is not a leap year.
func (l Loop) monthAfter(hours float64) time.Month {
	const year = 2001
	begun := time.Date(year, l.Month, midMonth, 0, 0, 0, 0, time.UTC)
	return begun.Add(time.Duration(hours * float64(time.Hour))).Month()
}

// Batches returns the fewest equal batches that fill a vessel with a load, by
// volume and scale of the mixer, and whether the vessel is full by payload.
func (l Loop) Batches(load material.Parcel) (n int, byPayload bool) {
	v, volume := l.Vessel(), l.Model.Bulk.Volume(load)
	return int(l.Model.Mixer.Batches(load.Total(), volume)), load.Total()/v.Payload > volume/v.Volume
}
