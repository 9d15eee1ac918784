package drivers

// AboveNoise counts the inputs that move the output more than the noise does; they stand
// first in Drivers.
func (a *Answer) AboveNoise() int {
	n := 0
	for n < len(a.Drivers) && a.Above(&a.Drivers[n]) {
		n++
	}
	return n
}

// TooNear reports whether the order of the first two may be otherwise.
func (a *Answer) TooNear() bool {
	list := a.Drivers
	return len(list) > 1 && list[1].Effect.MuStar.High > list[0].Effect.MuStar.Low && a.Above(&list[1])
}

// directions are what an output does when an input rises.
var directions = [...]struct{ up, down string }{
	VesselYear:   {"later", "sooner"},
	ChipsBought:  {"more", "fewer"},
	PresentWorth: {"dearer", "cheaper"},
}

// Rises says what the output does when an input rises, if it is nearly always the
// same: "either" if not, "-" if there is nothing to say.
func (a *Answer) Rises(d *Driver) string {
	const nearly = 0.9
	e := d.Effect
	switch {
	case d.Key == NoiseKey || e.MuStar.Estimate == 0:
		return "-"
	case e.Mu > nearly*e.MuStar.Estimate:
		return directions[a.Output].up
	case e.Mu < -nearly*e.MuStar.Estimate:
		return directions[a.Output].down
	}
	return "either"
}
