package plant

import (
	"context"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Movement is one line of a trace: a mass that went from one store to another,
// or across the fence, at an instant.
type Movement struct {
	At       sim.Time
	Clock    calendar.Clock // turns At into a date
	Load     uint64         // number of the load it belongs to, 0 if none
	Path     Path
	Amount   material.Components // kg
	Moisture float64             // of the wet mass; 0 for gases
}

// RunTraced is Run that tells trace of every movement, warm-up included, in the
// order in which they happen. It is for following one replication by hand; the
// record is the same as Run's.
func (p *Plant) RunTraced(ctx context.Context, key random.Key, trace func(Movement)) (*Record, error) {
	return p.run(ctx, key.Replication, key, trace)
}

// move books a parcel that went along a path.
func (p *plant) move(path material.Path, q *material.Parcel, load uint64) {
	p.books.BookParcel(path, q)
	if p.trace != nil {
		p.tell(path, q.Components(), load)
	}
}

// book enters a transfer in the ledger and in the trace.
func (p *plant) book(path material.Path, c material.Components, load uint64) {
	p.books.Book(path, c)
	if p.trace != nil {
		p.tell(path, c, load)
	}
}

// tell enters a transfer in the trace.
func (p *plant) tell(path material.Path, c material.Components, load uint64) {
	if c == (material.Components{}) {
		return
	}
	m := Movement{At: p.k.Now(), Clock: p.k.Clock(), Load: load, Path: p.paths[path], Amount: c}
	if dry := c.Fixed + c.Volatile; dry > 0 && c.Total > 0 {
		m.Moisture = c.Water / c.Total
	}
	p.trace(m)
}

// exchange books what a store traded with the air. Metabolic water and
// oxidised solids are one component turning into another: the total does not
// see them.
func (p *plant) exchange(a airPaths, e material.Exchange, load uint64) {
	p.book(a.oxygen, material.Components{Total: e.O2}, load)
	p.book(a.metabolic, material.Components{Water: e.Water}, load)
	p.book(a.carbonDioxide, material.Components{Carbon: e.CO2 * material.CarbonPerCO2, Total: e.CO2}, load)
	p.book(a.ammonia, material.Components{Nitrogen: e.NH3 * material.NitrogenPerNH3, Total: e.NH3}, load)
	p.book(a.vapour, material.Components{Water: e.Vapour, Total: e.Vapour}, load)
	p.book(a.leachate, material.Components{Water: e.Leachate, Total: e.Leachate}, load)
	p.book(a.oxidised, material.Components{Volatile: e.Volatile}, load)
}
