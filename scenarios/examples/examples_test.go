package examples

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/facilityfile"
)

// Every built-in facility is sound and has no warnings: users start from them.
// The text says that it is invented, and so does its name.
func TestExamplesAreSound(t *testing.T) {
	for _, name := range Names() {
		t.Run(name, func(t *testing.T) {
			f, err := facilityfile.Parse(name, Data(name))
			if err != nil {
				t.Fatal(err)
			}
			for _, w := range f.Warnings {
				t.Error(w)
			}
			text, _, _ := strings.Cut(string(Data(name)), "format:")
			if !strings.Contains(text, "invented") {
				t.Errorf("the words before the first key do not say that the facility is invented:\n%s", text)
			}
			if About(name) == "" || !Has(name) {
				t.Error("the list of examples says nothing about it")
			}
		})
	}
}

// The examples are the files in the folder, no more and no fewer, and the demo
// is the first.
func TestNamesAreTheFiles(t *testing.T) {
	entries, err := files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var inFolder []string
	for _, e := range entries {
		inFolder = append(inFolder, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	names := Names()
	if names[0] != Demo {
		t.Errorf("the first example is %s, want %s", names[0], Demo)
	}
	slices.Sort(names)
	slices.Sort(inFolder)
	if !slices.Equal(names, inFolder) {
		t.Errorf("named are %v, in the folder are %v", names, inFolder)
	}
	if Has("nowhere") || About("nowhere") != "" {
		t.Error("an example that does not exist is known")
	}
}

// What an example is said to be is what its file holds.
func TestAboutTellsTheVessels(t *testing.T) {
	for _, name := range Names() {
		f, err := facilityfile.Parse(name, Data(name))
		if err != nil {
			t.Fatal(err)
		}
		if want := fmt.Sprintf("%d vessels, ", f.Model.Vessels.Installed); !strings.HasPrefix(About(name), want) {
			t.Errorf("%s is said to have %q, want %q first", name, About(name), want)
		}
	}
}
