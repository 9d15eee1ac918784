package material

import (
	"fmt"
	"math"
)

// Components are the quantities that the ledger balances, kg. Total is booked
// on its own, not as a sum, so that it checks the others.
type Components struct {
	Water, Fixed, Volatile, Carbon, Nitrogen, Total float64
}

// ComponentNames names the components in the order of Each.
var ComponentNames = [...]string{"water", "fixed solids", "volatile solids", "carbon", "nitrogen", "total"}

// NumComponents is the number of components balanced.
const NumComponents = len(ComponentNames)

// Each returns the components in the order of ComponentNames.
func (c Components) Each() [NumComponents]float64 {
	return [...]float64{c.Water, c.Fixed, c.Volatile, c.Carbon, c.Nitrogen, c.Total}
}

func fromEach(v [NumComponents]float64) Components {
	return Components{Water: v[0], Fixed: v[1], Volatile: v[2], Carbon: v[3], Nitrogen: v[4], Total: v[5]}
}

// Plus returns c + d.
func (c Components) Plus(d Components) Components {
	return Components{
		Water: c.Water + d.Water, Fixed: c.Fixed + d.Fixed, Volatile: c.Volatile + d.Volatile,
		Carbon: c.Carbon + d.Carbon, Nitrogen: c.Nitrogen + d.Nitrogen, Total: c.Total + d.Total,
	}
}

// Minus returns c − d.
func (c Components) Minus(d Components) Components {
	return Components{
		Water: c.Water - d.Water, Fixed: c.Fixed - d.Fixed, Volatile: c.Volatile - d.Volatile,
		Carbon: c.Carbon - d.Carbon, Nitrogen: c.Nitrogen - d.Nitrogen, Total: c.Total - d.Total,
	}
}

// Times returns c scaled by f.
func (c Components) Times(f float64) Components {
	return Components{
		Water: c.Water * f, Fixed: c.Fixed * f, Volatile: c.Volatile * f,
		Carbon: c.Carbon * f, Nitrogen: c.Nitrogen * f, Total: c.Total * f,
	}
}

// Account is a store named in a ledger, or Outside.
type Account int

// Outside is everything beyond the facility's fence.
const Outside Account = -1

// OutsideName is how a ledger calls it.
const OutsideName = "outside"

// Path is a flow between two accounts, named in a ledger.
type Path int

type path struct {
	name     string
	from, to Account
	period   [NumComponents]compensated // since the last closing
}

// compensated sums with Kahan's correction, so that twenty years of small
// transfers do not drown in rounding.
type compensated struct{ sum, carry float64 }

func (k *compensated) add(v float64) {
	if v == 0 && k.carry == 0 {
		return // most paths carry one component or two
	}
	y := v - k.carry
	t := k.sum + y
	k.carry = (t - k.sum) - y
	k.sum = t
}

// close returns what went along the path in a period, and begins the next.
func (p *path) close() Components {
	var flow [NumComponents]float64
	for i := range p.period {
		flow[i] = p.period[i].sum
	}
	p.period = [NumComponents]compensated{}
	return fromEach(flow)
}

// Ledger books flows along paths between accounts and, when a period is
// closed, compares them with the inventories that the stores really hold.
type Ledger struct {
	accounts []string
	paths    []path
	opening  []Components
}

// Period is one closed period of a ledger.
type Period struct {
	Flows     []Components // by Path
	Inventory []Components // by Account, at the closing
	In, Out   Components   // through the fence
	Change    Components   // of all inventories
	// Residual is In − Out − Change by component; Worst is the largest
	// absolute residual of the whole and of any account, relative to the
	// throughput of its component.
	Residual Components
	Worst    float64
	WorstAt  string // account and component of Worst
}

// Account adds a store that holds opening at the start.
func (l *Ledger) Account(name string, opening Components) Account {
	l.accounts = append(l.accounts, name)
	l.opening = append(l.opening, opening)
	return Account(len(l.accounts) - 1)
}

// Path adds a flow from one account to another.
func (l *Ledger) Path(name string, from, to Account) Path {
	l.paths = append(l.paths, path{name: name, from: from, to: to})
	return Path(len(l.paths) - 1)
}

// Book adds a transfer along p.
func (l *Ledger) Book(p Path, c Components) {
	f := &l.paths[p].period
	f[0].add(c.Water)
	f[1].add(c.Fixed)
	f[2].add(c.Volatile)
	f[3].add(c.Carbon)
	f[4].add(c.Nitrogen)
	f[5].add(c.Total)
}

// BookParcel adds the transfer of a parcel along p. It is Book for what is booked most
// often, without its components in between.
func (l *Ledger) BookParcel(p Path, q *Parcel) {
	f := &l.paths[p].period
	f[0].add(q.Water)
	f[1].add(q.Fixed())
	f[2].add(q.Volatile())
	f[3].add(q.Carbon())
	f[4].add(q.Nitrogen())
	f[5].add(q.Total())
}

// AccountName returns the name of a store.
func (l *Ledger) AccountName(a Account) string {
	if a == Outside {
		return OutsideName
	}
	return l.accounts[a]
}

// Paths returns the names and ends of all paths, in order of Path.
func (l *Ledger) Paths() []PathInfo {
	info := make([]PathInfo, len(l.paths))
	for i, p := range l.paths {
		info[i] = PathInfo{Name: p.name, From: l.AccountName(p.from), To: l.AccountName(p.to)}
	}
	return info
}

// PathInfo describes a path.
type PathInfo struct{ Name, From, To string }

// Tolerance is the largest relative residual a sound run may show.
const Tolerance = 1e-9

// Close ends a period with the given inventories, in order of Account, and
// returns it. It is an error if a residual exceeds Tolerance times the
// component's throughput, or is not a number.
func (l *Ledger) Close(inventory []Components) (Period, error) {
	if len(inventory) != len(l.accounts) {
		return Period{}, fmt.Errorf("ledger: %d inventories for %d accounts", len(inventory), len(l.accounts))
	}
	p := Period{
		Flows:     make([]Components, len(l.paths)),
		Inventory: append([]Components(nil), inventory...),
	}
	in := make([]Components, len(l.accounts))
	out := make([]Components, len(l.accounts))
	for i := range l.paths {
		flow := l.paths[i].close()
		p.Flows[i] = flow
		if from := l.paths[i].from; from == Outside {
			p.In = p.In.Plus(flow)
		} else {
			out[from] = out[from].Plus(flow)
		}
		if to := l.paths[i].to; to == Outside {
			p.Out = p.Out.Plus(flow)
		} else {
			in[to] = in[to].Plus(flow)
		}
	}
	var held Components
	for a := range l.accounts {
		change := inventory[a].Minus(l.opening[a])
		p.Change = p.Change.Plus(change)
		held = held.Plus(inventory[a])
		p.worse(in[a].Minus(out[a]).Minus(change), scale(in[a], l.opening[a], inventory[a]), l.accounts[a])
	}
	p.Residual = p.In.Minus(p.Out).Minus(p.Change)
	if p.Worst <= Tolerance { // a store at fault is named rather than the whole
		p.worse(p.Residual, scale(p.In, held), "facility")
	}
	copy(l.opening, inventory)
	if !(p.Worst <= Tolerance) {
		return p, fmt.Errorf("ledger: mass balance broken at %s: residual %.3g of throughput", p.WorstAt, p.Worst)
	}
	return p, nil
}

// scale is the throughput that a residual is measured against, with what the
// store holds, so that an idle full store is not judged against nothing.
func scale(parts ...Components) Components {
	var s Components
	for _, c := range parts {
		s = s.Plus(c)
	}
	return s
}

func (p *Period) worse(residual, throughput Components, where string) {
	through := throughput.Each()
	for i, r := range residual.Each() {
		relative := math.Abs(r)
		if t := math.Abs(through[i]); t > 1 { // below 1 kg the bound is absolute
			relative /= t
		}
		if !(relative <= p.Worst) { // true for NaN as well
			p.Worst, p.WorstAt = relative, where+", "+ComponentNames[i]
		}
	}
}
