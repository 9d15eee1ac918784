package report

import (
	"fmt"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/simulate"
)

// accounts are the components that went through the fence, with what is left over.
func accounts(b answer.Basis, a *simulate.Answer) *doc.Document {
	balance := &a.Balance
	d := doc.New("accounts", b, doc.Say("What goes in comes out or is still there: the accounts of every store, machine and of the whole plant close to %s of what went through (worst: %s). A run whose accounts are off by more than %s stops with an error.",
		doc.Tiny(balance.Worst), doc.Name(balance.WorstAt, 60), doc.Tiny(balance.Bound)))
	mass := func(head string, of func(*simulate.ComponentBalance) float64) doc.Col[simulate.ComponentBalance] {
		return doc.Num("{units} a year", []string{head}, doc.Mass, 1, of)
	}
	d.Add(doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("Through the fence, means of all years and replications")}, balance.Components,
		doc.Left([]string{"Component"}, func(c *simulate.ComponentBalance) any { return c.Name }),
		mass("in", func(c *simulate.ComponentBalance) float64 { return c.In }),
		mass("out", func(c *simulate.ComponentBalance) float64 { return c.Out }),
		mass("more in store", func(c *simulate.ComponentBalance) float64 { return c.Change }),
		doc.Txt("{units} a year", []string{"left over"}, doc.Mass, func(c *simulate.ComponentBalance) any { return doc.Residual{Value: c.Residual, Quantity: doc.Mass} })))
	return d
}

// values are all keys of the file, with what holds for them and who says so.
func values(b answer.Basis, f *facilityfile.File) *doc.Document {
	d := doc.New("inputs", b, doc.Say("Every value that the simulation used, those that the file leaves out included. A value without a line is a default; its source is beside it. Where a usual range is known, a value outside of it is warned of when the file is read."))
	left := func(head string, of func(*facilityfile.Setting) string) doc.Col[facilityfile.Setting] {
		return doc.Left([]string{head}, func(s *facilityfile.Setting) any { return of(s) })
	}
	settings := f.Settings()
	d.Add(inputs.Table(f), doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("Keys of the file, in the order of its sections")}, settings,
		left("Key", func(s *facilityfile.Setting) string { return s.Path }),
		left("Value", func(s *facilityfile.Setting) string { return s.Used }),
		left("From", func(s *facilityfile.Setting) string {
			if s.Line > 0 {
				return fmt.Sprintf("line %d", s.Line)
			}
			return "default"
		}),
		left("Usual", func(s *facilityfile.Setting) string { return s.Usual }),
		left("Source", source),
		left("Meaning", func(s *facilityfile.Setting) string {
			if s.Key == nil {
				return ""
			}
			return s.Key.Words
		})))
	return d
}

// source says whose a default is where it holds, and whose the usual range.
func source(s *facilityfile.Setting) string {
	if s.Key == nil {
		return ""
	}
	text := ""
	if s.Line == 0 && s.Key.Default != nil && s.Key.Default.Source != "" {
		text = "default: " + s.Key.Default.Source
	}
	if s.Usual != "" && s.Key.Usual.Source != "" {
		if text != "" {
			text += "; "
		}
		text += "usual: " + s.Key.Usual.Source
	}
	return text
}

// rests says what it takes to have the report again.
func rests(b answer.Basis, f *facilityfile.File) *doc.Document {
	d := doc.New("basis", b, doc.Words("The same program, file and seed give the same report to the last byte, whatever the machine and however many run side by side."))
	rows := []fact{
		{"Facility", doc.Words(doc.Printable(b.Facility))},
		{"File", doc.Words(doc.Printable(b.Source))},
		{"SHA-256 of the file", doc.Words(b.FileHash)},
		{"Program", doc.Say("loamcast %s", b.Version)},
		{"Seed", doc.Say("%d", b.Seed)},
		{"Horizon", doc.Say("%d years from %v", b.Horizon, b.Start)},
		{"Service target", doc.Words(b.Target.String())},
		{"Runs with the file's own values", doc.Say("%d; planning answers take as many as they need and say how many", f.Replications)},
	}
	for _, g := range b.Scenarios {
		rows = append(rows, fact{"Growth", doc.Say("%s, by weight %s", doc.Name(g.Name, 60), doc.With(g.Weight, doc.Share, 0))})
	}
	if b.Invented {
		rows = append(rows, fact{"Data", doc.Words(doc.Invented)})
	}
	d.Add(told("", rows))
	return d
}

// fact is a line of a table of two columns.
type fact struct {
	name string
	text doc.Text
}

// told is a table of two columns.
func told(title string, rows []fact) doc.Table {
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words(title)}, rows,
		doc.Left([]string{"What"}, func(f *fact) any { return f.name }),
		doc.Left([]string{"Is"}, func(f *fact) any { return f.text }))
}
