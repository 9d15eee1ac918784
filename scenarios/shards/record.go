package shards

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"github.com/fxamacker/cbor/v2"
)

// A record is a file:
//
//	magic
//	length of the label, label in JSON    whose replication it is, and which
//	replication                           as CBOR, compressed
//	SHA-256                               of all up to here
//
// CBOR keeps every number to the last bit, and what is not a number, as JSON does not.
const magic = "loamcast replication 1\n"

// label says whose replication a record is, and which.
type label struct {
	Origin
	Share       Share
	Replication int
}

// Names of records.
const (
	recordBegins = "replication-"
	recordEnding = ".record"
)

// recordName is that of a replication, counted from 1 as people count.
func recordName(replication int) string {
	return fmt.Sprintf("%s%06d%s", recordBegins, replication+1, recordEnding)
}

func isRecord(path string) bool {
	name := filepath.Base(path)
	return strings.HasPrefix(name, recordBegins) && strings.HasSuffix(name, recordEnding)
}

// Numbers are written in full: they compress well all the same.
var writes, _ = cbor.EncOptions{NaNConvert: cbor.NaNConvertNone, InfConvert: cbor.InfConvertNone}.EncMode()

// What a record does not know, or a program does not, is no replication of the same
// program.
var reads, _ = cbor.DecOptions{ExtraReturnErrors: cbor.ExtraDecErrorUnknownField, MaxArrayElements: math.MaxInt32}.DecMode()

// encode writes a record.
func encode(l label, replication any) ([]byte, error) {
	head, err := json.Marshal(l)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	out.WriteString(magic)
	binary.Write(&out, binary.LittleEndian, uint32(len(head)))
	out.Write(head)
	packed, _ := gzip.NewWriterLevel(&out, gzip.BestSpeed)
	if err := errors.Join(writes.NewEncoder(packed).Encode(replication), packed.Close()); err != nil {
		return nil, err
	}
	sum := sha256.Sum256(out.Bytes())
	return append(out.Bytes(), sum[:]...), nil
}

var errDamaged = errors.New("the file is damaged")

// open reads the label of a record, and returns what follows it, packed, if the record is
// whole.
func open(data []byte) (l label, packed []byte, err error) {
	const length = 4
	rest, ours := bytes.CutPrefix(data, []byte(magic))
	if !ours || len(rest) < length+sha256.Size {
		return l, nil, errDamaged
	}
	body, sum := data[:len(data)-sha256.Size], data[len(data)-sha256.Size:]
	if sha256.Sum256(body) != [sha256.Size]byte(sum) {
		return l, nil, errDamaged
	}
	rest = rest[:len(rest)-sha256.Size]
	head := binary.LittleEndian.Uint32(rest)
	if rest = rest[length:]; uint64(head) > uint64(len(rest)) {
		return l, nil, errDamaged
	}
	if err := json.Unmarshal(rest[:head], &l); err != nil {
		return l, nil, errDamaged
	}
	return l, rest[head:], nil
}

// unpack decodes what a record holds.
func unpack(packed []byte, into any) error {
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return err
	}
	data, err := io.ReadAll(plain)
	if err != nil {
		return err
	}
	return reads.Unmarshal(data, into)
}
