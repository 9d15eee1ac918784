package render

import (
	"loamcast/scenarios/document"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render/picture"
	"loamcast/scenarios/units"
)

// Pictures draws the figures of a document as PNG and as SVG.
func Pictures(d *document.Document, sys units.System) ([]outfile.File, error) {
	var files []outfile.File
	for _, f := range d.Figures {
		p := picture.Of(f, sys.With(d.Basis.Currency))
		png, err := p.PNG()
		if err != nil {
			return nil, err
		}
		svg, err := p.SVG()
		if err != nil {
			return nil, err
		}
		files = append(files, outfile.File{Name: p.Name + ".png", Data: png}, outfile.File{Name: p.Name + ".svg", Data: svg})
	}
	return files, nil
}
