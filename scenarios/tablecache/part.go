package tablecache

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"io"
	"iter"
	"os"
	"path/filepath"
	"slices"

	"loamcast/facility/process"
)

// A part of a table is a file:
//
//	magic, key           whose it is
//	courses              one after the other
//	index                of each course: its point, length and checksum
//	count                of courses
//	checksum             of magic, key, index and count
//
// Numbers are little-endian.
const magic = "loamcast courses 1\n\n"

const (
	headSize  = len(magic) + len(key{})
	entrySize = len(process.Point{}) + 4 + 4
	tailSize  = 4 + 4
)

// largest is how large one course, and an index, may be, bytes: what is larger is damage.
const largest = 64 << 20

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(b []byte) uint32 { return crc32.Checksum(b, castagnoli) }

// entry is where a course lies in a part.
type entry struct {
	offset int64
	length uint32
	sum    uint32
}

// part is a file that is open.
type part struct {
	path  string
	file  *os.File
	index map[process.Point]entry
}

// openPart opens a part of a table; it is nil if it is damaged or another's.
func openPart(path string, k key) *part {
	f, err := os.Open(path)
	if err != nil {
		return nil
	}
	p := &part{path: path, file: f}
	if !p.readIndex(k) {
		f.Close()
		return nil
	}
	return p
}

// readIndex reports whether the file is whole, as far as it can be told without reading
// the courses.
func (p *part) readIndex(k key) bool {
	info, err := p.file.Stat()
	if err != nil {
		return false
	}
	head, tail := make([]byte, headSize), make([]byte, tailSize)
	if _, err := p.file.ReadAt(head, 0); err != nil || !bytes.HasPrefix(head, append([]byte(magic), k[:]...)) {
		return false
	}
	if _, err := p.file.ReadAt(tail, info.Size()-tailSize); err != nil {
		return false
	}
	count := int64(binary.LittleEndian.Uint32(tail))
	begins := info.Size() - tailSize - count*int64(entrySize)
	if count*int64(entrySize) > largest || begins < int64(headSize) {
		return false
	}
	index := make([]byte, count*int64(entrySize))
	if _, err := p.file.ReadAt(index, begins); err != nil {
		return false
	}
	if binary.LittleEndian.Uint32(tail[4:]) != checksum(slices.Concat(head, index, tail[:4])) {
		return false
	}
	p.index = make(map[process.Point]entry, count)
	offset := int64(headSize)
	for ; len(index) > 0; index = index[entrySize:] {
		at := process.Point(index[:len(process.Point{})])
		numbers := index[len(process.Point{}):]
		e := entry{offset, binary.LittleEndian.Uint32(numbers), binary.LittleEndian.Uint32(numbers[4:])}
		p.index[at] = e
		offset += int64(e.length)
	}
	return offset == begins
}

// read reads a course into a room that it may make larger, and reports whether it is
// there and whole.
func (p *part) read(e entry, room *[]byte) (course []byte, ok bool) {
	if e.length > largest {
		return nil, false
	}
	if cap(*room) < int(e.length) {
		*room = make([]byte, e.length)
	}
	course = (*room)[:e.length]
	_, err := p.file.ReadAt(course, e.offset)
	return course, err == nil && checksum(course) == e.sum
}

// writePart writes courses of a table into a part of their own, whole or not at all, and
// reports whether there were any. It is not forced to the disk: what a failure of power
// spoils is found by its checksums.
func writePart(dir string, k key, courses iter.Seq2[process.Point, []byte]) (wrote bool, err error) {
	f, err := os.CreateTemp(dir, temporary+"*")
	if err != nil {
		return false, err
	}
	defer func() {
		if !wrote {
			os.Remove(f.Name())
		}
	}()
	w := bufio.NewWriterSize(f, 1<<18)
	head := append([]byte(magic), k[:]...)
	w.Write(head)
	var index []byte
	for at, course := range courses {
		index = append(index, at[:]...)
		index = binary.LittleEndian.AppendUint32(index, uint32(len(course)))
		index = binary.LittleEndian.AppendUint32(index, checksum(course))
		w.Write(course)
	}
	index = binary.LittleEndian.AppendUint32(index, uint32(len(index)/entrySize))
	w.Write(index)
	w.Write(binary.LittleEndian.AppendUint32(nil, checksum(append(head, index...))))
	if err := closeAfter(f, w.Flush()); err != nil || len(index) < entrySize {
		return false, err
	}
	// The name under which it was written is nobody else's.
	own := filepath.Base(f.Name())[len(temporary):]
	if err := os.Rename(f.Name(), filepath.Join(dir, k.name()+"-"+own+ending)); err != nil {
		return false, err
	}
	return true, nil
}

// closeAfter closes what was written, and returns the first error.
func closeAfter(c io.Closer, err error) error {
	if wrong := c.Close(); err == nil {
		err = wrong
	}
	return err
}
