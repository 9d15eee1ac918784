// Package facilityfile reads the facility file: the YAML that a user writes,
// with units and positions, into the validated model of a plant in SI units.
// Every complaint names file, line and column and says what would be right;
// values outside published ranges are warned of, with the range's source.
//
// A file holds a plant, which is a plant.Model, and what planning asks beside it:
// how production may grow, what is not known for sure, what things cost and what
// could be built, which is a Planning. Draw and At set a model's uncertain inputs.
//
// The package holds no physics and runs nothing. What the file leaves out takes
// the defaults of the facility packages.
package facilityfile
