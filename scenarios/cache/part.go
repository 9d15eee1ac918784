package cache

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/binary"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"slices"

	"loamcast/facility/process"
	"loamcast/sim/digest"
)

// A part is a file:
//
//	magic, key           of which kind, and whose it is
//	entries              one after the other: courses of a table, runs, or a design
//	index                of each entry: its name, length and checksum
//	count                of entries
//	checksum             of magic, key, index and count
//
// Numbers are little-endian.

// kind is what the entries of a part are.
type kind struct {
	magic  string
	ending string // of the names of files
	name   int    // bytes of the name of an entry
}

var (
	ofTables  = &kind{"loamcast courses 1\n\n", ".courses", len(process.Point{})}
	ofRuns    = &kind{"loamcast records 1\n\n", ".runs", len(digest.Sum{})}
	ofDesigns = &kind{"loamcast designs 1\n\n", ".design", len(digest.Sum{})}
	kinds     = []*kind{ofTables, ofRuns, ofDesigns}
)

// head is what a part of somebody's begins with.
func (of *kind) head(k key) []byte { return append([]byte(of.magic), k[:]...) }

// entrySize is what an entry takes in the index.
func (of *kind) entrySize() int { return of.name + 4 + 4 }

const tailSize = 4 + 4

// largest is how large one entry, and an index, may be, bytes: what is larger is damage.
const largest = 64 << 20

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(b []byte) uint32 { return crc32.Checksum(b, castagnoli) }

// entry is where one lies in a part.
type entry struct {
	offset int64
	length uint32
	sum    uint32
}

// part is a file that is open.
type part struct {
	path  string
	file  *os.File
	index map[string]entry // by name
}

// openPart opens a part; it is nil if it is damaged or another's.
func openPart(path string, of *kind, k key) *part {
	f, err := os.Open(path)
	if err != nil {
		return nil
	}
	p := &part{path: path, file: f}
	if !p.readIndex(of, k) {
		f.Close()
		return nil
	}
	return p
}

// readIndex reports whether the file is whole, as far as it can be told without reading
// the entries.
func (p *part) readIndex(of *kind, k key) bool {
	info, err := p.file.Stat()
	if err != nil {
		return false
	}
	want := of.head(k)
	head, tail := make([]byte, len(want)), make([]byte, tailSize)
	if _, err := p.file.ReadAt(head, 0); err != nil || !bytes.Equal(head, want) {
		return false
	}
	if _, err := p.file.ReadAt(tail, info.Size()-tailSize); err != nil {
		return false
	}
	count := int64(binary.LittleEndian.Uint32(tail))
	size := count * int64(of.entrySize())
	begins := info.Size() - tailSize - size
	if size > largest || begins < int64(len(head)) {
		return false
	}
	index := make([]byte, size)
	if _, err := p.file.ReadAt(index, begins); err != nil {
		return false
	}
	if binary.LittleEndian.Uint32(tail[4:]) != checksum(slices.Concat(head, index, tail[:4])) {
		return false
	}
	p.index = make(map[string]entry, count)
	offset := int64(len(head))
	for names := string(index); len(index) > 0; index, names = index[of.entrySize():], names[of.entrySize():] {
		numbers := index[of.name:]
		e := entry{offset, binary.LittleEndian.Uint32(numbers), binary.LittleEndian.Uint32(numbers[4:])}
		p.index[names[:of.name]] = e
		offset += int64(e.length)
	}
	return offset == begins
}

// read reads an entry into a room that it may make larger, and reports whether it is
// there and whole.
func (p *part) read(e entry, room *[]byte) (data []byte, ok bool) {
	return readEntry(p.file, e, room)
}

func readEntry(from io.ReaderAt, e entry, room *[]byte) (data []byte, ok bool) {
	if e.length > largest {
		return nil, false
	}
	if cap(*room) < int(e.length) {
		*room = make([]byte, e.length)
	}
	data = (*room)[:e.length]
	_, err := from.ReadAt(data, e.offset)
	return data, err == nil && checksum(data) == e.sum
}

// writer writes a part under a temporary name, so that it is there whole or not at all. It
// is not forced to the disk: what a failure of power spoils is found by its checksums.
type writer struct {
	dir   string
	kind  *kind
	key   key
	file  *os.File
	to    *bufio.Writer
	at    int64  // bytes written
	index []byte // as it is written in the end
	known map[string]entry
}

// begin begins a part in a folder, which it makes if it is not there.
func begin(dir string, of *kind, k key) (*writer, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	f, err := os.CreateTemp(dir, temporary+"*")
	if err != nil {
		return nil, err
	}
	w := &writer{dir: dir, kind: of, key: k, file: f, to: bufio.NewWriterSize(f, 1<<18), known: map[string]entry{}}
	head := of.head(k)
	w.to.Write(head)
	w.at = int64(len(head))
	return w, nil
}

// add writes an entry, unless there is one of its name.
func (w *writer) add(name string, data []byte) error {
	if _, there := w.known[name]; there {
		return nil
	}
	e := entry{w.at, uint32(len(data)), checksum(data)}
	w.known[name] = e
	w.index = append(w.index, name...)
	w.index = binary.LittleEndian.AppendUint32(w.index, e.length)
	w.index = binary.LittleEndian.AppendUint32(w.index, e.sum)
	w.at += int64(len(data))
	_, err := w.to.Write(data)
	return err
}

// written returns where an entry lies that can be read again from the file; of a writer that
// is nil there is none.
func (w *writer) written(name string) (e entry, ok bool) {
	if w == nil {
		return e, false
	}
	if e, ok = w.known[name]; ok && e.offset+int64(e.length) > w.at-int64(w.to.Buffered()) {
		ok = w.to.Flush() == nil
	}
	return e, ok
}

// finish puts the part in its place, and reports whether there was anything in it.
func (w *writer) finish() (wrote bool, err error) {
	count := binary.LittleEndian.AppendUint32(nil, uint32(len(w.known)))
	w.to.Write(w.index)
	w.to.Write(count)
	w.to.Write(binary.LittleEndian.AppendUint32(nil, checksum(slices.Concat(w.kind.head(w.key), w.index, count))))
	if err := cmp.Or(w.to.Flush(), w.file.Close()); err != nil || len(w.known) == 0 {
		os.Remove(w.file.Name())
		return false, err
	}
	// The name under which it was written is nobody else's.
	own := filepath.Base(w.file.Name())[len(temporary):]
	if err := os.Rename(w.file.Name(), filepath.Join(w.dir, w.key.name()+"-"+own+w.kind.ending)); err != nil {
		os.Remove(w.file.Name())
		return false, err
	}
	return true, nil
}

// abandon leaves nothing of a part.
func (w *writer) abandon() {
	w.file.Close()
	os.Remove(w.file.Name())
}
