package simulate

import (
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// namedWaits is how many causes of waiting the picture of the vessels tells apart.
const namedWaits = 3

// waitHatches tell the causes of waiting apart; the last is of all others.
var waitHatches = [namedWaits + 1]struct {
	ink   doc.Ink
	tint  float64
	hatch doc.Hatch
}{
	{doc.Vermilion, 0.75, doc.Rising}, {doc.Orange, 0.7, doc.Falling}, {doc.Yellow, 0, doc.Upstanding}, {doc.Purple, 0.7, doc.Crossed},
}

// phaseKinds are how the other phases are drawn, in the order of the key.
var phaseKinds = []struct {
	phase plant.Phase
	kind  doc.Kind
}{
	{plant.Filling, doc.Kind{Name: "filling", Ink: doc.SkyBlue, Tint: 0.5}},
	{plant.OnAir, doc.Kind{Name: "composting, with the number of the load", Ink: doc.Blue}},
	{plant.DriesOn, doc.Kind{Name: "drying", Ink: doc.SkyBlue, Tint: 0.9, Hatch: doc.Lying}},
	{plant.TurnedRound, doc.Kind{Name: "carried, tipped, turned round", Ink: doc.Grey}},
	{plant.Serviced, doc.Kind{Name: "maintenance", Ink: doc.Green, Tint: 0.35, Hatch: doc.Lying}},
	{plant.OutOfUse, doc.Kind{Name: "out of use", Ink: doc.Black}},
}

// figure has a bar for each load in each vessel.
func (o *Occupancy) figure(b *answer.Basis) doc.Figure {
	lanes := &doc.Lanes{}
	for _, m := range o.months() {
		lanes.Months = append(lanes.Months, doc.YearMonth{Year: m.Year, Month: int(m.Month)})
	}
	for _, name := range o.Vessels {
		lanes.Lanes = append(lanes.Lanes, doc.Lane{Name: name})
	}
	kindOf := o.kinds(lanes)
	for i := range o.Stays {
		s := &o.Stays[i]
		if s.Phase == plant.StandsEmpty {
			continue
		}
		t := doc.Time{From: s.From, To: s.To, Kind: kindOf(s)}
		if s.Phase == plant.OnAir {
			t.Name = fmt.Sprint(s.Load)
		}
		lane := &lanes.Lanes[s.Vessel]
		lane.Times = append(lane.Times, t)
	}
	return doc.Figure{Name: "vessel-loads", Title: o.message(), Subtitle: o.about(b), Lanes: lanes}
}

// kinds adds the kinds of bars that there are, and returns which a stay has.
func (o *Occupancy) kinds(lanes *doc.Lanes) func(*Stay) int {
	place := map[plant.Phase]int{}
	seen := map[plant.Phase]bool{}
	for i := range o.Stays {
		seen[o.Stays[i].Phase] = true
	}
	_, _, causes := o.shares()
	waits := map[string]int{}
	for _, k := range phaseKinds {
		if k.phase == plant.TurnedRound { // a load waits before it is carried
			for i, c := range causes[:min(namedWaits, len(causes))] {
				waits[c.Name] = len(lanes.Kinds)
				h := waitHatches[i]
				lanes.Kinds = append(lanes.Kinds, doc.Kind{Name: "waits " + waitsFor(c.Name), Ink: h.ink, Tint: h.tint, Hatch: h.hatch})
			}
		}
		if seen[k.phase] {
			place[k.phase] = len(lanes.Kinds)
			lanes.Kinds = append(lanes.Kinds, k.kind)
		}
	}
	others := len(lanes.Kinds)
	if len(causes) > namedWaits {
		h := waitHatches[namedWaits]
		lanes.Kinds = append(lanes.Kinds, doc.Kind{Name: "waits for something else", Ink: h.ink, Tint: h.tint, Hatch: h.hatch})
	}
	return func(s *Stay) int {
		if !s.waiting() {
			return place[s.Phase]
		}
		if k, ok := waits[plant.CauseNames[s.Waits]]; ok {
			return k
		}
		return others
	}
}

// message says how the vessels spend the time.
func (o *Occupancy) message() doc.Text {
	composts, waits, causes := o.shares()
	text := doc.Say("%s: loads compost in the vessels %s of the time", o.name(), doc.ShareText(composts))
	if waits < hardly {
		return text.Then(" and hardly ever wait in them")
	}
	return text.Then(" and wait in them %s of it, mostly %s", doc.ShareText(waits), waitsFor(causes[0].Name))
}

// about says which months of which run these are.
func (o *Occupancy) about(b *answer.Basis) doc.Text {
	which := "the quarter in which the holding is first at its fullest"
	if o.Asked {
		which = "the months asked for"
	}
	return doc.About(b, "a bar for each load in each vessel", fmt.Sprintf("one run, replication %d of seed %d", o.Replication, b.Seed),
		fmt.Sprintf("%s (holding up to %s full)", which, doc.ShareText(o.Fullest)))
}

// table has the bars of the picture as rows.
func (o *Occupancy) table() doc.Table {
	stamp := func(days float64) string {
		return calendar.Clock{Start: o.From}.Stamp(int64(days*calendar.SecondsPerDay + 0.5))
	}
	var stays []Stay
	for _, s := range o.Stays {
		if s.Phase != plant.StandsEmpty {
			stays = append(stays, s)
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "vessel_loads", File: "vessel-loads"}, stays,
		doc.Key("vessel", func(s *Stay) any { return o.Vessels[s.Vessel] }).Means("vessel by its number, with its class where there are several"),
		doc.Key("from", func(s *Stay) any { return stamp(s.From) }).Means("when the vessel came into this phase, or the beginning of the months told of"),
		doc.Any("until", func(s *Stay) any { return stamp(s.To) }).Means("when the phase ends, or the end of the months told of"),
		doc.Any("load", func(s *Stay) any {
			if s.Load == 0 {
				return nil
			}
			return int(s.Load)
		}).Means("load in the vessel, numbered through the run; empty where it is tipped out"),
		doc.Any("phase", func(s *Stay) any { return phaseNames[s.Phase] }).Means("what the vessel is in"),
		doc.Any("waits_for", func(s *Stay) any {
			if !s.waiting() {
				return nil
			}
			return plant.CauseNames[s.Waits]
		}).Means("what the load waits for, in the phases that wait"),
		doc.Val("stay", doc.Days, func(s *Stay) float64 { return s.To - s.From }).Means("how long the phase lasts, within the months told of"))
}
