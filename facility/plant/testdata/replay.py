"""A replay of a simple plant, batch by batch, in a general-purpose simulation library.

It shares nothing with the program but the numbers that it reads: cake runs into a
holding, a mixer makes batches of it with chips, five or so to a vessel, loads stay for a
fixed time in their vessels and on the pad, the screen gives a fixed share of the chips
back. Nothing decays. It reads one object of JSON from standard input and writes one: for
each run the figures of each year, and the time that all runs took of the processor and by
the clock, s.

Needs SimPy 2 (Debian: python3-simpy).
"""

import datetime
import json
import math
import random
import sys
import time

from SimPy.Simulation import (Process, Resource, SimEvent, Simulation, hold, passivate,
                              release, request)

FIGURES = ["fed", "mixed", "diverted", "waited", "loads", "used", "fresh", "recovered", "product", "trucks"]


class Plant:
    def __init__(self, p, production):
        self.p, self.production = p, production
        self.sim = Simulation()
        self.sim.initialize()
        self.years = []
        self.year = dict.fromkeys(FIGURES, 0.0)
        self.held, self.rate, self.synced = 0.0, 0.0, 0.0  # kg dry, kg/d, d
        self.fresh, self.recovered, self.ordered = p["order_up_to"], 0.0, 0.0  # m3
        self.empty = p["vessels"]
        self.screen = Resource(1, sim=self.sim)
        self.mixer = Mixer(self)
        days = Days(sim=self.sim)
        self.sim.activate(days, days.run(self))
        self.sim.activate(self.mixer, self.mixer.run())

    def run(self):
        self.sim.simulate(until=len(self.production) + 1e-6)
        return self.years

    def sync(self):
        """Brings the holding up to now: what does not fit is diverted."""
        now = self.sim.now()
        span = now - self.synced
        if span <= 0:
            return
        room = self.p["holding"] - self.held
        arrived = self.rate * span
        kept = min(arrived, room)
        filling = span * kept / arrived if arrived > 0 else span
        self.year["fed"] += arrived
        self.year["diverted"] += arrived - kept
        self.year["waited"] += (self.held + kept / 2) * filling + (self.held + kept) * (span - filling)
        self.held += kept
        self.synced = now

    def order(self):
        position = self.fresh + self.ordered
        if position > self.p["reorder"]:
            return
        trucks = math.floor((self.p["order_up_to"] - position) / self.p["truckload"])
        self.ordered += trucks * self.p["truckload"]
        delivery = Delivery(sim=self.sim)
        self.sim.activate(delivery, delivery.run(self, trucks))


class Days(Process):
    def run(self, plant):
        date = datetime.date(*plant.p["begin"])
        for production in plant.production:
            plant.rate = production
            plant.order()
            plant.mixer.look()
            yield hold, self, 1
            plant.sync()
            date += datetime.timedelta(days=1)
            if date.month == 1 and date.day == 1:
                plant.years.append(plant.year)
                plant.year = dict.fromkeys(FIGURES, 0.0)


class Delivery(Process):
    def run(self, plant, trucks):
        yield hold, self, plant.p["lead"]
        volume = trucks * plant.p["truckload"]
        plant.ordered -= volume
        plant.fresh += volume
        plant.year["trucks"] += trucks
        plant.mixer.look()


class Alarm(Process):
    def run(self, mixer, after):
        yield hold, self, after
        mixer.look()


class Mixer(Process):
    """Makes one load after the other, as cake, chips and vessels allow."""

    def __init__(self, plant):
        Process.__init__(self, sim=plant.sim)
        self.plant, self.idle, self.alarm = plant, False, None

    def look(self):
        """Lets the mixer see whether it can go on."""
        if self.idle:
            self.idle = False
            self.sim.reactivate(self)

    def wait(self):
        """Sets an alarm for when there will be cake, at the rate of today."""
        plant, p = self.plant, self.plant.p
        if self.alarm is not None:
            self.cancel(self.alarm)
            self.alarm = None
        if plant.rate > 0 and plant.held < p["batch_cake"]:
            after = (p["batch_cake"] - plant.held) / plant.rate + 1e-9
            if after < 1:
                self.alarm = Alarm(sim=self.sim)
                self.sim.activate(self.alarm, self.alarm.run(self, after))
        self.idle = True

    def run(self):
        plant, p = self.plant, self.plant.p
        while True:
            began, batches = None, 0
            while batches < p["batches"]:
                plant.sync()
                chips = plant.fresh + plant.recovered
                if batches == 0 and plant.empty == 0 or plant.held < p["batch_cake"] or chips < p["batch_chips"]:
                    self.wait()
                    yield passivate, self
                    continue
                if batches == 0:
                    plant.empty -= 1
                    share = min(1, plant.recovered / (p["batches"] * p["batch_chips"]))  # of the load
                reused = min(share * p["batch_chips"], plant.recovered)
                plant.recovered -= reused
                plant.fresh -= p["batch_chips"] - reused
                plant.held -= p["batch_cake"]
                plant.year["mixed"] += p["batch_cake"]
                plant.year["used"] += p["batch_chips"]
                plant.year["fresh"] += p["batch_chips"] - reused
                plant.order()
                yield hold, self, p["batch_time"]
                batches += 1
            plant.year["loads"] += 1
            load = Load(sim=self.sim)
            self.sim.activate(load, load.run(plant))


class Turnaround(Process):
    def run(self, plant):
        yield hold, self, plant.p["turnaround"]
        plant.empty += 1
        plant.mixer.look()


class Load(Process):
    def run(self, plant):
        p = plant.p
        yield hold, self, p["residence"]
        turnaround = Turnaround(sim=self.sim)
        self.sim.activate(turnaround, turnaround.run(plant))
        yield hold, self, p["curing"]
        yield request, self, plant.screen
        yield hold, self, p["screening"]
        yield release, self, plant.screen
        chips = p["batches"] * p["batch_chips"]
        plant.recovered += chips * p["recovery"]
        plant.year["recovered"] += chips * p["recovery"]
        plant.year["product"] += p["batches"] * p["batch_cake"] + chips * (1 - p["recovery"]) * p["chip_density"]
        plant.mixer.look()


def produced(p, rng):
    """The production of each day of a run, kg dry: growth, the week, and noise that
    remembers, lognormal with a mean of 1."""
    start, date = datetime.date(*p["start"]), datetime.date(*p["begin"])
    end = datetime.date(start.year + p["years"], 1, 1)
    week = p["weekday"]  # Monday first
    usual = p["base"] * math.log1p(p["growth"]) / p["growth"] / (sum(week) / 7)  # in the first year's mean base
    variance = math.log1p(p["cv"] ** 2)
    memory = math.log1p(p["correlation"] * p["cv"] ** 2) / variance
    z, days = rng.gauss(0, 1), []
    while date < end:
        noise = math.exp(math.sqrt(variance) * z - variance / 2)
        z = memory * z + math.sqrt(1 - memory ** 2) * rng.gauss(0, 1)
        growth = (1 + p["growth"]) ** max(0, ((date - start).days + 0.5) / 365.25)
        days.append(usual * growth * week[date.weekday()] * noise)
        date += datetime.timedelta(days=1)
    return days


def main():
    p = json.load(sys.stdin)
    given = p.get("production")
    runs = []
    began, clock = time.process_time(), time.perf_counter()
    for run in range(p["runs"]):
        days = given if given else produced(p, random.Random(1000 + run))
        runs.append(Plant(p, days).run()[p["warm_up"]:])
    json.dump({"runs": runs, "seconds": time.process_time() - began,
               "elapsed": time.perf_counter() - clock}, sys.stdout)


if __name__ == "__main__":
    main()
