package report

import (
	"io"
	"strings"

	"loamcast/scenarios/drivers"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// DriversJSON writes what moves an answer as one JSON object.
func DriversJSON(w io.Writer, a *drivers.Answer, sys units.System) error {
	d := newDriversText(a, sys)
	list := d.inOrder()
	inputs := make([]object, len(list))
	for i := range list {
		inputs[i] = d.jsonDriver(&list[i])
	}
	value := func(v float64) number { return number(d.measure.in(v, sys)) }
	members := []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"start", a.Start.String()},
		{"years", a.Years},
		{"units", sys.String()},
		{"headline", plainSpaces(d.headline())},
		{"answer", a.Output.String()},
		{"mean" + d.suffix(), value(a.Mean)},
		{"least" + d.suffix(), value(a.Least)},
		{"most" + d.suffix(), value(a.Most)},
	}
	if a.Output == drivers.VesselYear {
		members = append(members, member{"runs_kept_to_the_end_percent", number(100 * a.Kept)})
	}
	members = append(members,
		member{"paths", a.Trajectories},
		member{"points_of_a_path", a.Points},
		member{"runs_of_a_point", a.Replications})
	if a.Rows > 0 {
		members = append(members, member{"variance_rows", a.Rows}, member{"standard_deviation" + d.suffix(), value(a.SD)})
	}
	return writeJSON(w, append(members,
		member{"runs", a.Runs},
		member{"correlations_left_out", a.Correlated},
		member{"inputs", inputs},
		member{"cautions", jsonCautions(a.Cautions)}))
}

// suffix is the ending of fields in the unit of the output.
func (d *driversText) suffix() string {
	switch d.a.Output {
	case drivers.ChipsBought:
		return volume.suffix(d.sys) + "_per_year"
	case drivers.PresentWorth:
		return costUSD.suffix(d.sys)
	}
	return "_year"
}

func (d *driversText) jsonDriver(x *drivers.Driver) object {
	o := object{{"input", x.Key}, {"above_luck", d.a.Above(x)}}
	switch {
	case x.LowName != "":
		o = append(o, member{"p5", x.LowName}, member{"p95", x.HighName})
	case x.Key != drivers.LuckKey:
		q := quantity{x.Dimension, 1}
		o = append(o, member{"p5" + q.suffix(d.sys), number(q.in(x.Low, d.sys))}, member{"p95" + q.suffix(d.sys), number(q.in(x.High, d.sys))})
	}
	value := func(v float64) number { return number(d.measure.in(v, d.sys)) }
	e := x.Effect
	o = append(o, member{"effect" + d.suffix(), value(e.MuStar.Estimate)},
		member{"effect_low" + d.suffix(), value(e.MuStar.Low)}, member{"effect_high" + d.suffix(), value(e.MuStar.High)},
		member{"signed_effect" + d.suffix(), value(e.Mu)}, member{"uneven" + d.suffix(), value(e.Sigma)})
	if d.a.Rows == 0 {
		return o
	}
	part := func(name string, i stats.Interval) object {
		return object{{name + "_percent", number(100 * i.Estimate)}, {name + "_low_percent", number(100 * i.Low)}, {name + "_high_percent", number(100 * i.High)}}
	}
	return append(append(o, part("variance_alone", x.Share.First)...), part("variance_in_all", x.Share.Total)...)
}

// DriversFiles returns everything that the drivers of an answer leave in a folder.
func DriversFiles(a *drivers.Answer, sys units.System) ([]File, error) {
	d := newDriversText(a, sys)
	files, err := filesOf("drivers", a.Facility,
		func(w io.Writer) error { return DriversTerminal(w, a, sys) },
		func(w io.Writer) error { return DriversJSON(w, a, sys) },
		[]table{{"drivers.csv", d.csvRows()}})
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.Drivers(a, d.view()))
	return append(files, drawn...), err
}

// csvRows has a row for each input. The unit of its ends is beside them, since each
// has its own.
func (d *driversText) csvRows() [][]string {
	u := d.suffix()
	header := []string{"input", "unit", "p5", "p95", "effect" + u, "effect_low" + u, "effect_high" + u, "signed_effect" + u, "uneven" + u}
	if d.a.Rows > 0 {
		header = append(header, "variance_alone_percent", "variance_alone_low_percent", "variance_alone_high_percent",
			"variance_in_all_percent", "variance_in_all_low_percent", "variance_in_all_high_percent")
	}
	rows := [][]string{header}
	for _, x := range d.inOrder() {
		row := append([]string{x.Key}, d.endCells(&x)...)
		e := x.Effect
		for _, v := range []float64{e.MuStar.Estimate, e.MuStar.Low, e.MuStar.High, e.Mu, e.Sigma} {
			row = append(row, plainNumber(d.measure.in(v, d.sys)))
		}
		if d.a.Rows > 0 {
			for _, i := range []stats.Interval{x.Share.First, x.Share.Total} {
				row = append(row, plainNumber(100*i.Estimate), plainNumber(100*i.Low), plainNumber(100*i.High))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// endCells are the unit and the ends of an input's range.
func (d *driversText) endCells(x *drivers.Driver) []string {
	switch {
	case x.Key == drivers.LuckKey:
		return []string{"", "", ""}
	case x.LowName != "":
		return []string{"", x.LowName, x.HighName}
	}
	q := quantity{x.Dimension, 1}
	return []string{q.label(d.sys), plainNumber(q.in(x.Low, d.sys)), plainNumber(q.in(x.High, d.sys))}
}

// view is what the pictures write.
func (d *driversText) view() picture.DriversView {
	v := picture.DriversView{
		Title: capital(d.named()) + ": how far each input moves it over its range", Unit: strings.Replace(d.unit, "3", "³", 1),
		Convert: func(value float64) float64 { return d.measure.in(value, d.sys) },
		Drivers: d.inOrder(),
	}
	for i := range v.Drivers {
		x := &v.Drivers[i]
		v.Names, v.Ranges = append(v.Names, x.Title()), append(v.Ranges, d.ends(x))
	}
	return v
}
