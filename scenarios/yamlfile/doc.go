// Package yamlfile reads YAML files strictly and remembers where everything
// stood, so that each complaint names file, line and column, shows the line
// with a caret, and says what would be right. All complaints come at once.
//
// It knows no facility: which keys exist and what they mean is said by the
// caller, who walks the file with a [Map] and asks for quantities, numbers,
// texts and dates by key. A key that nobody asks for is an error. It is not a
// YAML library either: it refuses anchors, aliases, tags, merge keys, several
// documents in one file, and anything over [MaxSize] bytes.
//
// Quantities are returned in the base units of package units (kg, m3, s, °C,
// fraction, per day, and money in the file's one currency). Lines and columns count from 1, columns in
// characters.
//
//	doc, err := yamlfile.Open("plant.yaml")
//	...
//	v := doc.Root().Map("vessel")
//	volume := v.Quantity("useful_volume", units.Volume, yamlfile.Positive())
//	count := v.IntOr("count", 1, yamlfile.Between(1, 100))
//	if err := doc.Err(); err != nil {
//		return err // everything that is wrong, in order
//	}
package yamlfile
