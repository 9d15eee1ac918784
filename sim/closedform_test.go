package sim

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/sim/random"
	"loamcast/sim/replicate"
	"loamcast/sim/stats"
)

// unitOfTime is the number of seconds that the closed forms call 1, large enough
// for rounding to whole seconds not to matter.
const unitOfTime = 100_000

const (
	closedFormSeed   = 20260629
	replicationsEach = 20
	closedFormLevel  = 0.99
	warmUpUnits      = 1_000 // of time, before measuring
	waitingEstimate  = "waiting time"
	queueEstimate    = "queue length"
	delayedEstimate  = "probability of waiting"
	beyondEstimate   = "probability of waiting longer than the 95 % point"
	blockedEstimate  = "probability of being turned away"
	numberEstimate   = "number in the system"
	timeEstimate     = "time in the system"
	upEstimate       = "availability"
	loadControl      = "work that came, relative to its expectation, less one"
)

// station is a queue with arrivals from outside, and what theory says of it.
type station struct {
	name       string
	gap        distribution // between arrivals, in units of time
	service    distribution // in units of time
	servers    int
	queueLimit int
	units      int     // simulated time of each replication
	wait95     float64 // 95 % point of the waiting time, 0 if not looked at
	within     float64 // largest half-width that the test accepts, relative
	want       map[string]float64
}

func mean(x float64) distribution  { return exponential{random.Exponential{Expected: x}} }
func fixed(x float64) distribution { return random.Constant{Value: x} }

// distribution is what a station needs to know of one.
type distribution interface {
	Draw(*rand.Rand) float64
	Mean() float64
}

type exponential struct{ random.Exponential }

func (e exponential) Mean() float64 { return e.Expected }

// cv2 takes two values so that its mean is 1 and its coefficient of variation 2.
var cv2 = random.Empirical{Values: []float64{0.5, 9}, Weights: []float64{16, 1}}

// The expected values are from an independent queueing package and a closed-form
// recursion, which agree.
var stations = []station{
	mmc(0.8, 1, 20_000, 0.05, .8, 4, 3.2, 13.86294361),
	mmc(1.6, 2, 15_000, 0.05, .7111111111, 1.7777777778, 2.8444444444, 6.63701422),
	mmc(2.7, 3, 15_000, 0.05, .8170610212, 2.7235367372, 7.3535491905, 9.31230259),
	mmc(4.8, 6, 6_000, 0.05, .5177719992, .4314766660, 2.0710879968, 1.94792665),
	mmc(9, 10, 6_000, 0.06, .6687315241, .6687315241, 6.0185837170, 2.59335966),
	loss(4, 6, .1171624714),
	loss(6, 6, .2649223222),
	loss(8, 10, .1216610643),
	{name: "M/M/1/5", gap: mean(1 / 0.8), service: mean(1), servers: 1, queueLimit: 4, units: 6_000, within: 0.05,
		want: map[string]float64{blockedEstimate: .08881950, numberEstimate: 1.86833203, timeEstimate: 2.56306521}},
	single("M/D/1", mean(1/0.8), fixed(1), 15_000, 0.05, 2),
	single("M/G/1, CV 0.3", mean(1/0.8), random.LognormalMeanCV{Expected: 1, CV: 0.3}, 15_000, 0.05, 2.18),
	single("M/G/1, CV 2", mean(1/0.8), cv2, 30_000, 0.05, 10),
	single("D/M/1, 0.5", fixed(2), mean(1), 20_000, 0.05, .25500097),
	single("D/M/1, 0.8", fixed(1/0.8), mean(1), 15_000, 0.05, 1.69273084),
	single("D/M/1, 0.9", fixed(1/0.9), mean(1), 25_000, 0.05, 4.17865942),
	vessels(2.6, 90_000, 0.05, 8.53250446),
	vessels(2.8, 50_000, 0.05, 4.27561537),
	vessels(3, 50_000, 0.05, 2.63112206),
}

func mmc(rate float64, c, units int, within, delayed, wait, queue, wait95 float64) station {
	return station{
		name: fmt.Sprintf("M/M/%d, %v", c, rate), gap: mean(1 / rate), service: mean(1), servers: c,
		units: units, wait95: wait95, within: within,
		want: map[string]float64{delayedEstimate: delayed, waitingEstimate: wait, queueEstimate: queue, beyondEstimate: 0.05},
	}
}

func loss(load float64, c int, blocked float64) station {
	return station{
		name: fmt.Sprintf("Erlang loss, %v on %d", load, c), gap: mean(1 / load), service: mean(1), servers: c,
		queueLimit: NoQueue, units: 1_500, within: 0.05,
		want: map[string]float64{blockedEstimate: blocked},
	}
}

func single(name string, gap, service distribution, units int, within, wait float64) station {
	return station{
		name: name, gap: gap, service: service, servers: 1, units: units, within: within,
		want: map[string]float64{waitingEstimate: wait, queueEstimate: wait / gap.Mean()},
	}
}

// vessels is a vessel station in all but name: fills every so many days on
// average, 14 days of stay, 6 vessels.
func vessels(gap float64, units int, within, wait float64) station {
	s := single(fmt.Sprintf("M/D/6, every %v", gap), mean(gap), fixed(14), units, within, wait)
	s.servers = 6
	return s
}

// simulate runs one replication and returns its estimates, in the theory's units.
func (st *station) simulate(ctx context.Context, rep int) (map[string]float64, error) {
	k := NewKernel(testStart, rep)
	defer k.Close()
	server := NewServer(k, ServerConfig{Name: "server", Capacity: st.servers, QueueLimit: st.queueLimit})
	key := random.Key{Seed: closedFormSeed, Replication: rep}
	gaps, services := key.Stream(st.name+" gap"), key.Stream(st.name+" service")

	queue := newQueueMeter(server)
	var work, delayed, beyond, waits, stays, blocked []float64 // one number per customer
	arrive := func() {
		service := DurationOf(st.service.Draw(services) * unitOfTime)
		work = append(work, float64(service)/unitOfTime)
		came := k.Now()
		accepted := queue.submit(Job{
			Service: service,
			Started: func() {
				wait := float64(k.Now()-came) / unitOfTime
				waits = append(waits, wait)
				delayed = append(delayed, indicator(wait > 0))
				beyond = append(beyond, indicator(wait > st.wait95))
			},
			Done: func() { stays = append(stays, float64(k.Now()-came)/unitOfTime) },
		})
		blocked = append(blocked, indicator(!accepted))
	}
	var next func()
	next = func() {
		arrive()
		k.After(DurationOf(st.gap.Draw(gaps)*unitOfTime), "arrival", next)
	}
	k.After(DurationOf(st.gap.Draw(gaps)*unitOfTime), "arrival", next)
	k.At(warmUpUnits*unitOfTime, "end of warm-up", func() {
		queue.reset()
		work, delayed, beyond, waits, stays, blocked = nil, nil, nil, nil, nil, nil
	})
	end := Time(warmUpUnits+st.units) * unitOfTime
	if err := k.Run(ctx, end); err != nil {
		return nil, err
	}
	waiting := queue.level.Mean(int64(end))
	average := func(xs []float64) float64 { return stat.Mean(xs, nil) }
	return map[string]float64{
		loadControl:     floats.Sum(work)/float64(st.units)*st.gap.Mean()/st.service.Mean() - 1,
		waitingEstimate: average(waits),
		queueEstimate:   waiting,
		delayedEstimate: average(delayed),
		beyondEstimate:  average(beyond),
		blockedEstimate: average(blocked),
		numberEstimate:  waiting + queue.busy.mean(),
		timeEstimate:    average(stays),
	}, nil
}

// queueMeter measures a server's queue from outside: who came and was let in, less
// those whose service has begun.
type queueMeter struct {
	server *Server
	busy   *busyMeter
	level  *stats.TimeWeighted
	now    float64
}

func newQueueMeter(s *Server) *queueMeter {
	return &queueMeter{server: s, busy: newBusyMeter(s), level: stats.NewTimeWeighted(int64(s.k.Now()), 0)}
}

func (m *queueMeter) change(by float64) {
	m.now += by
	m.level.Set(int64(m.server.k.Now()), m.now)
}

// submit hands over a job and reports whether it was accepted.
func (m *queueMeter) submit(j Job) bool {
	started := j.Started
	j.Started = func() {
		m.change(-1)
		call(started)
	}
	m.change(1)
	accepted := m.server.Submit(j)
	if !accepted {
		m.change(-1)
	}
	return accepted
}

// reset forgets the warm-up, that of the busy units too.
func (m *queueMeter) reset() {
	m.change(0)
	m.level.Reset(int64(m.server.k.Now()))
	m.busy.reset()
}

func indicator(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// checkEstimate compares theory with the interval over the replications. Much of
// the difference between replications is that more or less work came than
// expected; since we know how much, and that it is none on average, that part is
// taken off first (a control variate: Law, Simulation Modeling and Analysis,
// ch. 11, from memory).
func checkEstimate(t *testing.T, what string, reps []map[string]float64, want, within float64) {
	t.Helper()
	xs, loads := make([]float64, len(reps)), make([]float64, len(reps))
	for i, r := range reps {
		xs[i], loads[i] = r[what], r[loadControl]
	}
	if spread := stat.Variance(loads, nil); spread > 0 {
		slope := stat.Covariance(xs, loads, nil) / spread
		for i := range xs {
			xs[i] -= slope * loads[i]
		}
	}
	i, err := stats.MeanInterval(xs, closedFormLevel)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%s: want %.5f, got %.5f ± %.5f", what, want, i.Estimate, i.HalfWidth())
	if want < i.Low || want > i.High {
		t.Errorf("%s: %v is outside %v to %v", what, want, i.Low, i.High)
	}
	if i.HalfWidth() > within {
		t.Errorf("%s: half-width %v is above %v, the check is too weak", what, i.HalfWidth(), within)
	}
}

// weakness is how much wider than others the interval of an estimate may be: few
// customers, in bunches, wait longer than the 95 % point.
func weakness(what string) float64 {
	if what == beyondEstimate {
		return 4
	}
	return 1
}

func skipSlow(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("long simulation with nothing shared between goroutines")
	}
}

// Shows that servers reproduce what queueing theory says of them: each value
// lies in the 99 % interval of the replications, which is narrow enough for a
// wrong one to be noticed.
func TestQueueingTheory(t *testing.T) {
	skipSlow(t)
	for _, st := range stations {
		t.Run(st.name, func(t *testing.T) {
			reps, err := replicate.Run(context.Background(), replicationsEach, 0, st.simulate, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, what := range []string{waitingEstimate, queueEstimate, delayedEstimate, beyondEstimate, blockedEstimate, numberEstimate, timeEstimate} {
				if want, ok := st.want[what]; ok {
					checkEstimate(t, what, reps, want, want*st.within*weakness(what))
				}
			}
		})
	}
}

// repairShop is a number of machines that fail and crews that repair them; rates
// per unit of time.
type repairShop struct {
	machines, crews      int
	failure, repair      float64
	down, waiting, avail float64 // what theory says
}

func (shop repairShop) simulate(ctx context.Context, rep int) (map[string]float64, error) {
	k := NewKernel(testStart, rep)
	defer k.Close()
	crews := NewServer(k, ServerConfig{Name: "crews", Capacity: shop.crews})
	queue := newQueueMeter(crews)
	key := random.Key{Seed: closedFormSeed, Replication: rep}
	for m := range shop.machines {
		ups, repairs := key.Stream("up", uint64(m)), key.Stream("repair", uint64(m))
		var work func()
		fail := func() {
			repair := mean(1 / shop.repair).Draw(repairs)
			queue.submit(Job{Service: DurationOf(repair * unitOfTime), Done: work})
		}
		work = func() {
			k.After(DurationOf(mean(1/shop.failure).Draw(ups)*unitOfTime), "failure", fail)
		}
		work()
	}
	const units = 20_000
	k.At(warmUpUnits*unitOfTime, "end of warm-up", queue.reset)
	end := Time(warmUpUnits+units) * unitOfTime
	if err := k.Run(ctx, end); err != nil {
		return nil, err
	}
	waiting := queue.level.Mean(int64(end))
	down := waiting + queue.busy.mean()
	return map[string]float64{
		queueEstimate:  waiting,
		numberEstimate: down,
		upEstimate:     1 - down/float64(shop.machines),
	}, nil
}

// Shows the same of machines that share repair crews (values of the
// same kind).
func TestMachineRepair(t *testing.T) {
	skipSlow(t)
	for _, shop := range []repairShop{
		{5, 1, .1, 1, .63952177, .20347395, .87209565},
		{6, 1, 1.0 / 30, .5, .51166263, .14577347, .91472290},
	} {
		t.Run(fmt.Sprintf("%d machines", shop.machines), func(t *testing.T) {
			reps, err := replicate.Run(context.Background(), replicationsEach, 0, shop.simulate, nil)
			if err != nil {
				t.Fatal(err)
			}
			checkEstimate(t, numberEstimate, reps, shop.down, shop.down*0.05)
			checkEstimate(t, queueEstimate, reps, shop.waiting, shop.waiting*0.05)
			checkEstimate(t, upEstimate, reps, shop.avail, shop.avail*0.01)
		})
	}
}
