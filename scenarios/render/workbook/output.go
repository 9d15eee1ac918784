package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"
)

// write writes the finished book.
func (b *book) write(w io.Writer) error {
	var made bytes.Buffer
	if err := b.file.Write(&made); err != nil {
		return err
	}
	in, err := zip.NewReader(bytes.NewReader(made.Bytes()), int64(made.Len()))
	if err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, f := range in.File {
		if err := copied(out, f); err != nil {
			return err
		}
	}
	return out.Close()
}

// copied copies a file of the book, with the earliest time that such files can have.
func copied(out *zip.Writer, f *zip.File) error {
	from, err := f.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	data, err := io.ReadAll(from)
	if err != nil {
		return err
	}
	switch {
	case f.Name == "[Content_Types].xml":
		data = sorted(data)
	case strings.HasPrefix(f.Name, "xl/worksheets/sheet"):
		data = bytes.Replace(data, []byte(` filterMode="true"`), nil, 1) // filters are there, but none is set
		if bytes.Contains(data, []byte(` outlineLevel="1"`)) {           // or the + over folded columns has no room
			data = bytes.Replace(data, []byte(`<sheetFormatPr `), []byte(`<sheetFormatPr outlineLevelCol="1" `), 1)
		}
		data = textual.ReplaceAll(data, []byte("<c$1$2><f>$3</f><v>$4</v></c>"))
	}
	to, err := out.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		return err
	}
	_, err = to.Write(data)
	return err
}

// listed is an entry of the list of what the files of a book are.
var listed = regexp.MustCompile(`<(?:Default|Override)[^>]*></(?:Default|Override)>`)

// sorted puts that list in order, which the library does not keep.
func sorted(data []byte) []byte {
	entries := listed.FindAll(data, -1)
	if len(entries) == 0 {
		return data
	}
	slices.SortFunc(entries, bytes.Compare)
	from, to := listed.FindIndex(data)[0], bytes.LastIndex(data, []byte("</Types>"))
	return slices.Concat(data[:from], bytes.Join(entries, nil), data[to:])
}

// textual is a cell with a formula and the number that it has, marked as text: so the
// library writes every formula. What shows a book without reckoning it would show the
// number with all its digits.
var textual = regexp.MustCompile(`<c([^>]*) t="str"([^>]*)><f>([^<]*)</f><v>(-?[0-9.]+(?:[eE][-+]?[0-9]+)?)</v></c>`)
