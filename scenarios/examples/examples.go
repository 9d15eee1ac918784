package examples

import (
	"embed"
	"fmt"
)

//go:embed *.yaml
var files embed.FS

// Demo is the example that runs when no file is named.
const Demo = "fennick-valley"

var about = []struct{ name, text string }{
	{Demo, "8 vessels, inland valley town with a summer fruit peak"},
	{"dunmarrow", "3 vessels, small upland town, long winters, SI units"},
	{"pellwick", "24 vessels, growing county, two years of step growth"},
}

// Names returns the names of the built-in facilities.
func Names() []string {
	names := make([]string, len(about))
	for i, a := range about {
		names[i] = a.name
	}
	return names
}

// Has reports whether there is an example of that name.
func Has(name string) bool { return About(name) != "" }

// About returns one line about an example, empty if there is none.
func About(name string) string {
	for _, a := range about {
		if a.name == name {
			return a.text
		}
	}
	return ""
}

// Data returns an example's facility file. The name must be one of Names.
func Data(name string) []byte {
	data, err := files.ReadFile(name + ".yaml")
	if err != nil {
		panic(fmt.Sprintf("examples: %v", err)) // Names and the files disagree
	}
	return data
}
