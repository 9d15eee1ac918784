package plant

import "loamcast/facility/material"

// pile is a heap of even composition that remembers its volume: reckoning it
// anew at every look would cost more than all else that is done with it.
type pile struct {
	parcel material.Parcel
	volume float64 // m3
}

func (h *pile) add(q material.Parcel, b *material.Bulk) {
	h.parcel.Add(q)
	h.volume = b.Volume(h.parcel)
}

// take removes m3, or all there is, and returns the parcel and its volume.
func (h *pile) take(m3 float64) (material.Parcel, float64) {
	part := share(m3, h.volume)
	q, taken := h.parcel.Take(part), h.volume*part
	h.volume -= taken
	if part == 1 {
		h.volume = 0
	}
	return q, taken
}
