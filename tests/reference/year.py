"""A device stepped through a year: twelve months, each with a panel and a store of its own.

A month takes over the voltage at which the one before left the store, and what the device is
about; its clock runs on and knows no summer time. By the definitions of the model note alone.
"""

from calendar import monthrange
from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from explorer.scenario import parts
from explorer.scenario.data_sheet import current_scale
from tests.reference import habit
from tests.reference.device import DAY_S, Device, _joined
from tests.reference.march import March, Totals
from tests.reference.sky import STEP_S

HOUR_S = 3600.0
MOST_YEARS = 4
SAME = 1e-3
"""Share of the band between cut-off and full within which two years begin alike."""
COARSE = (10, 3)
"""Parts in which the level of the best balance is looked for, and how often once more: a month
of daylight has a thousand levels of light."""
HARDEST = 12
"""Dark stretches that are followed, those that begin with the least for their length."""
FARTHEST = 20.0


class OneMonth(Device):
    """A design at the mean temperature of a month, in its light."""

    def __init__(self, scenario, steps, length_s, week_offset_s, celsius):
        warm = round(celsius * 2.0) / 2.0
        light = scenario.light.model_copy(update={"ambient_C": warm})
        self._steps, self._length_s, self._offset_s = steps, length_s, week_offset_s
        super().__init__(scenario.model_copy(update={"light": light}))
        self.celsius = warm

    def _light(self, scenario, log):
        return _joined(self._steps), self._length_s, self._offset_s


@dataclass
class Seen:
    """One month of a marched year."""

    begin_v: float
    totals: Totals
    wanted: list
    moments: list
    at_v: list
    """Store voltage at each moment."""
    at_on: list
    """Whether the device was connected then."""
    off_at: list
    """Moments of cut-offs, since the month began."""


class YearMarch(March):
    """A march through months, which begin at 0 each."""

    def __init__(self, months, month, y, *, begin_s=0.0, connected=False, most=inf):
        self.months, self.month = months, month
        super().__init__(months[month], y, connected=connected, begin_s=begin_s, most=most)
        self.passed_s = -begin_s
        """Since the march began, when the present month began."""

    def next_month(self):
        """The end of a month is the beginning of the next: the same voltage, another store."""
        volts, gone = self.store.volts(self.y), self.device.period_s
        self.month = (self.month + 1) % len(self.months)
        self.device = device = self.months[self.month]
        self.store, self.ohm = device.store, device.store.ohm
        self.sources, self.levels = {}, {}
        self.y = self.store.state(volts)
        self.full_y = self.store.state(device.full_v)
        self.resume_y = self.store.state(device.resume_v)
        self.t -= gone
        self.passed_s += gone
        self.phase_ends -= gone
        self.retry_at -= gone
        self.due = [due - gone for due in self.due]
        self.busy = [None if b is None else (b[0], b[1] - gone) for b in self.busy]
        for name in ("first_connect_s", "first_started_s", "first_done_s"):
            setattr(self, name, getattr(self, name) - gone)

    def through(self, moments=(), stop=None, until_s=None):
        """To the end of the present month; what was seen in it."""
        device = self.device
        begin, begin_v = self.t, self.store.volts(self.y)
        end = device.period_s if until_s is None else min(device.period_s, until_s)
        n = len(device.jobs)
        self.totals = Totals(served=[0] * n, begun=[0] * n)
        self.events, self.rows, self.legs = [], [], 0
        self.moments, self.next_moment = [m for m in moments if begin <= m < end], 0
        if not self.to(end, stop=stop):
            raise habit.TooLong
        wanted = habit.wanted_runs(device, begin, end - begin)
        rows = self.rows
        return Seen(
            begin_v, self.totals, wanted, self.moments, [r.store_v for r in rows],
            [r.connected for r in rows], [t for t, kind in self.events if kind == "cut_off"],
        )


def months_of(scenario, year):
    """The year's months as devices.

    Parameters
    ----------
    year : Year
        Light and temperature, a quarter hour each.
    """
    light, panels, pattern = scenario.light, scenario.panels, scenario.light.pattern
    total = year.day_lx + year.lamps_lx
    scale = 1.0
    if light.illuminance_lx is not None:
        lit = total[total >= 1.0]
        scale = light.illuminance_lx / lit.mean() if lit.size else 0.0
    open_air = pattern.place.kind == "outdoors" and pattern.place.glass == "no_glass"
    per_lux = [
        parts.photocurrent_per_lux(source, panels.technology) * float(current_scale(panels))
        for source in ("daylight_open" if open_air else "daylight_glass", light.source)
    ]
    warmth = 1.0 + parts.cell(panels.technology).current_temperature_per_k * (year.celsius - 25.0)
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series * panels.count
    factor = light.orientation_factor * light.cover_factor * light.soiling_factor
    amps = scale * (per_lux[0] * year.day_lx + per_lux[1] * year.lamps_lx)
    amps = amps * area * factor * warmth
    out, first, day = [], 0, 0
    for number in range(12):
        days = monthrange(year.begin.year, number + 1)[1]
        after = first + round(days * DAY_S / STEP_S)
        own = amps[first:after].tolist()
        steps = [(k * STEP_S, (k + 1) * STEP_S, a) for k, a in enumerate(own)]
        weekday = (year.begin.weekday() + day) % 7
        out.append(OneMonth(
            scenario, steps, len(own) * STEP_S, weekday * DAY_S,
            float(np.mean(year.celsius[first:after])),
        ))
        first, day = after, day + days
    return out


class RightYear:
    """What is right of a year, under the product's names."""

    def __init__(self, scenario, year, most=60_000):
        self.scenario, self.most = scenario, most
        self.months = months_of(scenario, year)
        self.begins = np.concatenate([[0.0], np.cumsum([m.period_s for m in self.months])])
        month, day = (int(x) for x in scenario.light.pattern.hung_up.split("-"))
        self.hung_month, self.hung_s = month - 1, (day - 0.5) * DAY_S
        self.gaps = self._dark_stretches()
        self.answers, self.margins, self.course = {}, {}, None
        self._first_charge()
        self._balance()
        self.margins["ratings"] = min(self._rated(k) for k in range(12))
        longest = max(self.gaps, key=lambda gap: gap[1], default=None)
        self.answers["longest_dark_s"] = longest[1] if longest else 0.0
        self.answers["longest_dark_begins_day"] = longest[0] // DAY_S + 1.0 if longest else 0.0
        if isfinite(self.answers["first_charge_s"]):
            self._course()

    def _dark_stretches(self):
        """Begin within the year and length of every stretch that brings nothing to the store."""
        edges, bring = [], []
        for begin, device in zip(self.begins, self.months, strict=False):
            for at, end, amps in device.steps:
                edges.append((begin + at, begin + end))
                bring.append(amps > 0.0 and habit._brings(device, amps))
        if all(bring):
            return []
        if not any(bring):
            return [(0.0, inf)]
        n, i, out = len(bring), bring.index(True), []
        last = i + n
        while i < last:
            if bring[i % n]:
                i += 1
                continue
            begin, length = edges[i % n][0], 0.0
            while i < last and not bring[i % n]:
                length += edges[i % n][1] - edges[i % n][0]
                i += 1
            out.append((begin, length))
        return out

    def _hung_up(self, y, connected=False):
        return YearMarch(
            self.months, self.hung_month, y, begin_s=self.hung_s, connected=connected,
            most=self.most,
        )

    def _first_charge(self):
        """From the first light after the hanging-up to the end of the first start-up."""
        device = self.months[self.hung_month]
        march = self._hung_up(device.store.floor)
        started = connect = inf
        for _ in range(13):
            march.through(stop=lambda m: m.first_started_s < inf)
            connect = min(connect, march.first_connect_s + march.passed_s)
            started = march.first_started_s + march.passed_s
            if started < inf:
                break
            march.next_month()
            if march.passed_s > self.begins[-1]:
                break
        light = self._first_light()
        self.answers["first_connect_s"] = max(connect - light, 0.0)
        self.answers["first_charge_s"] = max(started - light, 0.0)
        allowed = self.scenario.margins.start_within_h * HOUR_S
        self.margins["starts"] = allowed / max(started - light, 1e-9)

    def _first_light(self):
        """Since the hanging-up. [s]"""
        passed = -self.hung_s
        for k in range(14):
            device = self.months[(self.hung_month + k) % 12]
            for at, end, amps in device.steps:
                if amps > 0.0 and passed + end > 0.0:
                    return max(passed + at, 0.0)
            passed += device.period_s
        return 0.0

    def _balance(self):
        """Least, over months in a row, of brought over taken less what a full store gives."""
        rows = [_powers(device) for device in self.months]
        spans, least = np.diff(self.begins), inf
        for count in range(1, 13):
            for first in range(12 if count < 12 else 1):
                some = [(first + k) % 12 for k in range(count)]
                span = sum(spans[m] for m in some)
                gives = _usable_j(self.months[first]) / span if count < 12 else 0.0
                brought = sum(rows[m][0] * spans[m] for m in some) / span
                needed = sum(rows[m][1] * spans[m] for m in some) / span - gives
                if needed > 0.0:
                    least = min(least, brought / needed)
        self.by_month_balance = [b / t for b, t in rows]
        self.margins["balance"] = self.answers["balance_ratio"] = least

    def _rated(self, number):
        """Ratings of a month; the air of its coldest and warmest hours by the typed swing."""
        device = self.months[number]
        swing = self.scenario.light.pattern.months[number].swing_C
        store = self.scenario.store
        found = habit.ratings(device)
        if store.kind == "cell":
            cold, warm = device.celsius - swing, device.celsius + swing
            return found if store.charge_above_C < cold and warm <= store.charge_below_C else 0.0
        return found if device.celsius + swing <= store.rated_C else 0.0

    def _course(self):
        """A year from the hanging-up, then years until two are alike; every month that was seen."""
        device = self.months[self.hung_month]
        march = self._hung_up(max(device.first_y, device.store.floor))
        self.seen = [[] for _ in self.months]
        march.through()
        march.next_month()
        while march.month != 0:
            self._month(march)
        begun = None
        for year in range(MOST_YEARS):
            now = march.store.volts(march.y), march.stage
            if begun is not None and now[1] == begun[1] and (
                abs(now[0] - begun[0]) < _alike_v(march.device, year)
            ):
                self.follow([seen[-1].begin_v for seen in self.seen])
                return
            begun = now
            for _ in self.months:
                self._month(march)

    def _month(self, march):
        number, device = march.month, march.device
        begin, length = self.begins[number], device.period_s
        hours = [HOUR_S * (k + 0.5) for k in range(int(length / HOUR_S + 1e-6))]
        dark = [at - begin for at, _ in self.gaps if 0.0 <= at - begin < length]
        self.seen[number].append(march.through(sorted({*hours, *dark})))
        march.next_month()

    def follow(self, begin_v):
        """Take for the course of the year the months that began nearest to some voltages.

        Where the years come alike within a run or the band at full, or another month began as it
        did before, one year is as right as another.
        """
        self.course = [
            min(seen, key=lambda month: abs(month.begin_v - volts))
            for seen, volts in zip(self.seen, begin_v, strict=True)
        ]
        self._of_course()

    def _of_course(self):
        course = self.course
        served = np.sum([m.totals.served for m in course], axis=0)
        wanted = np.sum([m.wanted for m in course], axis=0)
        self.answers |= {
            "lowest_store_V": min(m.totals.lowest_v for m in course),
            "highest_store_V": max(m.totals.highest_v for m in course),
            "lowest_terminal_V": min(m.totals.lowest_terminal_v for m in course),
            "cut_offs_per_week": sum(m.totals.cut_offs for m in course)
            / self.begins[-1] * 604_800.0,
        }
        shares = [min(s / w, 1.0) for s, w in zip(served, wanted, strict=True) if w > 0.0]
        if shares:
            self.answers["served_share"] = min(shares)
        self.month_shares = [
            min((min(s / w, 1.0) for s, w in zip(m.totals.served, m.wanted, strict=True) if w > 0),
                default=1.0)
            for m in course
        ]  # fmt: skip
        self._days()
        self._life()
        self._dark()

    def _hours(self):
        """Voltage and connection at the middle of every hour, month by month."""
        for month, device in zip(self.course, self.months, strict=True):
            at = {m: k for k, m in enumerate(month.moments)}
            some = [
                at[HOUR_S * (k + 0.5)] for k in range(int(device.period_s / HOUR_S + 1e-6))
            ]
            yield [month.at_v[k] for k in some], [month.at_on[k] for k in some], device

    def _days(self):
        """Days with an hour's middle off or a cut-off; the longest stretch without one."""
        on = np.concatenate([hours_on for _, hours_on, _ in self._hours()])
        days = len(on) // 24
        works = on[: days * 24].reshape(days, 24).all(axis=1)
        for begin, month in zip(self.begins, self.course, strict=False):
            for t in month.off_at:
                works[min(int((begin + t) // DAY_S), days - 1)] = False
        self.answers["days_off"] = float((~works).sum())
        off = np.flatnonzero(~works)
        first, last = (1, days) if not off.size else (0, 0)
        if 0 < off.size < days:
            runs = np.append(off[1:], off[0] + days) - off - 1
            k = int(np.argmax(runs))
            first, last = (off[k] + 1) % days + 1, (off[k] + runs[k]) % days + 1
        self.answers["works_from_day"], self.answers["works_to_day"] = float(first), float(last)

    def _life(self):
        """Cycles of the year, and the share of a new store's life that it takes."""
        store, cycles, hours, wear = self.scenario.store, 0.0, 0, 0.0
        for volts, _, device in self._hours():
            charge = [device.store.charge(device.store.state(v)) for v in volts]
            out = np.maximum(-np.diff(charge), 0.0).sum()
            cycles += out / device.store.charge(device.store.state(device.full_v))
            hours += len(volts)
            wear += sum(self._wears(store, device, v) for v in volts)
        if store.kind == "cell":
            wear += store.cycles_to_end**-1 * cycles * hours
        self.cycles, self.wear = cycles, wear / hours

    def _wears(self, store, device, volts):
        """Share of its life that a year at one voltage takes, cycles apart."""
        number = self.months.index(device)
        celsius = self.scenario.light.pattern.months[number].mean_C
        if store.kind == "cell":
            return store.fade_per_year * 2.0 ** ((celsius - 25.0) / 10.0) / 0.2
        held = max(volts / (store.rated_V * store.units_in_series), 0.6)
        life = (
            store.rated_life_h * 2.0 ** ((store.rated_C - celsius) / 10.0)
            * store.life_per_tenth_volt ** ((1.0 - held) * store.rated_V / 0.1)
        )  # fmt: skip
        return 8766.0 / max(life, 1.0)

    def _dark(self):
        """Least of (time it lasts) over (stretch), of stretches that begin connected."""
        tried = []
        for at, length in self.gaps:
            number = int(np.searchsorted(self.begins, at + 1e-6, side="right")) - 1
            month, device = self.course[number], self.months[number]
            k = month.moments.index(at - self.begins[number])
            if month.at_on[k]:
                store = device.store
                charge = store.charge(store.state(month.at_v[k]))
                over_c = charge - store.charge(store.state(device.off_v))
                tried.append((over_c / length, number, at - self.begins[number], length,
                              month.at_v[k]))  # fmt: skip
        self.hardest = sorted(tried)[:HARDEST]
        if self.hardest:
            self.margins["dark"] = self.hardest_with(0.0)

    def hardest_with(self, off_v):
        """The same where every level lies so many volts higher."""
        margins = []
        for _, number, at, length, volts in self.hardest:
            device = self.months[number]
            y = device.store.state(volts + off_v * max(1.0, volts))
            time, _ = habit.lasts(device, y, at, FARTHEST * length, self.most)
            margins.append(min(time, FARTHEST * length) / length)
        return min(margins)


def run_share(right):
    """Charge of two runs over that of a full store: what a clock in another place may change."""
    device = right.months[0]
    full_c = device.store.charge(device.store.state(device.full_v))
    return 2.0 * max((_run_c(device, job) for job in device.jobs), default=0.0) / full_c


def _alike_v(device, year):
    """Volts within which a year begins as the one before; a clock or a turn at full may lie
    elsewhere from the second year on."""
    band_v = device.full_v - device.off_v
    if year < 2:
        return SAME * band_v
    store, low = device.store, device.store.state(device.off_v)
    farad = (store.charge(store.state(device.full_v)) - store.charge(low)) / band_v
    run_c = max((_run_c(device, job) for job in device.jobs), default=0.0)
    return SAME * band_v + device.full_v - device.resume_v + run_c / farad


def _run_c(device, job):
    """Charge of a run at the full voltage."""
    return sum(habit.alone(device.full_v, draw, 0.0)[2] * s for draw, s in job.phases)


def _powers(device):
    """Mean powers that the light brings and that all takes, where their ratio is best."""
    ratio, volts = habit.balance(device, *COARSE)
    per_s = [n / device.period_s for n in habit.wanted_runs(device, 0.0, device.period_s)]
    idle = habit.plus((device.quiescent_a, 0.0, 0.0), device.sleep)
    taken = habit._taken(device, volts, idle, per_s)
    for begin, end, amps in device.steps:
        given = habit._given(device, volts, habit.source_of(device, amps))
        taken += max(-given, 0.0) * (end - begin) / device.period_s
    return ratio * taken * volts, taken * volts


def _usable_j(device):
    """Energy between the level at which everything can run and a full store. [J]"""
    ready = [job.ready_v for job in device.jobs if job.ready_v is not None]
    low = min(max([device.off_v, *ready]), device.full_v)
    store = device.store
    return max(store.energy(store.state(device.full_v)) - store.energy(store.state(low)), 0.0)
