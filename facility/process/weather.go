package process

import (
	"time"

	"loamcast/facility/moistair"
)

// inlet is the air that enters a load, constant over its course.
type inlet struct {
	temperature float64 // °C
	humidity    float64 // kg water per kg dry air
	pressure    float64 // Pa
	volume      float64 // m3 per kg dry air
}

func (s Site) inlet(month time.Month) inlet {
	t := s.Temperature[month-1]
	p := moistair.StandardPressure(s.Altitude)
	w := moistair.HumidityRatio(t, s.Humidity[month-1], p)
	return inlet{temperature: t, humidity: w, pressure: p, volume: moistair.SpecificVolume(t, w, p)}
}
