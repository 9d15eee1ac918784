package answer

import "loamcast/facility/plant"

// Short names what is short in plain words.
func Short(c plant.Cause) string {
	switch c {
	case plant.Mixing:
		return "the mixer"
	case plant.NoChips:
		return "chips"
	case plant.NoVessel:
		return "vessels"
	case plant.NoCuringSpace:
		return "space on the curing pad"
	case plant.ScreenBusy:
		return "the screen"
	case plant.StoreFull:
		return "room in the product store"
	case plant.Broken:
		return "machines in working order"
	}
	return "the " + c.String()
}
