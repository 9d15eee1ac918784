package plant

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// ChipSource is where fresh chips come from, if from several: a supplier, from whom
// truckloads are ordered, or wood of the plant's own, which comes by itself as it is
// ground. All of it lies in one store and is mixed.
type ChipSource struct {
	Name     string
	Fresh    material.Spec // as it comes; volumes of a source are loose, as it comes, m3
	Moisture [12]float64   // of what comes in each month, 0…1

	Truckload float64 // m3; 0 for wood of the plant's own
	LeadTime  sim.Duration
	LeadCV    float64
	Most      float64 // m3 that may be ordered in a calendar month; 0 for any amount

	Own [12]float64 // m3 a day by month; of wood of the plant's own alone
}

// Buys reports whether the source is a supplier.
func (s *ChipSource) Buys() bool { return s.Truckload > 0 }

// Lead returns the distribution of the lead time, s.
func (s *ChipSource) Lead() random.Distribution {
	o := Ordering{LeadTime: s.LeadTime, LeadCV: s.LeadCV}
	return o.Lead()
}

func (s *ChipSource) validate(c *Chips, chemistry material.Chemistry) error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(s.Name != "", "a source of chips needs a name")
	check(s.Truckload >= 0 && s.LeadTime >= 0 && s.LeadCV >= 0, "truckload and lead time of %s cannot be negative", s.Name)
	check(s.Most == 0 || s.Most >= s.Truckload, "the most of %s in a month is less than a truckload", s.Name)
	skeleton := func(fresh material.Spec, moisture [12]float64) float64 {
		fresh = fresh.WithMoisture(mean(moisture[:]))
		return fresh.DryBulkDensity() * fresh.Coarse
	}
	worth := skeleton(s.Fresh, s.Moisture) / skeleton(c.Fresh, c.Moisture)
	check(!(c.OrderUpTo-c.Reorder < s.Truckload*max(1, worth)), "between reorder point and order-up-to level there must be room for a truckload of %s", s.Name)
	check(s.Buys() || mean(s.Own[:]) > 0, "nothing comes of %s: it needs a truckload, or amounts that come by themselves", s.Name)
	for i, m := range s.Moisture {
		check(m >= 0 && m < 0.8, "moisture of %s in month %d is %.3g %%; 0 to 80 %% can be simulated", s.Name, i+1, 100*m)
		check(s.Own[i] >= 0 && (s.Own[i] == 0 || !s.Buys()), "%s comes by itself or is bought, and not less than nothing", s.Name)
	}
	return errors.Join(append(errs, s.Fresh.Validate(chemistry))...)
}

func (c *Chips) validateSources(chemistry material.Chemistry) error {
	if len(c.Sources) == 0 {
		return nil
	}
	var errs []error
	if !slices.ContainsFunc(c.Sources, func(s ChipSource) bool { return s.Buys() }) {
		errs = append(errs, errors.New("of the sources of chips none is bought"))
	}
	for i := range c.Sources {
		errs = append(errs, c.Sources[i].validate(c, chemistry))
	}
	return errors.Join(errs...)
}

// Combine sets what chips are where one supplier is asked about: composition and
// moisture are those of the first that is bought, the truckload is the largest, and
// the lead time that of the slowest, which leans to the side that warns.
func (c *Chips) Combine() {
	first := true
	for i := range c.Sources {
		s := &c.Sources[i]
		if !s.Buys() {
			continue
		}
		if first {
			c.Fresh, c.Moisture, c.Truckload, c.LeadTime, c.LeadCV = s.Fresh, s.Moisture, 0, 0, 0
			first = false
		}
		c.Truckload = max(c.Truckload, s.Truckload)
		if s.LeadTime >= c.LeadTime {
			c.LeadTime, c.LeadCV = s.LeadTime, s.LeadCV
		}
	}
}

// alterSources alters every source of this model's own.
func (c *Chips) alterSources(alter func(*ChipSource)) {
	c.Sources = slices.Clone(c.Sources)
	for i := range c.Sources {
		alter(&c.Sources[i])
	}
}

// Wetter adds to the moisture of all chips, in parts of 1.
func (c *Chips) Wetter(points float64) {
	add := func(months *[12]float64) {
		for i := range months {
			months[i] += points
		}
	}
	add(&c.Moisture)
	c.alterSources(func(s *ChipSource) { add(&s.Moisture) })
}

// Punctual lets every delivery take the mean lead time.
func (c *Chips) Punctual() {
	c.LeadCV = 0
	c.alterSources(func(s *ChipSource) { s.LeadCV = 0 })
}

// AtOnce has every order delivered when it is placed, however much it is.
func (c *Chips) AtOnce() {
	c.LeadTime = 0
	c.alterSources(func(s *ChipSource) { s.LeadTime, s.Most = 0, 0 })
}

// mostPerMonth returns the most that suppliers deliver, m3 a day in the mean of a
// year; ok is false where one of them is not limited.
func (c *Chips) mostPerMonth() (perDay float64, ok bool) {
	for i := range c.Sources {
		s := &c.Sources[i]
		if s.Buys() && s.Most == 0 {
			return 0, false
		}
		if s.Buys() {
			perDay += math.Floor(s.Most/s.Truckload+rounding) * s.Truckload * calendar.MonthsPerYear / calendar.DaysPerYear
		}
	}
	return perDay, len(c.Sources) > 0
}

// ComeBySelf reports whether some of the chips are wood of the plant's own.
func (c *Chips) ComeBySelf() bool { return c.own() > 0 }

// own returns what comes by itself, m3 a day in the mean of the months.
func (c *Chips) own() float64 {
	sum := 0.0
	for i := range c.Sources {
		sum += mean(c.Sources[i].Own[:])
	}
	return sum
}

// MonthlyChipSource is what one month brought of a source; volumes are m3 as it comes.
type MonthlyChipSource struct {
	Volume, Dry float64 // delivered, or come by itself
	Truckloads  float64
	Turned      float64 // of what comes by itself, for which there was no room
}

// chipSourceState is what is known of a source during a run.
type chipSourceState struct {
	worth   float64 // m3 in the store of a m3 as it comes
	ordered float64 // m3 in the month below
	month   calendar.Date
	coming  material.Path
}

// openChipSources reckons what a m3 of each source is in the store: the volume model
// measures all chips by one density, that of the first supplier's.
func (p *plant) openChipSources() {
	if len(p.Chips.Sources) == 0 {
		return
	}
	p.chips.sources = make([]chipSourceState, len(p.Chips.Sources))
	for i := range p.chips.sources {
		s := &p.Chips.Sources[i]
		one := s.Fresh.WithMoisture(mean(s.Moisture[:])).OfWet(s.Fresh.BulkDensity)
		p.chips.sources[i].worth = p.Bulk.Volume(one)
	}
}

// chipsOf returns chips of a source as they come today.
func (p *plant) chipsOf(i int, volume float64) material.Parcel {
	s := &p.Chips.Sources[i]
	today := p.dateNow()
	return s.Fresh.WithMoisture(p.spellOn(today).ofChips(s.Moisture[today.Month-1])).OfWet(volume * s.Fresh.BulkDensity)
}

// orderFromSources orders from the suppliers in their order: of each as much as is to
// be ordered and it may still deliver in this month, of the next what is left.
func (p *plant) orderFromSources() {
	c := &p.Chips
	fresh, _ := p.chipVolumes()
	position := fresh + p.chips.onOrder
	if position > c.Reorder {
		return
	}
	date := p.dateNow()
	month := calendar.Date{Year: date.Year, Month: date.Month, Day: 1}
	for i := range c.Sources {
		s, state := &c.Sources[i], &p.chips.sources[i]
		if !s.Buys() {
			continue
		}
		if state.month != month {
			state.month, state.ordered = month, 0
		}
		trucks := math.Floor((c.OrderUpTo - position) / (s.Truckload * state.worth))
		if s.Most > 0 {
			trucks = min(trucks, math.Floor((s.Most-state.ordered)/s.Truckload+rounding))
		}
		if trucks <= 0 {
			continue
		}
		volume := trucks * s.Truckload
		state.ordered += volume
		position += volume * state.worth
		p.chips.onOrder += volume * state.worth
		p.chips.orders++
		p.rec.ChipOrders = append(p.rec.ChipOrders, ChipOrder{Date: date, Truckloads: trucks, Source: i})
		lead := sim.DurationOf(s.Lead().Draw(p.key.Stream("chip delivery", p.chips.orders)))
		p.k.After(lead, "chip delivery", func() {
			p.chips.onOrder -= volume * state.worth
			dry := p.takeIn(i, volume)
			p.month.Chips.Bought += volume
			p.month.Chips.BoughtDry += dry
			p.month.Chips.Truckloads += trucks
			p.month.Chips.Sources[i].Truckloads += trucks
			p.settle()
		})
	}
}

// takeIn stores chips of a source, m3, and returns their dry mass.
func (p *plant) takeIn(i int, volume float64) (dry float64) {
	q := p.chipsOf(i, volume)
	p.chips.fresh.add(&q, &p.Bulk)
	p.stations.fresh.put(p.k.Now(), q.Dry())
	p.move(p.chips.sources[i].coming, &q, 0)
	fresh, _ := p.chipVolumes()
	p.month.Chips.StorePeak = max(p.month.Chips.StorePeak, fresh)
	month := &p.month.Chips.Sources[i]
	month.Volume += volume
	month.Dry += q.Dry()
	return q.Dry()
}

// bringOwnChips stores a day's amount of the plant's own wood, as far as there is room.
func (p *plant) bringOwnChips() {
	for i := range p.Chips.Sources {
		day := p.Chips.Sources[i].Own[p.monthNow()-1]
		if day == 0 {
			continue
		}
		fresh, _ := p.chipVolumes()
		volume := min(day, max(0, p.Chips.Capacity-fresh)/p.chips.sources[i].worth)
		p.month.Chips.Sources[i].Turned += day - volume
		if volume > 0 {
			p.takeIn(i, volume)
			p.month.Chips.Own += volume
		}
	}
}

// openChipSourceMonth begins the sums of a month; a record keeps those of the last.
func (p *plant) openChipSourceMonth() {
	if len(p.Chips.Sources) > 0 {
		p.month.Chips.Sources = make([]MonthlyChipSource, len(p.Chips.Sources))
	}
}
