package plant

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/stats"
)

// Plant is a model ready to run. It is safe for concurrent use: what its
// tables remember between replications are pure values.
type Plant struct {
	Model
	kinds      []kind // of vessels, by class
	padCourses *process.Responses
	padDryer   *dryer // nil if nothing waits on the pad until it is dry
	weather    *skies
	skies      []*Plant // in the air of the model's spells, nil where it is the usual
	airByYear  bool     // see AirByYear
	unmarked   bool     // records have no fingerprint, see Unmarked
	runs       Runs     // nil if nobody keeps them
}

// longestWeekend is how long the table of the pad reaches at least: where nothing
// cures, lots go on changing while they wait for the screen.
const longestWeekend = 7 * sim.Day

// New validates a model and prepares its tables of courses.
func New(m Model) (*Plant, error) {
	if err := m.Validate(); err != nil {
		return nil, err
	}
	// Nothing is judged on the pad alone.
	pile := *m.Pile
	pile.Criteria = nil
	weather := new(skies)
	under, err := weather.under(&m)
	if err != nil {
		return nil, err
	}
	return &Plant{
		Model:      m,
		weather:    weather,
		skies:      under,
		kinds:      newKinds(&m, nil),
		padCourses: process.NewResponses(&pile, max(m.Curing.Longest, longestWeekend).Hours()),
		padDryer:   newPadDryer(&m),
	}, nil
}

// With returns a plant of another model. It shares the tables of courses with
// p, and so saves filling them again, as far as both models have the same physics
// (Active, of each class of vessels, and Pile) and the same longest times.
func (p *Plant) With(m Model) (*Plant, error) {
	if m.Pile != p.Pile || m.Curing.Longest != p.Curing.Longest {
		q, err := New(m)
		if err == nil {
			q.runs = p.runs
		}
		return q, err
	}
	if err := m.Validate(); err != nil {
		return nil, err
	}
	under, err := p.weather.under(&m)
	if err != nil {
		return nil, err
	}
	return &Plant{Model: m, kinds: newKinds(&m, p), padCourses: p.padCourses, padDryer: p.padDryerOf(&m), weather: p.weather, skies: under, runs: p.runs}, nil
}

// plant is the state of one replication.
type plant struct {
	*Plant
	k           *sim.Kernel
	today       today
	key         streams
	rec         *Record
	books       *books
	stations    stations
	alarms      alarms
	noise       *random.Noise
	solidsNoise *random.Noise

	feedstockNoise []*random.Noise

	holding    holding
	call       call
	chips      chipStore
	amendments []amendmentStore // in order of the model's
	parts      []batchPart      // of the batches of the next load
	mixers     mixers
	vessels    []vessel
	loading    *load
	partFilled []uint64 // numbers of the loads that had their first batch, till they may wait no longer
	full       []*load  // loaded, to be carried to an aerated place
	active     []*load  // on aerated places
	due        dueTime  // of what is on aerated places
	emptied    []int    // vessels to be brought back
	spare      []*load  // records of loads that are gone, to use again
	pad        pad
	screens    screens
	product    productStore

	waiting waiting
	dryBy   sim.Time       // when nothing that is kept until it is dry, in vessels or on the pad, is kept any more
	trace   func(Movement) // nil unless asked for
	watch   *watch         // nil unless asked for
	paths   []Path

	placesTaken, placesDue, placesOut int // aerated places in use, due for maintenance, in maintenance
	leftToday                         []departed
	installed                         int // vessels
	armed                             []armed
	failed                            []awaited // vessels that are to go out of use
	produced                          produced
	mediaOwed                         float64 // m3 of chips for the biofilter

	installedBefore int        // at the end of the day before
	classes         []classUse // nil where there is one class of vessels
	resources       resources

	loads      uint64
	chipsShort sim.Time // since when mixing waits for chips, or −1

	next       batchPlan // of the vessel to be begun, as it looked when it was last planned
	planned    int       // class of that vessel
	collecting bool      // there is too little cake to plan a load today
	choices    []int     // of classes, to use again
	again      bool      // settle once more: there may be more to do for the first stages

	// What frequent events do, bound once: settle, day and partFilledDue.
	wake, midnight, waitedFor func()

	evidence evidence // of the load last judged

	month         Month
	monthVessels  *stats.TimeWeighted
	yearVessels   *stats.TimeWeighted
	firstReported sim.Time
}

// Run simulates one replication. The record depends on the model and the key
// alone. Errors carry the replication, the simulated date and the event.
func (p *Plant) Run(ctx context.Context, key random.Key) (*Record, error) {
	left, err := p.recalled(key, false, func() (Played, error) {
		rec, err := p.run(ctx, key.Replication, key, nil)
		return Played{Record: rec}, err
	})
	return left.Record, err
}

// streams gives the random numbers of one replication, a stream for each purpose
// and entity. It is a [random.Key] but in the tests, which look on.
type streams interface {
	Stream(name string, entity ...uint64) *rand.Rand
}

func (p *Plant) run(ctx context.Context, replication int, key streams, trace func(Movement)) (*Record, error) {
	return p.play(ctx, replication, key, func(s *plant) { s.trace = trace })
}

// play simulates one replication, whose state prepare may ask to tell what goes on.
func (p *Plant) play(ctx context.Context, replication int, key streams, prepare func(*plant)) (*Record, error) {
	k := sim.NewKernel(p.Begin(), replication)
	if !p.unmarked {
		k.RecordFingerprint()
	}
	defer k.Close()
	s := newState(p, k, replication, key)
	s.paths = s.books.paths()
	prepare(s)
	k.AtPriority(0, sim.Early, "day", s.midnight)
	end := sim.Time(k.Clock().SecondOf(p.Start.AddYears(p.Years)))
	if err := k.Run(ctx, end); err != nil {
		return nil, err
	}
	return s.finish()
}

func newState(p *Plant, k *sim.Kernel, replication int, key streams) *plant {
	own := *p // changes alter the model of this replication only
	s := &plant{
		Plant:         &own,
		k:             k,
		today:         today{date: k.Clock().Start},
		key:           key,
		rec:           newRecord(replication, p),
		stations:      newStations(),
		noise:         p.Feed.Noise.Start(key.Stream("production")),
		solidsNoise:   random.AR1Lognormal{CV: p.Feed.SolidsCV, Correlation: p.Feed.Noise.Correlation}.Start(key.Stream("cake solids")),
		chipsShort:    -1,
		monthVessels:  stats.NewTimeWeighted(0, 0),
		yearVessels:   stats.NewTimeWeighted(0, 0),
		firstReported: sim.Time(k.Clock().SecondOf(p.Start)),
	}
	for i := range p.Feedstocks {
		noise := random.AR1Lognormal{CV: p.Feedstocks[i].CV}
		s.feedstockNoise = append(s.feedstockNoise, noise.Start(key.Stream("feedstock", uint64(i))))
	}
	s.wake, s.midnight, s.waitedFor = s.settle, s.day, s.partFilledDue
	s.addMixers(p.Mixer.Units())
	s.addScreens(p.Screening.Units())
	s.holding.sources = make([]material.Parcel, 1+len(p.Feedstocks))
	s.yearVessels.CountLevels()
	s.alarms = newAlarms(s)
	s.openClasses()
	s.firstVessels()
	s.openStores()
	s.openProcess()
	s.openAmendments()
	s.openMonth()
	s.books = newBooks(s) // what is there by now is its opening inventory
	s.resources = s.newResources()
	s.addPlaces(p.Yard.Places)
	s.scheduleChanges()
	s.scheduleOutages()
	if p.Media.Every > 0 {
		k.After(p.Media.Every, "biofilter media due", func() {
			s.replaceMedia()
			s.settle()
		})
	}
	return s
}

// firstVessels puts the vessels installed into use, class by class.
func (p *plant) firstVessels() {
	for class := range p.kinds {
		p.addVessels(class, p.Vessels.InClass(class))
	}
	for i := range p.vessels { // whatever their class
		p.vessels[i].serviceAt = p.Vessels.Service.firstService(p.k.Now(), i, len(p.vessels))
	}
}

// addVessels puts n more vessels of a class into use.
func (p *plant) addVessels(class, n int) {
	p.installed += n
	if len(p.classes) > 0 {
		p.classes[class].installed += n
	}
	for i := range n {
		p.newVessel(class, p.Vessels.Service.firstService(p.k.Now(), i, n))
	}
}

// settle lets every stage start what it can, from downstream up, until
// nothing moves any more.
func (p *plant) settle() {
	p.syncHolding()
	for {
		if p.storeCured() || p.startScreening() || p.takeOff() || p.toPlace() || p.bringBack() {
			continue
		}
		// A load that is begun, and its batches, take what they find and make no room for
		// the stages before them. Where they do, they ask to settle once more.
		p.again = false
		p.startLoading()
		for !p.again && p.startBatch() {
		}
		if !p.again {
			break
		}
	}
	p.explainWaits()
	if p.watch != nil {
		p.watch.look(p)
	}
}

// closeMonth ends a month at midnight of date, and a year on its anniversary.
func (p *plant) closeMonth(date calendar.Date) {
	if !p.airByYear || date.Month == p.Start.Month {
		p.advanceAll()
	}
	p.month.Chips.HoursShort += p.hoursShort(p.chipsShort >= 0)
	now := p.k.Now()
	before := date.AddMonths(-1)
	p.closeAmendmentMonth()
	p.closeClassMonth()
	m := p.month
	m.Year, m.Month = before.Year, before.Month
	m.Days = float64(before.DaysUntil(date))
	m.Chips.StoreEnd, _ = p.chipVolumes()
	m.Product.StoreEnd = p.product.volume
	m.Vessels.Mean = p.monthVessels.Mean(int64(now))
	m.Vessels.Peak = p.monthVessels.Max()
	m.Vessels.Installed = float64(p.installedBefore)
	p.monthVessels.Reset(int64(now))
	m.Use = p.resourceUse()
	p.produced.add(&m)
	reported := now > p.firstReported
	if date.Month == p.Start.Month {
		p.closeYear(date, reported)
	}
	if reported {
		p.rec.Months = append(p.rec.Months, m)
	}
	p.openMonth()
}

// openMonth begins the sums of a month, and its peaks with what is there already.
func (p *plant) openMonth() {
	fresh, _ := p.chipVolumes()
	p.month = Month{}
	p.openAmendmentMonth()
	p.openChipSourceMonth()
	p.openClassMonth()
	p.month.Chips.StorePeak = fresh
	p.month.Curing.PadPeak = p.pad.volume
	p.month.Product.StorePeak = p.product.volume
	p.measureHeld(p.holding.dry)
}

// advanceAll brings all loads up to now, so that what the air took counts in
// the month, or the year, that ends.
func (p *plant) advanceAll() {
	for _, l := range p.active {
		p.advance(l, p.books.vesselAir)
	}
	for _, l := range p.pad.lots {
		p.advance(l, p.books.padAir)
	}
	for _, l := range p.pad.raw {
		p.advanceRaw(l)
	}
}

// closeYear balances the books.
func (p *plant) closeYear(date calendar.Date, reported bool) {
	now := int64(p.k.Now())
	balance, err := p.books.close()
	if err != nil {
		p.k.Fail(err)
		return
	}
	if !(balance.Worst <= p.rec.Worst) {
		p.rec.Worst, p.rec.WorstAt = balance.Worst, balance.WorstAt
	}
	if reported {
		p.rec.Years = append(p.rec.Years, Year{
			From:         date.AddYears(-1),
			Balance:      balance,
			VesselsMean:  p.yearVessels.Mean(now),
			VesselsPeak:  int(p.yearVessels.Max()),
			VesselsCover: p.yearVessels.Covering(coverShare, now),
			Installed:    p.installedBefore,
		})
	}
	p.yearVessels.Reset(now)
}

// finish closes the last month and year after the last event.
func (p *plant) finish() (*Record, error) {
	p.syncHolding()
	p.bookHeld()
	date := p.dateNow()
	p.takeProduct(int(date.AddDays(-1).Month))
	p.haulByContract()
	p.noteInstalled()
	p.followAir()
	p.closeMonth(date)
	if err := p.k.Err(); err != nil {
		return nil, fmt.Errorf("closing the last year: %w", err)
	}
	p.rec.Stations = p.stationRecords()
	for _, l := range slices.Concat(p.full, p.active, p.pad.lots, p.pad.raw) {
		p.endWait(l)
	}
	p.rec.Waited += p.rec.Stations[0].MeanLevel * p.rec.Stations[0].Seconds / float64(sim.Day)
	p.rec.Paths = p.books.paths()
	p.rec.Events = p.k.Executed()
	p.rec.Fingerprint = p.k.Fingerprint()
	return p.rec, nil
}
