package report

import (
	"bytes"

	"loamcast/scenarios/outfile"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// File is a rendering with the name it should be given.
type File = outfile.File

// Pictures renders every picture as PNG and as SVG.
func Pictures(a *simulate.Answer, sys units.System) ([]File, error) {
	pictures, err := picture.All(a, sys)
	if err != nil {
		return nil, err
	}
	return render(pictures)
}

// Files renders everything: summary.txt, cautions.txt, answer.json, the CSV
// files and the pictures.
func Files(a *simulate.Answer, sys units.System) ([]File, error) {
	var summary, cautions, whole bytes.Buffer
	if err := Terminal(&summary, a, sys); err != nil {
		return nil, err
	}
	if err := Cautions(&cautions, a); err != nil {
		return nil, err
	}
	if err := JSON(&whole, a, sys); err != nil {
		return nil, err
	}
	tables, err := CSV(a, sys)
	if err != nil {
		return nil, err
	}
	pictures, err := Pictures(a, sys)
	if err != nil {
		return nil, err
	}
	files := []File{
		{Name: "summary.txt", Data: summary.Bytes()},
		{Name: cautionsFile, Data: cautions.Bytes()},
		{Name: "answer.json", Data: whole.Bytes()},
	}
	files = append(files, tables...)
	return append(files, pictures...), nil
}
