package build

import (
	"crypto/sha256"
	"encoding/binary"
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
// other is known by its bytes, which takes some hundredths of a second.
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
	_, err = io.Copy(w, f)
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
