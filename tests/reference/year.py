"""A year of two rooms with a divider, by scipy alone: what the engine is compared with, and timed against.

    python3 year.py two_rooms_year.json weather/desert_tmy_year_simulation.csv.gz [--hours N]

Prints JSON: "results" (as kept in two_rooms_year.json) and "seconds", the time it took, reading and printing left out.
Outdoor air and sun are constant through each hour.  Between switchings the state

    z = [air, mass, air, mass, heat of each unit, 1]

obeys z' = A z, so z(t + s) = expm(A s) z(t) is exact.  A thermostat is looked at every minute, and the moment it is met is
found with brentq on the four temperatures, advanced by the eigenvectors of their matrix.  Needs numpy and scipy.
"""
import argparse
import csv
import gzip
import json
import time

import numpy as np
from scipy.linalg import expm
from scipy.optimize import brentq

LOOK = 60.0
HOUR = 3600.0


class Unit:
    """An exchanger that always runs, or a unit with a thermostat."""

    def __init__(self, spec):
        self.spec = spec
        self.room = spec["room"]
        self.on = spec["kind"] == "exchanger"
        self.ready = 0.0                 # may start from here on, s
        self.starts = int(self.on)
        self.seconds = 0.0

    def met(self, air, now):
        """How far the air is past the limit at which it switches, K: negative while it is not."""
        s = self.spec
        if s["kind"] == "exchanger":
            return -1.0
        sign = 1.0 if s["kind"] == "conditioner" else -1.0
        if self.on:
            return sign * (s["off"] - air)
        return sign * (air - s["on"]) if now >= self.ready - 1e-9 else -1.0

    def switch(self, now):
        self.on = not self.on
        if self.on:
            self.starts += 1
        else:
            self.ready = now + self.spec["least_off"]


def matrix(p, units, outside, sun, air):
    n = 5 + len(units)
    one = n - 1
    a = np.zeros((n, n))
    for r, room in enumerate(p["rooms"]):
        i, m = 2 * r, 2 * r + 1
        share = p["sun_to_air"]
        a[i, i] -= room["skin"] + room["exchange"] + p["divider"]
        a[i, m] += room["exchange"]
        a[i, 2 * (1 - r)] += p["divider"]
        a[i, one] += room["skin"] * outside + room["heat"] + share * room["sun"] * sun
        a[m, i] += room["exchange"]
        a[m, m] -= room["exchange"]
        a[m, one] += (1.0 - share) * room["sun"] * sun
    for k, unit in enumerate(units):
        s, i = unit.spec, 2 * unit.room
        if not unit.on:
            continue
        if s["kind"] == "exchanger":
            if air[unit.room] > outside:
                a[4 + k, i] += s["conductance"]
                a[4 + k, one] -= s["conductance"] * outside
        elif s["kind"] == "conditioner":
            a[4 + k, one] += s["heat"] * (1.0 + s["share_per_kelvin"] * (outside - s["reference"]))
        else:
            a[4 + k, one] += s["heat"]
        a[i] += a[4 + k] * (1.0 if s["kind"] == "heater" else -1.0)
    for r, room in enumerate(p["rooms"]):
        a[2 * r] /= room["air_capacity"]
        a[2 * r + 1] /= room["mass_capacity"]
    return a


def advance(a):
    """z, s -> air, mass, air, mass after s: T = T* + V exp(L s) V^-1 (T0 - T*)."""
    rest = -np.linalg.solve(a[:4, :4], a[:4, -1])
    rates, vectors = np.linalg.eig(a[:4, :4])
    inverse = np.linalg.inv(vectors)
    return lambda z, s: rest + (vectors * np.exp(rates * s)) @ (inverse @ (z[:4] - rest))


def year(p, outside, sun):
    units = [Unit(s) for s in p["units"]]
    z = np.zeros(5 + len(units))
    z[:4] = p["start"]
    z[-1] = 1.0
    ends = np.empty((len(outside), 2))
    highest, lowest = z[[0, 2]], z[[0, 2]]
    for unit in units:
        if unit.spec["kind"] != "exchanger" and unit.met(z[2 * unit.room], 0.0) >= 0.0:
            unit.switch(0.0)
    for k, (to, s) in enumerate(zip(outside, sun)):
        cache = {}
        t = 0.0
        while t < HOUR - 1e-9:
            now = k * HOUR + t
            warm = tuple(bool(z[2 * u.room] > to) if u.spec["kind"] == "exchanger" else False for u in units)
            key = (tuple(u.on for u in units), warm)
            if key not in cache:
                a = matrix(p, units, to, s, (z[0], z[2]))
                cache[key] = (a, expm(a * LOOK), advance(a))
            a, e, temperatures = cache[key]
            step = min(LOOK, HOUR - t)
            for u in units:                        # stop where a least off time ends
                if not u.on and now < u.ready - 1e-9:
                    step = min(step, u.ready - now)
            zn = (e if step == LOOK else expm(a * step)) @ z
            first = None
            for n, u in enumerate(units):
                i = 2 * u.room
                if u.spec["kind"] == "exchanger":
                    sign = -1.0 if warm[n] else 1.0
                    g = lambda q, i=i, sign=sign: sign * (q[i] - to)
                else:
                    g = lambda q, i=i, u=u: u.met(q[i], now)
                if g(zn) > 0.0:
                    h = lambda x, g=g: g(temperatures(z, x))
                    x = 0.0 if h(0.0) >= 0.0 else brentq(h, 0.0, step, xtol=1e-9, rtol=1e-14)
                    if first is None or x < first[0]:
                        first = (x, u)
            if first is not None:
                step = first[0]
                zn = expm(a * step) @ z
                if first[1].spec["kind"] == "exchanger":
                    step += 1e-9                   # past the kink
                    zn = expm(a * step) @ z
            for u in units:
                u.seconds += step if u.on else 0.0
            z = zn
            t += step
            air = z[[0, 2]]
            highest, lowest = np.maximum(highest, air), np.minimum(lowest, air)
            if first is not None and first[1].spec["kind"] != "exchanger":
                first[1].switch(k * HOUR + t)
            for u in units:                        # its least off time has ended, and it is called for
                due = not u.on and u.spec["kind"] != "exchanger" and k * HOUR + t >= u.ready - 1e-9
                if due and u.met(z[2 * u.room], k * HOUR + t) >= 0.0:
                    u.switch(k * HOUR + t)
        ends[k] = z[[0, 2]]
    return dict(
        air_at_end_of_hour={str(h): list(map(float, ends[h])) for h in range(72, len(ends), 73)},
        mean_at_end_of_hour=list(map(float, ends.mean(axis=0))),
        highest=list(map(float, highest)), lowest=list(map(float, lowest)),
        units=[dict(starts=u.starts, hours=u.seconds / HOUR, heat_kwh=float(z[4 + n]) / 3.6e6)
               for n, u in enumerate(units)])


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("parameters")
    parser.add_argument("weather")
    parser.add_argument("--hours", type=int, default=8760)
    given = parser.parse_args()
    with open(given.parameters, encoding="utf-8") as file:
        cases = json.load(file)["cases"]
    with gzip.open(given.weather, "rt", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))[:given.hours]
    outside = np.array([float(row["To_c"]) for row in rows])
    sun = np.array([float(row[next(name for name in row if name.startswith("S_w:"))]) for row in rows])
    answer = []
    for case in cases:
        began = time.perf_counter()
        results = year(case["parameters"], outside, sun)
        answer.append(dict(name=case["name"], seconds=time.perf_counter() - began, results=results))
    print(json.dumps(answer))


if __name__ == "__main__":
    main()
