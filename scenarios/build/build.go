package build

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"math"
	"os"
	"runtime/debug"
	"sync"
)

// ID identifies the program and how the machine that it runs on rounds: the same input
// gives the same numbers, to the last bit, where it is the same. An error says why that
// cannot be told.
//
// A program built from a clean checkout is known by that and by how it was built. Any
// other is known by its bytes.
var ID = sync.OnceValues(func() ([sha256.Size]byte, error) {
	h := sha256.New()
	if info, ok := debug.ReadBuildInfo(); ok && clean(info) {
		io.WriteString(h, info.String())
	} else if err := hashExecutable(h); err != nil {
		return [sha256.Size]byte{}, err
	}
	h.Write(rounding())
	return [sha256.Size]byte(h.Sum(nil)), nil
})

// clean reports whether a program was built from a revision without changes.
func clean(info *debug.BuildInfo) bool {
	stamp := map[string]string{}
	for _, s := range info.Settings {
		stamp[s.Key] = s.Value
	}
	return stamp["vcs.revision"] != "" && stamp["vcs.modified"] == "false"
}

// hashExecutable writes what tells the program's bytes from others: how many there are and
// two checksums, by which 2^64 programs differ. A cryptographic hash takes a tenth of a second of
// a command where the processor has no instructions for it, as these do everywhere.
func hashExecutable(w io.Writer) error {
	path, err := os.Executable()
	if err != nil {
		return err
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	one, other := crc32.NewIEEE(), crc32.New(crc32.MakeTable(crc32.Castagnoli))
	size, err := io.CopyBuffer(io.MultiWriter(one, other), struct{ io.Reader }{f}, make([]byte, 1<<18))
	fmt.Fprintf(w, "%d %x %x", size, one.Sum(nil), other.Sum(nil))
	return err
}

// rounding returns what the machine makes of some numbers: libraries take other
// instructions on other processors, which differ in the last bit.
func rounding() (out []byte) {
	x := 0.37
	for range 200 {
		for _, y := range []float64{math.Exp(x), math.Exp(-x), math.Log(x), math.Pow(x, 5.2559), math.Expm1(-x), math.Log1p(x), math.Sin(x), x*x + 1/x} {
			out = binary.LittleEndian.AppendUint64(out, math.Float64bits(y))
		}
		x *= 1.0471
	}
	return out
}
