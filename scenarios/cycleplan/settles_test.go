package cycleplan

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"loamcast/facility/screening"
	"loamcast/scenarios/facilityfile"
)

// That there is no steady load is an error of the file, in words; any other names the
// month and is kept.
func TestNoSteadyLoadInWords(t *testing.T) {
	for _, cause := range []error{screening.ErrAlternates, screening.ErrNotSteady} {
		err := inWords("plant.yaml", time.May, fmt.Errorf("loop: %w", cause))
		if !errors.As(err, new(*facilityfile.Error)) || !strings.HasPrefix(err.Error(), "plant.yaml: there is no steady load in May: ") || !strings.Contains(err.Error(), "look at") {
			t.Errorf("%v: %v", cause, err)
		}
	}
	other := errors.New("broken")
	if err := inWords("plant.yaml", time.May, other); !errors.Is(err, other) || errors.As(err, new(*facilityfile.Error)) || !strings.Contains(err.Error(), "May") {
		t.Errorf("another error: %v", err)
	}
	if err := inWords("plant.yaml", time.May, nil); err != nil {
		t.Error(err)
	}
}
