package calendar

import (
	"crypto/sha256"
	"encoding/binary"

	"loamcast/sim/digest"
)

// identify works out the digest of the spans, once, since there are tens of thousands of
// them: all else that the calendar holds follows from them and from what [Work.Digest] adds.
func (w *Work) identify() {
	const numberSize = 8
	out := make([]byte, 0, numberSize*(1+2*len(w.opens)))
	out = binary.LittleEndian.AppendUint64(out, uint64(w.end))
	for i := range w.opens {
		out = binary.LittleEndian.AppendUint64(out, uint64(w.opens[i]))
		out = binary.LittleEndian.AppendUint64(out, uint64(w.closes[i]))
	}
	w.sum = sha256.Sum256(out)
}

// Digest identifies the calendar: two of the same digest say the same of every second.
func (w *Work) Digest() digest.Sum { return digest.Of(w.always, w.shift, w.sum) }

var _ digest.Digested = (*Work)(nil)
