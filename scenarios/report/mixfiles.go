package report

import (
	"bytes"
	"io"

	"loamcast/facility/mix"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

var batchFields = []field[mixplan.Batch]{
	{name: "chips_to_cake", kind: ratio, value: func(b *mixplan.Batch) float64 { return b.ChipsToCake }},
	{name: "batches", kind: count, value: func(b *mixplan.Batch) float64 { return float64(b.Batches) }},
	{name: "load_wet", kind: mass, value: func(b *mixplan.Batch) float64 { return b.Load }},
	{name: "load", kind: volume, value: func(b *mixplan.Batch) float64 { return b.LoadVolume }},
	{name: "cake_wet", kind: mass, value: func(b *mixplan.Batch) float64 { return b.Cake }},
	{name: "cake_dry", kind: mass, value: func(b *mixplan.Batch) float64 { return b.CakeDry }},
	{name: "cake", kind: volume, value: func(b *mixplan.Batch) float64 { return b.CakeVolume }},
	{name: "fresh_chips", kind: volume, value: func(b *mixplan.Batch) float64 { return b.FreshVolume }},
	{name: "recovered_chips", kind: volume, value: func(b *mixplan.Batch) float64 { return b.RecoveredVolume }},
	{name: "recovered_share", kind: share, value: func(b *mixplan.Batch) float64 { return b.RecoveredShare }},
	{name: "moisture", kind: share, value: func(b *mixplan.Batch) float64 { return b.Moisture }},
	{name: "carbon_to_nitrogen", kind: ratio, value: func(b *mixplan.Batch) float64 { return b.CarbonToNitrogen }},
	{name: "free_air_space", kind: share, value: func(b *mixplan.Batch) float64 { return b.FreeAirSpace }},
	{name: "bulk_density", kind: density, value: func(b *mixplan.Batch) float64 { return b.BulkDensity }},
	{name: "cost", kind: costUSD, value: func(b *mixplan.Batch) float64 { return b.Cost }},
	{name: "cost_per_dry_cake", kind: perDry, value: func(b *mixplan.Batch) float64 { return b.CostPerDry }},
	{name: "screened_at_moisture", kind: share, value: func(b *mixplan.Batch) float64 { return b.ScreenedAt }},
	{name: "chip_recovery", kind: share, value: func(b *mixplan.Batch) float64 { return b.Recovery }},
}

var mixMaterialFields = []field[mixplan.Material]{
	{name: "moisture", kind: share, value: func(x *mixplan.Material) float64 { return x.Moisture }},
	{name: "carbon_to_nitrogen", kind: ratio, value: func(x *mixplan.Material) float64 { return x.CarbonToNitrogen }},
	{name: "nitrogen_of_dry", kind: share, value: func(x *mixplan.Material) float64 { return x.Nitrogen }},
	{name: "bulk_density", kind: density, value: func(x *mixplan.Material) float64 { return x.BulkDensity }},
	{name: "used", kind: volume, value: func(x *mixplan.Material) float64 { return x.Used }},
	{name: "available", kind: volume, value: func(x *mixplan.Material) float64 { return x.Available }},
}

var stepFields = []field[mixplan.Step]{
	{name: "add_loose", kind: volume, value: func(s *mixplan.Step) float64 { return s.Loose }},
	{name: "add", kind: mass, value: func(s *mixplan.Step) float64 { return s.Add }},
	{name: "scale_reading", kind: mass, value: func(s *mixplan.Step) float64 { return s.Scale }},
	{name: "volume_in_mixer", kind: volume, value: func(s *mixplan.Step) float64 { return s.Volume }},
	{name: "moisture", kind: share, value: func(s *mixplan.Step) float64 { return s.Moisture }},
	{name: "carbon_to_nitrogen", kind: ratio, value: func(s *mixplan.Step) float64 { return s.CarbonRatio }},
	{name: "free_air_space", kind: share, value: func(s *mixplan.Step) float64 { return s.AirSpace }},
}

// pointFields are those of a design, after the cake solids that it is for.
var pointFields = func() []field[mixplan.Point] {
	list := []field[mixplan.Point]{{name: "cake_solids", kind: share, value: func(p *mixplan.Point) float64 { return p.CakeSolids }}}
	for _, f := range batchFields {
		list = append(list, field[mixplan.Point]{name: f.name, kind: f.kind, value: func(p *mixplan.Point) float64 { return f.value(&p.Design) }})
	}
	return list
}()

// qualityKind is the quantity that a quality is measured in.
func qualityKind(q mixplan.Quality) quantity {
	return [...]quantity{share, ratio, share, density, ratio}[q]
}

// MixJSON writes the design of a mix as one JSON object.
func MixJSON(w io.Writer, a *mixplan.Answer, sys units.System) error {
	text := mixText{newPage(sys), a}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"units", sys.String()},
		{"month", int(a.Month)},
		{"cake_solids_percent", number(100 * a.CakeSolids)},
		{"headline", plainSpaces(text.headline())},
		{"met", a.Met()},
		{"settled", a.Settled},
		{"binding", targetNames(a.Binding)},
		{"used_up", append([]string{}, a.UsedUp...)},
		{"misses", jsonMisses(a.Misses, sys)},
		{"design", record(&a.Design, batchFields, sys)},
		{"design_does_not_meet", append([]string{}, a.Design.Unmet...)},
		{"as_run", record(&a.AsRun, batchFields, sys)},
		{"loading_card", named(a.Card, func(s *mixplan.Step) string { return s.Name }, stepFields, sys)},
		{"materials", named(a.Materials, func(x *mixplan.Material) string { return x.Name }, mixMaterialFields, sys)},
		{"properties", jsonProperties(a.Properties, sys)},
		{"sweep", jsonSweep(a.Sweep, sys)},
		{"notes", jsonNotes(a.Notes, sys)},
		{"cautions", jsonCautions(answer.Cautions())},
	})
}

// named renders records that have a name.
func named[T any](list []T, name func(*T) string, fields []field[T], sys units.System) []object {
	out := make([]object, len(list))
	for i := range list {
		out[i] = append(object{{"name", name(&list[i])}}, record(&list[i], fields, sys)...)
	}
	return out
}

func targetNames(list []mix.Target) []string {
	names := make([]string, len(list))
	for i, t := range list {
		names[i] = t.String()
	}
	return names
}

func jsonMisses(list []mix.Miss, sys units.System) []object {
	out := make([]object, len(list))
	for i, x := range list {
		kind := qualityKind(mixplan.QualityOf(x.Target))
		out[i] = object{{"target", x.Target.String()},
			{"required" + kind.suffix(sys), number(kind.in(x.Required, sys))},
			{"reached" + kind.suffix(sys), number(kind.in(x.Reached, sys))}}
	}
	return out
}

func jsonProperties(list []mixplan.Property, sys units.System) []object {
	out := make([]object, len(list))
	for i, p := range list {
		kind := qualityKind(p.Name)
		value := func(v float64) number { return number(kind.in(v, sys)) }
		out[i] = object{{"name", qualityName(p.Name)}, {"asked", p.Asked}, {"binds", p.Binds},
			{"at_least" + kind.suffix(sys), value(p.Window.Low)}, {"at_most" + kind.suffix(sys), value(p.Window.High)},
			{"design" + kind.suffix(sys), value(p.Design)}, {"margin" + kind.suffix(sys), value(p.Margin)},
			{"as_run" + kind.suffix(sys), value(p.AsRun)}}
	}
	return out
}

func jsonSweep(list []mixplan.Point, sys units.System) []object {
	out := make([]object, len(list))
	for i := range list {
		p := &list[i]
		out[i] = append(record(p, pointFields, sys), member{"binding", targetNames(p.Binding)}, member{"misses", jsonMisses(p.Misses, sys)}, member{"settled", p.Settled})
	}
	return out
}

func jsonNotes(list []mixplan.Note, sys units.System) []object {
	out := make([]object, len(list))
	for i, n := range list {
		kind := qualityKind(n.Name)
		out[i] = object{{"name", qualityName(n.Name)}, {"value" + kind.suffix(sys), number(kind.in(n.Value, sys))}, {"source", n.Source}}
	}
	return out
}

// MixFiles returns everything that the design of a mix leaves in a folder.
func MixFiles(a *mixplan.Answer, sys units.System) ([]File, error) {
	tables := []table{
		{"mix-card.csv", tableOf(a.Card, []string{"material"}, func(s *mixplan.Step) []string { return []string{s.Name} }, stepFields, sys)},
	}
	if len(a.Sweep) > 0 {
		tables = append(tables, table{"mix-cake-solids.csv", tableOf(a.Sweep, nil, func(*mixplan.Point) []string { return nil }, pointFields, sys)})
	}
	return filesOf("mix", a.Facility,
		func(w io.Writer) error { return MixTerminal(w, a, sys) },
		func(w io.Writer) error { return MixJSON(w, a, sys) }, tables)
}

// table is a CSV file to be.
type table struct {
	name string
	rows [][]string
}

// filesOf returns the summary, JSON, tables and cautions of an answer.
func filesOf(name, facility string, summary, whole func(io.Writer) error, tables []table) ([]File, error) {
	var files []File
	add := func(name string, write func(io.Writer) error) error {
		var b bytes.Buffer
		err := write(&b)
		files = append(files, File{Name: name, Data: b.Bytes()})
		return err
	}
	err := add(name+".txt", summary)
	if err == nil {
		err = add(name+".json", whole)
	}
	if err == nil {
		err = add(cautionsFile, func(w io.Writer) error {
			return Cautions(w, &simulate.Answer{Basis: answer.Basis{Facility: facility}})
		})
	}
	for _, t := range tables {
		if err == nil {
			err = add(t.name, func(w io.Writer) error { return plaintext.WriteCSV(w, t.rows) })
		}
	}
	return files, err
}
