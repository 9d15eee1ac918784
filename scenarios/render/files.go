package render

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"loamcast/scenarios/document"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/units"
)

// Files returns everything that an answer leaves in a folder: its text, the
// whole of it as JSON, its cautions, its tables with what their columns are, and its
// pictures.
func Files(d *document.Document, sys units.System) ([]outfile.File, error) {
	files, err := leaves(d, sys)
	if err != nil {
		return nil, err
	}
	dictionary, err := Dictionary(answers(d), sys)
	return append(files, dictionary), err
}

// answers are an answer and those within it.
func answers(d *document.Document) []*document.Document {
	all := []*document.Document{d}
	for _, part := range d.Parts {
		all = append(all, answers(part.Document)...)
	}
	return all
}

// leaves is Files without what its columns are.
func leaves(d *document.Document, sys units.System) ([]outfile.File, error) {
	var files []outfile.File
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{d.Name + ".txt", func(w io.Writer) error { return errors.Join(Text(w, d, sys), origin(w, d)) }},
		{d.Name + ".json", func(w io.Writer) error { return JSON(w, d, sys) }},
		{cautionsFile, func(w io.Writer) error { return Cautions(w, d) }},
	} {
		var b bytes.Buffer
		if err := f.write(&b); err != nil {
			return nil, err
		}
		files = append(files, outfile.File{Name: f.name, Data: b.Bytes()})
	}
	tables, err := CSV(d, sys)
	if err != nil {
		return nil, err
	}
	pictures, err := Pictures(d, sys)
	if err != nil {
		return nil, err
	}
	files = slices.Concat(files, tables, pictures)
	for _, part := range d.Parts {
		more, err := leaves(part.Document, sys)
		if err != nil {
			return nil, err
		}
		for _, f := range more {
			if f.Name != cautionsFile { // the same for all
				files = append(files, f)
			}
		}
	}
	return files, nil
}

// Tables returns the tables of all answers of a report as CSV, with what their columns
// are.
func Tables(r *document.Report, sys units.System) ([]outfile.File, error) {
	var files []outfile.File
	var all []*document.Document
	for _, c := range r.Chapters {
		for _, part := range c.Parts {
			all = append(all, part.Document)
			tables, err := CSV(part.Document, sys)
			if err != nil {
				return nil, err
			}
			files = append(files, tables...)
		}
	}
	dictionary, err := Dictionary(all, sys)
	return append(files, dictionary), err
}

// origin says, at the end of a text that may be read apart from the rest, what it takes
// to have it again.
func origin(w io.Writer, d *document.Document) error {
	b := &d.Basis
	_, err := fmt.Fprintf(w, "\nloamcast %s, seed %d, facility file of SHA-256\n%s.\n", b.Version, b.Seed, b.FileHash)
	return err
}
