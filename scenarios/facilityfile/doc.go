// Package facilityfile reads the facility file: the YAML that a user writes,
// with units and positions, into the validated model of a plant in SI units.
// Every complaint names file, line and column and says what would be right;
// values outside published ranges are warned of, with the range's source.
//
// The package holds no physics and runs nothing. What the file leaves out takes
// the defaults of the facility packages.
package facilityfile
