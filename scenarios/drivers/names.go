package drivers

import (
	"loamcast/scenarios/facilityfile"
)

// Title names the driver in a table.
func (d *Driver) Title() string {
	switch d.Key {
	case GrowthKey:
		return "growth scenario"
	case NoiseKey:
		return "chance alone"
	}
	in, _ := facilityfile.InputNamed(d.Key)
	return in.Title()
}

// added reports whether what is drawn is added to the value of the file.
func (d *Driver) added() bool {
	in, known := facilityfile.InputNamed(d.Key)
	return known && in.How == facilityfile.Added
}

// Name names the driver in a sentence.
func (d *Driver) Name() string {
	if in, known := facilityfile.InputNamed(d.Key); known {
		return "the " + in.Name
	}
	return "the " + d.Title()
}
