package plant

import "loamcast/sim"

// alarm wakes the plant at an instant to settle. Setting it again moves it;
// setting it to where it stands does nothing, so stages may set it freely.
type alarm struct {
	p    *plant
	name string
	ev   sim.Event
}

func (a *alarm) set(t sim.Time) {
	if a.ev.Pending() {
		if a.ev.Time() == t {
			return
		}
		a.ev.Cancel()
	}
	a.ev = a.p.k.At(t, a.name, a.p.wake)
}

// drop calls the alarm off.
func (a *alarm) drop() { a.ev.Cancel() }

// alarms are the instants that a stage waits for although nothing happens
// elsewhere: a shift opens, cake has run in, a load may leave early.
type alarms struct {
	cake, mixer, dewatering, vessels, screen, early alarm
}

func newAlarms(p *plant) alarms {
	return alarms{
		cake:       alarm{p: p, name: "cake held"},
		mixer:      alarm{p: p, name: "mixer shift"},
		dewatering: alarm{p: p, name: "dewatering shift"},
		vessels:    alarm{p: p, name: "vessel shift"},
		screen:     alarm{p: p, name: "screen shift"},
		early:      alarm{p: p, name: "early release possible"},
	}
}
