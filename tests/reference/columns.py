"""Rows of a trace against the reference: state at moments, lowest and means of every step."""

import numpy as np

from explorer.advice.case import Case
from explorer.engine.trace import Trace
from tests.reference import nearby
from tests.reference.device import Device
from tests.reference.march import March
from tests.reference.off import Off

ROWS = 20
MOST = 500
SLACK = 1e-4
"""Share of the time passed by which an event may come early or late: where a panel hardly reaches
the store, straight lines between nodes cost some 0.005 % of the time of a charge."""
VOLTS = 3e-4
"""Volts, and share of a voltage, by which a row may differ: straight lines between nodes again."""
NOTHING_V = 5e-3
"""Terminal voltages below this are all alike: straight lines know no better where they reach 0."""
STORE = 0.1
"""Share of what a store's voltage may be off that a step may bring more or less: where it comes
to rest, little flows."""
HAIR = 10.0
"""Times the allowed difference by which the reference parts from itself when it is nudged: from
there on the run hangs on a hair, and is not compared."""
AMPS = 1e-4
BY_DIFFERENCE = 2e-6
"""Share of all that is taken by which a harvest may be off: the reference finds it as what is left
of the store's charge, and its time to empty is good to some 2e-6."""


class Opening:
    """The opening run of a case, row by row; of a run of many events its first part."""

    def __init__(self, device, span, rows=ROWS):
        self.device = device
        step = span / rows
        moments = []
        for k in range(rows):
            loose = 1e-6 + SLACK * k * step
            moments += [k * step, k * step + loose] if k == 0 else [
                k * step - loose, k * step, k * step + loose
            ]
        moments.append(span - 1e-6 - SLACK * span)
        self.march = March(device, device.first_y, moments=moments)
        self.march.to(span)
        found = self.march.rows
        self.before = [None, *found[2:-1:3], found[-1]]
        self.now = [found[0], *found[3:-1:3]]
        self.after = [found[1], *found[4:-1:3]]
        self.span_s, self.step_s = span, step
        store = device.store
        low, high = store.state(device.off_v), store.state(device.full_v)
        self.farad = (store.charge(high) - store.charge(low)) / (device.full_v - device.off_v)


def opening_span(device, most):
    """A period, or that part of it in which not too much happens. [s]"""
    probe = March(device, device.first_y, most=most)
    return device.period_s if probe.to(device.period_s) else _between(probe)


def _between(probe):
    """A late moment of a march that is no event's neighbour."""
    for k in range(60):
        moment = (0.97 - 0.007 * k) * probe.t
        if all(abs(t - moment) > 4.0 * SLACK * moment for t, _ in probe.events):
            return moment
    return 0.5 * probe.t


def nearest(case, most=MOST):
    """What `compared` finds as given, or else `nearby`: see there."""
    found = nearby.nearest(lambda nudge: compared(case, most, nudge=nudge)[0])
    if not found.wrong:
        return found
    until = _hair(case, opening_span(Device(*case), most))
    if until == ROWS:
        return found
    return nearby.Nearest(compared(case, most, until=until)[0], nearby.ON_A_HAIR)


def _hair(case, span, rows=ROWS):
    """The row from which on the reference parts from itself when it is nudged."""
    given, *others = (
        Opening(nearby.device(case, nudge), span, rows).now
        for nudge in (nearby.GIVEN, *nearby.NUDGES)
    )
    for k, row in enumerate(given):
        allowed = HAIR * VOLTS * max(1.0, row.store_v)
        if any(abs(other[k].store_v - row.store_v) > allowed for other in others):
            return k - 1
    return rows


def compared(case, most=MOST, rows=ROWS, nudge=nearby.GIVEN, until=ROWS):
    """Every column of the opening run beside the reference, the worst row of each.

    The reference may be nudged (`nearby`), and be followed `until` a row.

    Allowed are 0.3 mV or 0.03 % of a voltage, 1e-4 of a mean current with
    a floor of 1e-5 of the largest, and what lies within `SLACK` of the row's moment. Where a store
    has turned at full more than thirty times in one light without ever coming alike, the product
    goes on with means: then its books are compared, and what happened.
    """
    given, span = Case(*case), opening_span(Device(*case), most)
    run = given.engine.march(span)
    right = Opening(nearby.device(case, nudge), span, rows)
    begins = np.array([row.time_s for row in right.now])
    ends = np.append(begins[1:], span)
    seen = Trace(given.engine, run).rows(begins, ends)
    worst = {}

    def note(name, k, saw, low, high, allowed):
        share = max(low - saw, saw - high, 0.0) / allowed
        if name not in worst or share > worst[name].share:
            worst[name] = Off(name, float(share), float(saw), float(low), float(begins[k]))

    largest = {
        name: max(
            (abs(_charge(right, k, name)[0]) for k in range(len(begins))), default=0.0
        )
        for name in ("harvest", "load")
    }
    switched = [t for t, kind in right.march.events if kind in ("connect", "cut_off")]
    for k in range(min(until, len(begins))):
        width = ends[k] - begins[k]
        if k:  # what happens at once at the beginning may count before or after
            band = (right.before[k], right.now[k])
            low, high = min(r.store_min_v for r in band), max(r.store_max_v for r in band)
            note("store_V", k, seen.store_v[k], low, high, VOLTS * max(1.0, high))
            low, high = min(r.terminal_min_v for r in band), max(r.terminal_max_v for r in band)
            note("terminal_V", k, max(seen.terminal_v[k], NOTHING_V), low, max(high, NOTHING_V),
                 VOLTS * max(1.0, high))
            note("connected", k, float(seen.connected[k]),
                 float(all(r.connected for r in band)), float(any(r.connected for r in band)), 0.5)
        inner = [right.after[k]] if right.after[k].length_s > 0.0 else [right.now[k]]
        outer = [right.before[k], right.now[k], right.after[k], *right.before[k + 1 : k + 2],
                 *right.now[k + 1 : k + 2]]
        outer = [row for row in outer if row is not None]
        for name, saw in (("terminal_min_v", seen.terminal_min_v[k]),
                          ("store_min_v", seen.store_min_v[k])):
            low, high = (
                max(min(getattr(r, name) for r in rows), NOTHING_V) for rows in (outer, inner)
            )
            note(name, k, max(saw, NOTHING_V), low, high, VOLTS * max(1.0, high))
        for name, saw in (("harvest", seen.harvest_a[k]), ("load", seen.load_a[k])):
            charge, loose = _charge(right, k, name)
            allowed = AMPS * abs(charge) + 1e-5 * largest[name] + loose + 1e-13 * width
            if any(begins[k] < t < ends[k] for t in switched):
                allowed += SLACK * ends[k] * abs(charge) / width
            if name == "harvest":
                allowed += STORE * VOLTS * max(1.0, seen.store_v[k]) * right.farad
                allowed += BY_DIFFERENCE * width * (seen.load_a[k] + seen.leakage_a[k])
            note(name + "_A", k, saw * width, charge, charge, allowed)
    gained = float(((seen.harvest_a - seen.load_a - seen.leakage_a) * (ends - begins)).sum())
    held = run.end.charge_c - given.system.initial_charge_c
    flows = np.abs(seen.harvest_a) + seen.load_a + seen.leakage_a
    moved = float((flows * (ends - begins)).sum()) + abs(held)
    note("books", 0, gained, held, held, max(1e-6 * moved, 1e-15))
    if any(leg.averages for leg in run.legs):
        worst = {name: off for name, off in worst.items() if name in ("books", "connected")}
    if until < rows:
        return worst, right
    totals, tally = right.march.totals, run.tally
    for name, saw, count in (
        ("connects", tally.connects, totals.connects),
        ("cut_offs", tally.cut_offs, totals.cut_offs),
        ("served", sum(tally.served), sum(totals.served)),
    ):
        note(name, 0, saw, count, count, max(1.01, 0.005 * count) if name == "served" else 0.5)
    return worst, right


def _charge(right, k, name):
    """Charge of a step, and what flows within the slack of its two ends."""

    def of(row):
        if row is None:
            return 0.0
        return row.harvest_c if name == "harvest" else row.load_c + row.inrush_c

    following = right.before[k + 1]
    charge = of(right.now[k]) + of(right.after[k]) + of(following)
    edges = [right.before[k], right.now[k], following, *right.now[k + 1 : k + 2]]
    return charge, sum(abs(of(row)) for row in edges)
