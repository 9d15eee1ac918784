package sim

// requestQueue is a binary heap of requests by priority, then arrival.
type requestQueue []*request

func (q requestQueue) len() int { return len(q) }

func (q requestQueue) less(i, j int) bool {
	if q[i].priority != q[j].priority {
		return q[i].priority < q[j].priority
	}
	return q[i].order < q[j].order
}

func (q *requestQueue) push(r *request) {
	*q = append(*q, r)
	h := *q
	for i := len(h) - 1; i > 0; {
		parent := (i - 1) / 2
		if !h.less(i, parent) {
			return
		}
		h[i], h[parent] = h[parent], h[i]
		i = parent
	}
}

func (q *requestQueue) pop() *request {
	h := *q
	first, last := h[0], len(h)-1
	h[0], h[last] = h[last], nil
	h = h[:last]
	*q = h
	for i := 0; ; {
		child := 2*i + 1
		if child >= len(h) {
			return first
		}
		if child+1 < len(h) && h.less(child+1, child) {
			child++
		}
		if !h.less(child, i) {
			return first
		}
		h[i], h[child] = h[child], h[i]
		i = child
	}
}
