package report

import (
	"bytes"
	"io"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/simulate"
)

const inventedNotice = "INVENTED DATA: this is an example; no such plant exists."

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
