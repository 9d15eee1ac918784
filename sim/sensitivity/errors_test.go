package sensitivity

import (
	"math"
	"strings"
	"testing"
)

// Shows that designs which make no sense are refused, and so are values that do
// not belong to them or are none.
func TestErrors(t *testing.T) {
	screening := func(dims, trajectories, levels int) func() error {
		return func() error { _, err := NewScreening(dims, trajectories, levels, 1); return err }
	}
	decomposition := func(dims, rows int) func() error {
		return func() error { _, err := NewDecomposition(dims, rows, 1); return err }
	}
	s, err := NewScreening(2, 2, 4, 1)
	if err != nil {
		t.Fatal(err)
	}
	d, err := NewDecomposition(1, 2, 1)
	if err != nil {
		t.Fatal(err)
	}
	// Both designs have 6 points.
	effects := func(values []float64, level float64) func() error {
		return func() error { _, err := s.Effects(values, level); return err }
	}
	parts := func(values []float64, level float64) func() error {
		return func() error { _, err := d.Shares(values, level); return err }
	}
	good, nan, inf := make([]float64, 6), make([]float64, 6), make([]float64, 6)
	nan[4], inf[2] = math.NaN(), math.Inf(1)
	for name, tc := range map[string]struct {
		ask  func() error
		says string
	}{
		"no input":         {screening(0, 2, 4), "0 inputs"},
		"one trajectory":   {screening(2, 1, 4), "1 trajectories"},
		"odd levels":       {screening(2, 2, 5), "5 levels"},
		"no level":         {screening(2, 2, 0), "0 levels"},
		"no input to both": {decomposition(0, 2), "0 inputs"},
		"one row":          {decomposition(2, 1), "1 rows"},
		"effects, few":     {effects(good[:5], 0.9), "5 values for 6 points"},
		"shares, few":      {parts(good[:5], 0.9), "5 values for 6 points"},
		"effects, NaN":     {effects(nan, 0.9), "point 4 is NaN"},
		"shares, Inf":      {parts(inf, 0.9), "point 2 is +Inf"},
		"effects, level":   {effects(good, 1), "level 1"},
		"shares, level":    {parts(good, math.NaN()), "level NaN"},
	} {
		if err := tc.ask(); err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%s: error %v, want %q", name, err, tc.says)
		}
	}
	if err := effects(good, 0.9)(); err != nil {
		t.Error(err)
	}
}
