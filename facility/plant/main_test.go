package plant

import (
	"flag"
	"os"
	"testing"
)

// facilities is how many random facilities the property tests try, unless
// -rapid.checks says otherwise.
const facilities = "300"

// askedFor says that -rapid.checks does.
var askedFor bool

func TestMain(m *testing.M) {
	flag.Parse()
	flag.Visit(func(f *flag.Flag) { askedFor = askedFor || f.Name == "rapid.checks" })
	if !askedFor && !testing.Short() {
		if err := flag.Set("rapid.checks", facilities); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
