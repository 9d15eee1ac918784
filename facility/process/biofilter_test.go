package process

import "testing"

// TestBiofilterResidence shows the identity of depth, loading and residence:
// 1.0 m at 60 m3/h·m2 is 60 s, 1.2 m at 90 is 48 s (exact).
func TestBiofilterResidence(t *testing.T) {
	for _, row := range []struct{ depth, loading, want float64 }{{1.0, 60, 60}, {1.2, 90, 48}} {
		b := Biofilter{Loading: row.loading, Depth: row.depth}
		if got := b.Residence(); !within(got, row.want, 1e-12) {
			t.Errorf("%g m at %g m3/h·m2: %g s, want %g", row.depth, row.loading, got, row.want)
		}
	}
}

// TestBiofilterSize shows that flow through the bed's volume takes the
// residence time.
func TestBiofilterSize(t *testing.T) {
	b := DefaultBiofilter()
	const flow = 7500
	if got := b.Area(flow); !within(got, 100, 1e-12) {
		t.Errorf("area %g m2, want 100", got)
	}
	if got := b.Area(flow) * b.Depth / flow * 3600; !within(got, b.Residence(), 1e-12) {
		t.Errorf("volume gives %g s, residence %g s", got, b.Residence())
	}
}
