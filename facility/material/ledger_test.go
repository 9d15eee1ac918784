package material

import (
	"math"
	"strings"
	"testing"
)

// kg is a transfer of dry ash.
func kg(m float64) Components { return Components{Fixed: m, Total: m} }

// twoStores is a ledger of an inlet, two stores and an outlet.
func twoStores() (l *Ledger, in, across, out Path) {
	l = &Ledger{}
	a := l.Account("heap", kg(100))
	b := l.Account("bin", Components{})
	return l, l.Path("in", Outside, a), l.Path("across", a, b), l.Path("out", b, Outside)
}

// A ledger whose flows agree with what the stores hold closes, period after
// period.
func TestLedgerCloses(t *testing.T) {
	l, in, across, out := twoStores()
	l.Book(in, kg(50))
	l.Book(across, kg(120))
	l.Book(out, kg(20))
	p, err := l.Close([]Components{kg(30), kg(100)})
	if err != nil || p.Worst > 1e-15 {
		t.Fatalf("residual %g, %v", p.Worst, err)
	}
	if p.In != kg(50) || p.Out != kg(20) || p.Change != kg(30) {
		t.Errorf("in %v, out %v, change %v", p.In, p.Out, p.Change)
	}
	if got := p.Flows[across]; got != kg(120) {
		t.Errorf("flow across %v", got)
	}
	if _, err := l.Close([]Components{kg(30), kg(100)}); err != nil {
		t.Errorf("an idle period does not close: %v", err)
	}
}

// A mass that appears, vanishes, or changes store unbooked is found, and the
// store and component are named.
func TestLedgerFindsWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		name      string
		inventory []Components
		where     string
	}{
		{"a gram lost", []Components{kg(29.999), kg(100)}, "heap"},
		{"a gram found", []Components{kg(30), kg(100.001)}, "bin"},
		{"moved unbooked", []Components{kg(29), kg(101)}, "heap"},
		{"total only", []Components{kg(30), {Fixed: 100, Total: 101}}, "bin, total"},
		{"not a number", []Components{kg(30), kg(math.NaN())}, "bin"},
	} {
		l, in, across, out := twoStores()
		l.Book(in, kg(50))
		l.Book(across, kg(120))
		l.Book(out, kg(20))
		_, err := l.Close(c.inventory)
		if err == nil || !strings.Contains(err.Error(), c.where) {
			t.Errorf("%s: error %v does not name %s", c.name, err, c.where)
		}
	}
}

// Ten million small transfers stay within the tolerance.
func TestLedgerDoesNotDrift(t *testing.T) {
	l := &Ledger{}
	a := l.Account("heap", Components{})
	in := l.Path("in", Outside, a)
	const n, each = 10_000_000, 0.1
	for range n {
		l.Book(in, kg(each))
	}
	if p, err := l.Close([]Components{kg(n * each)}); err != nil {
		t.Errorf("drifted by %g", p.Worst)
	}
}
