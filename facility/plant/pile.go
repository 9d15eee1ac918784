package plant

import "loamcast/facility/material"

// pile is a heap of even composition that remembers its volume: reckoning it
// anew at every look would cost more than all else that is done with it.
type pile struct {
	parcel material.Parcel
	volume float64 // m3
}

func (h *pile) add(q *material.Parcel, b *material.Bulk) {
	h.parcel.Mix(q)
	h.volume = b.VolumeOf(&h.parcel)
}

// perVolume returns what a m3 of it weighs and takes; nothing if there is none.
func (h *pile) perVolume() material.Matter { return h.parcel.Matter().Times(over(h.volume)) }

// take moves m3, or all there is, to q and returns its volume.
func (h *pile) take(q *material.Parcel, m3 float64) float64 {
	part := share(m3, h.volume)
	h.parcel.TakeTo(q, part)
	taken := h.volume * part
	h.volume -= taken
	if part == 1 {
		h.volume = 0
	}
	return taken
}
