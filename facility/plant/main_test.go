package plant

import (
	"flag"
	"os"
	"testing"
)

// facilities is how many random facilities the property tests try, unless
// -rapid.checks says otherwise.
const facilities = "500"

func TestMain(m *testing.M) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.checks" })
	if !given && !testing.Short() {
		if err := flag.Set("rapid.checks", facilities); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
