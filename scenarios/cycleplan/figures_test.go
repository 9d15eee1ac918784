package cycleplan

import (
	"context"
	"testing"

	"loamcast/facility/process"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

func ask(t testing.TB, f *facilityfile.File, o Options) (*Answer, error) {
	t.Helper()
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return Ask(context.Background(), s, answer.Setup{}, o)
}

// Thresholds that criteria share are drawn once.
func TestThresholds(t *testing.T) {
	list := []Criterion{{Criterion: process.PathogenReduction()}, {Criterion: process.VectorAttractionReduction()}, {Criterion: process.Criterion{
		Kind: process.HoldWithPeak, Temperature: 40, Hours: 120, Peak: 55, PeakHours: 4}}} // 40 and 55 °C again
	if got := thresholds(list); len(got) != 3 {
		t.Errorf("thresholds %v", got)
	}
}
