package answer

import "loamcast/facility/plant"

// Lack names what is short where solids wait for a cause, as it stands in a
// sentence: "space on the curing pad".
func Lack(c plant.Cause) string {
	switch c {
	case plant.Collecting:
		return "cake for a full load"
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
