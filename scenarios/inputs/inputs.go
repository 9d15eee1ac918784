package inputs

import (
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/outfile"
)

// AsRead is the name under which a folder of results keeps the facility file.
const AsRead = "as-read.yaml"

// Copy is the facility file as it was read, to be kept beside what it gave.
func Copy(f *facilityfile.File) outfile.File { return outfile.File{Name: AsRead, Data: f.Data} }

// Table is the list of all values, for files.
func Table(f *facilityfile.File) doc.Table {
	key := func(of func(*facilityfile.Key) string) func(*facilityfile.Setting) any {
		return func(s *facilityfile.Setting) any {
			if s.Key == nil {
				return nil
			}
			return of(s.Key)
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "inputs"}, f.Settings(),
		doc.Key("key", func(s *facilityfile.Setting) any { return s.Path }).Means("key of the facility file"),
		doc.Any("value", func(s *facilityfile.Setting) any { return s.Used }).Means("value that was used"),
		doc.Any("line", func(s *facilityfile.Setting) any {
			if s.Line == 0 {
				return nil // left out
			}
			return s.Line
		}).Means("line of the file that gives it; empty where a default is used"),
		doc.Any("default", func(s *facilityfile.Setting) any { return s.Default(f) }).Means("value that holds where the file gives none"),
		doc.Any("source_of_default", key(func(k *facilityfile.Key) string {
			if k.Default == nil {
				return ""
			}
			return k.Default.Source
		})).Means("who says so of the default"),
		doc.Any("usual", func(s *facilityfile.Setting) any { return s.Usual }).Means("usual range"),
		doc.Any("source_of_usual", key(func(k *facilityfile.Key) string {
			if k.Usual == nil {
				return ""
			}
			return k.Usual.Source
		})).Means("who says so of the usual range"),
		doc.Any("meaning", key(func(k *facilityfile.Key) string { return k.Words })).Means("what the key is"))
}
