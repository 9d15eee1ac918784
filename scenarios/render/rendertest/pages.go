package rendertest

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"
)

// Pages reads the text of each page of a PDF file that is written here: the strings that
// are shown, in order.
func Pages(t *testing.T, file []byte) []string {
	t.Helper()
	var pages []string
	shown := regexp.MustCompile(`(?s)\(((?:[^\\()]|\\.)*)\)\s*Tj`)
	for _, part := range bytes.Split(file, []byte("stream\n"))[1:] {
		r, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(r)
		if err != nil || !bytes.Contains(content, []byte("BT ")) {
			continue
		}
		var page strings.Builder
		for _, found := range shown.FindAllSubmatch(content, -1) {
			raw := regexp.MustCompile(`(?s)\\(.)`).ReplaceAllFunc(found[1], func(b []byte) []byte {
				if b[1] == 'r' {
					return []byte{'\r'}
				}
				return b[1:]
			})
			var code []uint16
			for i := 0; i+1 < len(raw); i += 2 {
				code = append(code, uint16(raw[i])<<8|uint16(raw[i+1]))
			}
			page.WriteString(string(utf16.Decode(code)) + "\n")
		}
		pages = append(pages, page.String())
	}
	return pages
}
