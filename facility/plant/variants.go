package plant

// Unlimited returns the same plant with a vessel and a place for every load,
// sharing the tables of courses.
func (p *Plant) Unlimited() *Plant {
	q := *p
	q.Vessels.Unlimited = true
	q.Vessels.Early = false
	q.Yard.Places = 0
	return &q
}

// AirByYear returns the same plant, sharing the tables of courses, for runs of which
// nobody asks what the air took and the blowers used month by month: a load is brought up
// to the end of each year, and not of each month, so that [Month.Losses] and the energy of
// the blowers are in the month in which the load is next looked at. Over a year they are
// the same but for rounding, and all else is to the last bit: what a load is does not
// depend on when it was looked at before. That saves half of the looks at loads.
func (p *Plant) AirByYear() *Plant {
	q := *p
	q.airByYear = true
	return &q
}

// Unmarked returns the same plant, sharing the tables of courses, for runs that nobody
// compares event by event: their records have no fingerprint.
func (p *Plant) Unmarked() *Plant {
	q := *p
	q.unmarked = true
	return &q
}
