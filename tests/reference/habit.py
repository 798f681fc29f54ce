"""From a march to readings: first charge, the settled course, dark stretches, pulses, ratings.

By the definitions of the model note alone, and each as plainly as it can be said.
"""

import itertools
from dataclasses import dataclass, field
from math import ceil, floor, inf

from explorer.scenario import parts
from explorer.scenario.data_sheet import current_scale
from tests.reference.circuit import ConverterSource, DiodeSource, alone
from tests.reference.device import FULL_SUN_LX, WEEK_S, leakage_when_charged, plus
from tests.reference.march import March, Totals

MOST_PERIODS = 8
"""Periods that a course may take to repeat."""
SETTLED_V = 2e-5
FARTHEST = 20.0
LONGEST_S = 40 * 365.25 * 86_400.0
"""How long a store is followed in the dark."""


class TooLong(Exception):
    """More happens than is worth following step by step."""


class NeverSettles(TooLong):
    """A course that does not repeat."""


@dataclass
class First:
    """Times from the first light on an empty store; infinite for never."""

    connect_s: float = inf
    started_s: float = inf
    done_s: float = inf
    full_s: float = inf
    connects: int = 0
    march: March | None = None
    """Where it stands after the start-up."""


@dataclass
class Course:
    """What the store does once its habit has settled."""

    periods: int
    """After how many periods it repeats."""
    span_s: float
    totals: Totals
    wanted: list
    begin: dict = field(default_factory=dict)
    """Store voltage at the beginning of each dark stretch that the device begins connected."""


def first_light_s(device):
    return next((begin for begin, _, amps in device.steps if amps > 0.0), 0.0)


def first_charge(device, allowed_s, most):
    """Follow an empty store from the first light until an operation is done."""
    begin = first_light_s(device)
    march = March(device, device.store.floor, begin_s=begin, most=most)
    first = First()
    limit = begin + max(4.0 * allowed_s, 2.0 * device.period_s)
    last_y = march.y
    while march.t < limit:  # in whole periods of the light
        if not march.to(march.t + device.period_s, stop=lambda m: m.first_started_s < inf):
            raise TooLong
        if march.first_started_s < inf:
            break
        if abs(march.y - last_y) < 1e-9 and march.totals.connects == 0:
            break  # it stays where it is, for ever
        last_y = march.y
    first.connects = march.totals.connects
    first.connect_s = march.first_connect_s - begin
    first.started_s = march.first_started_s - begin
    first.march = march
    return first


def full_charge_s(device, most):
    """From empty to full with the device off."""
    begin = first_light_s(device)
    march = March(device, device.store.floor, begin_s=begin, most=most, loaded=False)
    for turn in range(1, 61):
        was = march.y
        if not march.to(begin + turn * device.period_s, stop=lambda m: m.first_full_s < inf):
            raise TooLong
        if march.first_full_s < inf:
            return march.first_full_s - begin
        if abs(march.y - was) < 1e-9:
            return inf
    raise TooLong


def settle(device, march, most, moments=()):
    """March on until the course repeats; then once more through all of its periods.

    A slow drift is sped along: three periods that approach a level geometrically tell the level
    (Aitken). It is only a guess, and the periods that follow must confirm it.
    """
    period = device.period_s
    turn = ceil(march.t / period - 1e-12)
    if not march.to(turn * period):
        raise TooLong
    seen = [_standing(march)]
    for k in range(60):
        turn += 1
        march.legs = 0
        if not march.to(turn * period):
            raise TooLong
        seen.append(_standing(march))
        found = _repeats(seen)
        if found:
            return _followed(device, march, found, most, moments)
        if k % 4 == 3:
            guess = _level_ahead(seen)
            if guess is not None:
                march.y = min(max(guess, device.store.floor), march.full_y)
                seen = [_standing(march)]
    raise NeverSettles


def _standing(march):
    """Level, and what else the next period depends on; the clock in hundredths of a second."""
    due = tuple(round(due - march.t, 2) for due in march.due if due < inf)
    return march.y, march.stage, march.charging, due, round(max(march.retry_at - march.t, 0.0), 2)


def _repeats(seen):
    """The least number of periods after which the standing comes back, or 0."""
    for k in range(1, MOST_PERIODS + 1):
        if len(seen) < 2 * k + 1:
            return 0
        pairs = [(seen[-1 - i], seen[-1 - i - k]) for i in range(k)]
        if all(abs(a[0] - b[0]) < SETTLED_V and a[1:] == b[1:] for a, b in pairs):
            return k
    return 0


def _level_ahead(seen):
    (a, *x), (b, *y), (c, *z) = seen[-3:]
    if not (x == y == z) or b == a:
        return None
    ratio = (c - b) / (b - a)
    return c + (c - b) * ratio / (1.0 - ratio) if 0.0 < ratio < 0.999 else None


def _followed(device, march, periods, most, moments):
    """Once more through the course, counted from nothing."""
    begin = march.t
    march.totals = Totals(served=[0] * len(device.jobs), begun=[0] * len(device.jobs))
    march.rows, march.next_moment, march.legs = [], 0, 0
    span = periods * device.period_s
    stops = [begin + k * device.period_s + m for k in range(periods) for m in moments]
    march.moments = stops
    march.events = []
    if not march.to(begin + span):
        raise TooLong
    levels = {}
    for row, stop in zip(march.rows, stops, strict=False):
        if row.connected:
            levels.setdefault(stop - begin, row.store_v)
    return Course(periods, span, march.totals, wanted_runs(device, begin, span), levels)


def wanted_runs(device, begin_s, span_s):
    out = []
    for job in device.jobs:
        if job.ready_v is not None:
            out.append(job.wanted_per_s * span_s)
        elif job.always:
            out.append(span_s / job.interval_s)
        else:
            # Weeks differ where the interval does not fit the windows.
            times = 8 if span_s % WEEK_S < 1.0 else 1
            out.append(_begun(device, job, begin_s, times * span_s) / times)
    return out


def _begun(device, job, begin_s, span_s):
    """Runs that begin in a span, one by one: as soon as one is due and a window is open."""
    count, at = 0, -inf
    for opens, closes in _open(device, job, begin_s, span_s):
        at = max(at, opens)
        while at < closes - 1e-9 * job.interval_s:
            count, at = count + 1, at + job.interval_s
    return count


def _open(device, job, begin_s, span_s):
    """Windows that lie in a span, cut where it begins and ends."""
    absolute = begin_s + device.week_offset_s
    week = floor(absolute / WEEK_S) * WEEK_S
    while week < absolute + span_s:
        for opens, closes in job.windows:
            cut = max(week + opens, absolute), min(week + closes, absolute + span_s)
            if cut[1] > cut[0]:
                yield cut
        week += WEEK_S


# ---- balance -------------------------------------------------------------------------------


def source_of(device, light_a):
    kind = DiodeSource if device.charger.kind == "direct" else ConverterSource
    return kind(device, light_a)


def balance(device, points=160, rounds=0):
    """Largest ratio of what the light brings to what everything takes, and its level.

    `points` parts of the band are tried, then in each round the parts beside the best once more.

    The store is held at a level between the cut-off (or the level an operation waits for) and
    full; what it gives there and takes there is averaged over a period.
    """
    ready = [job.ready_v for job in device.jobs if job.ready_v is not None]
    low = min(max([device.off_v, *ready]), device.full_v)
    idle = plus((device.quiescent_a, 0.0, 0.0), device.sleep)
    sources = {amps: source_of(device, amps) for _, _, amps in device.steps}
    per_s = [n / device.period_s for n in wanted_runs(device, 0.0, device.period_s)]

    def ratio(v):
        taken, brought = _taken(device, v, idle, per_s), 0.0
        for begin, end, amps in device.steps:
            given = _given(device, v, sources[amps]) * (end - begin) / device.period_s
            brought += max(given, 0.0)
            taken += max(-given, 0.0)  # what leaks back through the blocking diode
        return brought / taken if taken > 0.0 else inf

    levels = [low + (device.full_v - low) * i / points for i in range(points + 1)]
    if low < device.cold_v < device.full_v:
        levels.append(device.cold_v)  # just there the warm charger begins
    found = {v: ratio(v) for v in levels}
    for _ in range(rounds):
        levels = sorted(found)
        k = levels.index(max(found, key=found.get))
        for a, b in itertools.pairwise(levels[max(k - 1, 0) : k + 2]):
            found |= {v: ratio(v) for v in (a + (b - a) / 3.0, a + (b - a) / 1.5)}
    return max((r, v) for v, r in found.items())


def _given(device, v, source):
    """What the light brings into a held store while nothing is drawn."""
    store, nothing = device.store, (0.0, 0.0, 0.0)
    return source.terminals(v, nothing, store.ohm, store.charge_limit_a, v < device.cold_v)[1]


def _taken(device, v, idle, per_s):
    """Mean current of everything wanted at a store voltage, without light."""
    ohm = device.store.ohm
    asleep = alone(v, idle, ohm)[2]
    total = asleep + device.store.leak(device.store.state(v))
    for job, rate in zip(device.jobs, per_s, strict=True):
        for draw, seconds in job.phases:
            vt, _, amps = alone(v, plus(idle, draw), ohm)
            if vt is None:  # it collapses: what it asks for at half the voltage
                i, p, g = plus(idle, draw)
                amps = i + p / max(0.5 * v, 1e-3) + g * 0.5 * v
            total += rate * seconds * (amps - asleep)
    return total


# ---- dark ----------------------------------------------------------------------------------


def dark_stretches(device):
    """(begin, length) of every stretch whose light brings nothing to the store.

    Light that always suffices has none; light that never does is one without an end.
    """
    bring = [amps > 0.0 and _brings(device, amps) for _, _, amps in device.steps]
    if all(bring):
        return []
    if not any(bring):
        return [(0.0, inf)]
    n, out = len(bring), []
    first = bring.index(True)
    i = first
    while i < first + n:
        if bring[i % n]:
            i += 1
            continue
        begin, length = device.steps[i % n][0], 0.0
        while i < first + n and not bring[i % n]:
            length += device.steps[i % n][1] - device.steps[i % n][0]
            i += 1
        out.append((begin, length))
    return out


def _brings(device, amps, v=None):
    """Whether a light level brings anything to a store, at its connect level if none is given."""
    source = source_of(device, amps)
    v = min(device.connect_v, device.full_v) if v is None else v
    return source.current(v, device.store.charge_limit_a, v < device.cold_v) > 0.0


def lasts(device, y, begin_s, limit_s, most, charging=True):
    """Time without any light until the device is cut off or down to its reserve, and the march.

    The reserve lies above the charge at which the device is cut off. A charger that has stopped at
    full is apart from the store until it resumes; a blocking diode leaks back else.
    """

    def march():
        return March(
            device, y, connected=True, charging=charging, begin_s=begin_s, dark=True, most=most
        )

    found = march()
    # What is cut off after the limit may be down to its reserve before.
    followed_s = LONGEST_S if device.reserve_j > 0.0 else limit_s
    if not found.to(begin_s + followed_s, stop=lambda m: m.totals.cut_offs > 0):
        raise TooLong
    if not found.totals.cut_offs:
        return limit_s, found
    if device.reserve_j > 0.0:
        joule = device.store.energy(found.y) + device.reserve_j
        found = march()
        found.watched_y = _state_of_energy(device, joule)
        found.to(begin_s + limit_s, stop=lambda m: m.y <= m.watched_y)
    return found.t - begin_s, found


def _state_of_energy(device, joule):
    low, high = device.store.floor, device.store.state(1.5 * device.full_v)
    for _ in range(100):
        middle = 0.5 * (low + high)
        if device.store.energy(middle) < joule:
            low = middle
        else:
            high = middle
    return high


# ---- pulses --------------------------------------------------------------------------------


def deepest(device, begin_vs):
    """Least of (drop available over drop taken), with the lowest terminal voltage of that run.

    Every operation runs once from its voltage without light, the start-up from the connect voltage
    after the inrush.
    """
    found = []
    idle = plus((device.quiescent_a, 0.0, 0.0), device.sleep)
    for begin_v, job in zip(begin_vs, device.jobs, strict=True):
        found.append(_run_down(device, begin_v, 0.0, [(plus(idle, d), s) for d, s in job.phases]))
    own = (device.quiescent_a, 0.0, 0.0)
    inrush = device.bulk_f * min(device.connect_v, device.bulk_top_v)
    if device.start_up or inrush > 0.0:
        found.append(_run_down(
            device, device.connect_v, inrush, [(plus(own, d), s) for d, s in device.start_up]
        ))
    return found


def _run_down(device, begin_v, taken_c, phases):
    """(begin, lowest terminal voltage) of a run of phases in the dark."""
    store = device.store
    y = store.state(min(begin_v, store.volts(store.top) if store.is_cell else begin_v))
    begin_v = store.volts(y)
    y = store.without(y, min(taken_c, store.charge(y)))
    lowest = begin_v if not phases else inf
    for draw, seconds in phases:
        steps = 400
        for k in range(steps + 1):
            vt, _, amps = alone(store.volts(y), draw, store.ohm)
            if vt is None or (y <= store.floor and amps > 0.0):
                return begin_v, 0.0
            lowest = min(lowest, vt)
            if k < steps:
                y = store.without(y, amps * seconds / steps)
    return begin_v, lowest


# ---- ratings -------------------------------------------------------------------------------


def largest_share(units, spread):
    weak = 1.0 / (1.0 - spread)
    return weak / (weak + (units - 1) / (1.0 + spread))


def worst_unit_v(scenario):
    """Volts on the worst unit of a full bank, right after a quick charge and after standing."""
    store = scenario.store
    full, n = max(scenario.charger.full_V, store.initial_V), store.units_in_series
    balancing = getattr(store, "balancing", "none")
    if balancing == "active" or n == 1:
        return full / n, full / n
    by_charge = full * largest_share(n, store.tolerance)
    leak = leakage_when_charged(store)
    bleed = store.balancing_A if balancing == "resistors" else 0.0
    if leak + bleed <= 0.0:
        return by_charge, by_charge
    return by_charge, full * largest_share(n, 0.5 * leak / (leak + bleed))


def sun_current(device):
    """Largest current that full sun drives into the store at any of its voltages.

    The sun's own spectrum on a clean panel without cover, which without a data sheet may be the
    best one on sale.
    """
    scenario = device.scenario
    panels = scenario.panels
    per_lux = parts.photocurrent_per_lux("daylight_open", panels.technology)
    warmth = 1.0 + parts.cell(panels.technology).current_temperature_per_k * (
        scenario.light.ambient_C - 25.0
    )
    lux = scenario.margins.full_sun_lx
    amps = lux * per_lux * panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    amps *= panels.count * warmth * float(current_scale(panels))
    if not panels.data_sheet:
        amps *= parts.sold_share(panels.technology, FULL_SUN_LX)[1]
    source = source_of(device, amps)
    low, high = device.store.volts(device.store.floor), device.full_v
    levels = [low + (high - low) * i / 400.0 for i in range(401)]
    if low < device.cold_v < high:
        levels.append(device.cold_v)
    return max(source.current(v, inf, v < device.cold_v) for v in levels)


def ratings(device):
    """Least of rated over seen of the store."""
    scenario, store = device.scenario, device.scenario.store
    celsius = scenario.light.ambient_C
    if store.kind != "cell":
        seen = max(worst_unit_v(scenario))
        return store.rated_V / seen if celsius <= store.rated_C else 0.0
    if not store.charge_above_C < celsius <= store.charge_below_C:
        return 0.0
    table = parts.chemistry(store.chemistry)
    allowed = device.store.charge_limit_a or store.charge_limit_A
    draws = [device.sleep, *(d for d, _ in device.start_up)]
    draws += [plus(device.sleep, d) for job in device.jobs for d, _ in job.phases]
    largest = max(
        i + p / v + g * v for i, p, g in draws for v in (device.off_v, scenario.charger.full_V)
    )
    return min(
        table.maximum_v * store.cells_in_series / scenario.charger.full_V,
        allowed / max(sun_current(device), 1e-12),
        store.discharge_limit_A / (largest + device.quiescent_a),
    )
