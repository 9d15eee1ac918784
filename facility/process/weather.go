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

// InWeather returns the model in months that are warmer by some K, colder if below 0, and
// more humid by points, 0…1, at most saturated and at least dry. Chips come as much warmer
// or colder, for they lie outdoors; cake comes from indoors, as warm as ever. Neither
// leaves the range in which a model may be.
func (m *Model) InWeather(warmer, damper float64) *Model {
	out := *m
	for i := range out.Site.Temperature {
		out.Site.Temperature[i] = min(max(out.Site.Temperature[i]+warmer, coldestSite), hottestSite)
		out.Site.Humidity[i] = min(max(out.Site.Humidity[i]+damper, 0), 1)
	}
	if m.Intake != nil {
		intake := *m.Intake
		for i := range intake.Chips {
			intake.Chips[i] = min(max(intake.Chips[i]+warmer, coldestIntake), max(hottestSite, m.Intake.Chips[i]))
		}
		out.Intake = &intake
	}
	return &out
}
