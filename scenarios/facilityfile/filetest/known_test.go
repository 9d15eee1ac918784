package filetest

import (
	"strings"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile/edit"
)

// The reader knows every key of the table: none that an editor is shown is refused as
// unknown where its group, or the form that it belongs to, is written.
func TestTheReaderKnowsEveryKey(t *testing.T) {
	texts := soundTexts(t)
	for _, name := range []string{"small.yaml", "yard.yaml"} {
		texts = append(texts, readFile(t, name)) // with their hours
	}
	tried := 0
	for _, k := range facilityfile.Keys() {
		if k.Kind == facilityfile.Group || k.Kind == facilityfile.List || k.Kind == facilityfile.Unwritten {
			continue
		}
		text, path, _ := where(t, texts, k.Path)
		if path == "" {
			t.Errorf("no text may have %s", k.Path)
			continue
		}
		changed, err := edit.Set(text, path, "x")
		if err != nil {
			t.Fatal(err)
		}
		tried++
		if _, err := facilityfile.Parse("plant.yaml", []byte(changed)); err != nil && strings.Contains(err.Error(), "is not a known key") {
			t.Errorf("%s: %v", path, err)
		}
	}
	if tried < 240 {
		t.Errorf("only %d keys were tried", tried)
	}
}
