package tablecache

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"

	"loamcast/facility/process"
)

// A part of a table is a file:
//
//	magic, key           whose it is
//	count                of courses
//	index                of each course: its point, length and checksum
//	checksum             of all up to here
//	courses              one after the other
//
// Numbers are little-endian.
const magic = "loamcast courses 1\n\n"

const (
	headSize  = len(magic) + len(key{}) + 4
	entrySize = len(process.Point{}) + 4 + 4
	sumSize   = 4
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
	head := make([]byte, headSize)
	if _, err := p.file.ReadAt(head, 0); err != nil || !bytes.HasPrefix(head, append([]byte(magic), k[:]...)) {
		return false
	}
	count := int64(binary.LittleEndian.Uint32(head[headSize-4:]))
	if count*int64(entrySize) > min(largest, info.Size()) {
		return false
	}
	all := make([]byte, headSize+int(count)*entrySize+sumSize)
	if _, err := p.file.ReadAt(all, 0); err != nil {
		return false
	}
	body := all[:len(all)-sumSize]
	if binary.LittleEndian.Uint32(all[len(body):]) != checksum(body) {
		return false
	}
	p.index = make(map[process.Point]entry, count)
	offset := int64(len(all))
	for rest := body[headSize:]; len(rest) > 0; rest = rest[entrySize:] {
		at := process.Point(rest[:len(process.Point{})])
		numbers := rest[len(process.Point{}):]
		e := entry{offset, binary.LittleEndian.Uint32(numbers), binary.LittleEndian.Uint32(numbers[4:])}
		p.index[at] = e
		offset += int64(e.length)
	}
	return offset == info.Size()
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

// course is what is to be written of one point.
type course struct {
	at   process.Point
	data []byte
}

// writePart writes courses of a table into a part of their own, whole or not at all. It is
// not forced to the disk: what a failure of power spoils is found by its checksums.
func writePart(dir string, k key, courses []course) (err error) {
	f, err := os.CreateTemp(dir, temporary+"*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	head := append([]byte(magic), k[:]...)
	head = binary.LittleEndian.AppendUint32(head, uint32(len(courses)))
	for _, c := range courses {
		head = append(head, c.at[:]...)
		head = binary.LittleEndian.AppendUint32(head, uint32(len(c.data)))
		head = binary.LittleEndian.AppendUint32(head, checksum(c.data))
	}
	head = binary.LittleEndian.AppendUint32(head, checksum(head))
	w := bufio.NewWriterSize(f, 1<<20)
	w.Write(head)
	for _, c := range courses {
		w.Write(c.data)
	}
	if err := closeAfter(f, w.Flush()); err != nil {
		return err
	}
	// The name under which it was written is nobody else's.
	own := filepath.Base(f.Name())[len(temporary):]
	return os.Rename(f.Name(), filepath.Join(dir, k.name()+"-"+own+ending))
}

// closeAfter closes what was written, and returns the first error.
func closeAfter(c io.Closer, err error) error {
	if wrong := c.Close(); err == nil {
		err = wrong
	}
	return err
}
