package render_test

import (
	"bytes"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
)

// All cautions with their sources read as reviewed.
func TestCautions(t *testing.T) {
	var b bytes.Buffer
	if err := render.Cautions(&b, document.New("run", answer.Basis{Facility: "Fennick Valley"}, document.Text{})); err != nil {
		t.Fatal(err)
	}
	rendertest.Golden(t, "cautions.txt", b.Bytes())
}
