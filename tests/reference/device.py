"""A scenario as plain numbers, worked out from the model note and without the engine.

Only the tables of parts, the photocurrents and the fit of a data sheet are the product's own: those
are held to published values in tests/outside. Everything is SI.
"""

import itertools
from dataclasses import dataclass, field
from math import exp, expm1, inf, log

from explorer.scenario import parts
from explorer.scenario.data_sheet import current_scale, one_panel

WEEK_S = 604_800.0
DAY_S = 86_400.0
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
FULL_SUN_LX = 109_454.0
BOLTZMANN_OVER_CHARGE = 1.380649e-23 / 1.602176634e-19


def kt_over_q(celsius):
    return BOLTZMANN_OVER_CHARGE * (celsius + 273.15)


# ---- store ---------------------------------------------------------------------------------


@dataclass
class Bank:
    """Capacitors; the state y is the open-circuit voltage."""

    farad: float
    rated_v: float
    ohm: float
    leak_at_rated_a: float
    slope: float
    bend: float
    floor: float
    charge_limit_a: float = inf
    is_cell = False
    top = inf

    def volts(self, y):
        return y

    def state(self, volts):
        return max(volts, self.floor)

    def slope_c(self, y):
        """Charge per unit of y: C(v). [F]"""
        w = y / self.rated_v - 0.6
        return self.farad * (1.0 + self.slope * w - self.bend * (w * w - 0.04 / 3.0))

    def charge(self, y):
        """Charge between the floor and y: C(v) integrated (Simpson is exact for a parabola)."""
        a, b = self.floor, y
        return (b - a) / 6.0 * (
            self.slope_c(a) + 4.0 * self.slope_c(0.5 * (a + b)) + self.slope_c(b)
        )

    def energy(self, y):
        """Energy between the floor and y: v C(v) integrated; a cubic, so Simpson is exact."""
        a, b = self.floor, y
        m = 0.5 * (a + b)
        return (b - a) / 6.0 * (
            a * self.slope_c(a) + 4.0 * m * self.slope_c(m) + b * self.slope_c(b)
        )

    def leak(self, y):
        return self.leak_at_rated_a * y / self.rated_v

    def without(self, y, coulomb):
        """State after a charge was taken at once."""
        return self._at_charge(self.charge(y) - coulomb, y) if coulomb > 0.0 else y

    def _at_charge(self, coulomb, high):
        if coulomb <= 0.0:
            return self.floor
        low = self.floor
        for _ in range(200):
            middle = 0.5 * (low + high)
            if self.charge(middle) < coulomb:
                low = middle
            else:
                high = middle
            if high - low < 1e-15:
                break
        return high


@dataclass
class Cells:
    """A string of cells; the state y is the state of charge."""

    capacity_c: float
    share: list
    open_v: list
    ohm: float
    self_discharge_a: float
    charge_limit_a: float
    is_cell = True
    floor = 0.0
    top = 1.0

    def volts(self, y):
        y = min(max(y, 0.0), 1.0)
        i = self._interval(self.share, y)
        s, v = self.share, self.open_v
        return v[i] + (y - s[i]) / (s[i + 1] - s[i]) * (v[i + 1] - v[i])

    def state(self, volts):
        s, v = self.share, self.open_v
        if volts <= v[0]:
            return 0.0
        if volts >= v[-1]:
            return 1.0
        i = self._interval(v, volts)
        return s[i] + (volts - v[i]) / (v[i + 1] - v[i]) * (s[i + 1] - s[i])

    @staticmethod
    def _interval(rising, x):
        low, high = 0, len(rising) - 1
        while high - low > 1:
            middle = (low + high) // 2
            if rising[middle] <= x:
                low = middle
            else:
                high = middle
        return low

    def slope_c(self, y):
        return self.capacity_c

    def charge(self, y):
        return self.capacity_c * y

    def energy(self, y):
        """Trapezia between the table's points: v is linear there."""
        total, s, v = 0.0, self.share, self.open_v
        for i in range(len(s) - 1):
            if s[i] >= y:
                break
            end = min(s[i + 1], y)
            total += 0.5 * (v[i] + self.volts(end)) * (end - s[i]) * self.capacity_c
        return total

    def leak(self, y):
        return self.self_discharge_a  # of an empty one the floor takes care

    def without(self, y, coulomb):
        return max(y - coulomb / self.capacity_c, 0.0)


def cold_factor(celsius, at_minus_20):
    return at_minus_20 ** (max(20.0 - celsius, 0.0) / 40.0)


def leakage_when_charged(store):
    """Leakage at rated voltage: settled, or the mean of the first three days."""
    if store.kind != "supercapacitor" or store.condition == "settled":
        return store.leakage_A
    turns = 72.0 / store.settling_h
    share = (1.0 - exp(-turns)) / turns
    return store.leakage_A * (1.0 + (store.fresh_leakage_factor - 1.0) * share)


def _bank(store, celsius, full_v):
    rated = store.rated_V * store.units_in_series
    leak = leakage_when_charged(store)
    slope = bend = floor = 0.0
    if store.kind == "supercapacitor":
        slope, bend = store.capacitance_slope, store.capacitance_bend
        floor = store.lowest_V * store.units_in_series
        if store.balancing != "none" and store.units_in_series > 1:
            leak += store.balancing_A
    held = max(full_v / rated, 0.6)
    life_h = (
        store.rated_life_h
        * 2.0 ** ((store.rated_C - celsius) / 10.0)
        * store.life_per_tenth_volt ** ((1.0 - held) * store.rated_V / 0.1)
    )
    wear = store.years_in_service * 8766.0 / max(life_h, 1.0)
    return Bank(
        farad=store.capacitance_F * max(1.0 - store.end_of_life_loss * wear, 0.1),
        rated_v=rated,
        ohm=store.esr_ohm
        * cold_factor(celsius, store.cold_esr_factor)
        * (1.0 + store.end_of_life_esr_rise * wear),
        leak_at_rated_a=leak,
        slope=slope,
        bend=bend,
        floor=floor,
    )


def _cells(store, celsius):
    table = parts.chemistry(store.chemistry)
    rated_c = store.capacity_mAh * 3.6
    left = max(1.0 - (1.0 - store.cold_capacity_share) * max(20.0 - celsius, 0.0) / 40.0, 0.05)
    fade = store.years_in_service * (
        0.2 * store.cycles_per_year / store.cycles_to_end
        + store.fade_per_year * 2.0 ** ((celsius - 25.0) / 10.0)
    )
    limit = 0.0
    if store.charge_above_C < celsius <= store.charge_below_C:
        limit = store.charge_limit_A
        if celsius < store.cool_below_C:
            limit *= store.cool_charge_share
    return Cells(
        capacity_c=rated_c * left * max(1.0 - fade, 0.1),
        share=[float(s) for s in table.state_of_charge],
        open_v=[float(v) * store.cells_in_series for v in table.open_circuit_v],
        ohm=store.resistance_ohm
        * cold_factor(celsius, store.cold_resistance_factor)
        * (1.0 + fade / 0.2),
        self_discharge_a=rated_c * store.self_discharge_per_month / (30.4375 * DAY_S),
        charge_limit_a=limit,
    )


# ---- light and panel -----------------------------------------------------------------------


@dataclass
class PanelArray:
    """Single-diode parameters of the whole array."""

    saturation_a: float
    slope_v: float
    series_ohm: float
    shunt_s: float
    photo_shunt_per_v: float

    def current(self, light_a, u):
        return (
            light_a
            - self.saturation_a * expm1(min(u / self.slope_v, 600.0))
            - u * (self.shunt_s + self.photo_shunt_per_v * light_a)
        )

    def steepness(self, light_a, u):
        """Fall of the current per volt across the diode. [S]"""
        return (
            self.saturation_a / self.slope_v * exp(min(u / self.slope_v, 600.0))
            + self.shunt_s
            + self.photo_shunt_per_v * light_a
        )

    def diode_v(self, light_a, amps):
        """Diode voltage at which the array gives a current, by Newton from above. [V]"""
        spare = light_a - amps
        if spare <= 0.0:
            return 0.0
        u = self.slope_v * log(1.0 + spare / self.saturation_a)
        for _ in range(200):
            step = (self.current(light_a, u) - amps) / self.steepness(light_a, u)
            u += step
            if abs(step) < 1e-15 * (1.0 + abs(u)):
                break
        return u


def _array(panels, celsius):
    """Temperature: the voltage in full sun moves by the cell's coefficient, kT/q follows T."""
    one, cell = one_panel(panels), parts.cell(panels.technology)
    slope = float(one.slope_v)
    warm = slope * kt_over_q(celsius) / kt_over_q(25.0)
    sun_a_per_m2 = FULL_SUN_LX * parts.photocurrent_per_lux("daylight_open", panels.technology)
    at_a = sun_a_per_m2 * panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    at_a *= float(current_scale(panels))
    volts = slope * log(at_a / float(one.saturation_a))
    volts += cell.voc_temperature_v_per_k * panels.cells_in_series * (celsius - 25.0)
    s, p = panels.in_series, panels.count
    return PanelArray(
        saturation_a=at_a * exp(-volts / warm) * p,
        slope_v=warm * s,
        series_ohm=float(one.series_ohm) * s / p,
        shunt_s=float(one.shunt_s) * p / s,
        photo_shunt_per_v=float(one.photo_shunt_per_v) / s,
    )


def amps_per_lux(scenario, share=None):
    """Photocurrent of the array per lux at the place. [A/lx]"""
    light, panels = scenario.light, scenario.panels
    share = light.daylight_share if share is None else share
    lamp = parts.photocurrent_per_lux(light.source, panels.technology)
    day = parts.photocurrent_per_lux("daylight_glass", panels.technology)
    warmth = 1.0 + parts.cell(panels.technology).current_temperature_per_k * (
        light.ambient_C - 25.0
    )
    factor = light.orientation_factor * light.cover_factor * light.soiling_factor
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    per_lux = ((1.0 - share) * lamp + share * day) * float(current_scale(panels))
    return per_lux * area * panels.count * factor * warmth


def light_steps(scenario, log=None):
    """(begin, end, photocurrent) of every step of one period, the period, the offset in a week."""
    light, kind = scenario.light, scenario.light.pattern.kind
    if kind == "steady":
        return [(0.0, WEEK_S, light.illuminance_lx * amps_per_lux(scenario))], WEEK_S, 0.0
    if kind == "log":
        times = [float(t) for t in log.time_s]
        lux = [float(x) for x in log.illuminance_lx]
        if light.illuminance_lx is not None:
            spans = [b - a for a, b in itertools.pairwise(times)]
            lit = [(x, s) for x, s in zip(lux, spans, strict=True) if x >= 1.0]
            whole = sum(s for _, s in lit)
            mean = sum(x * s for x, s in lit) / whole if whole else 0.0
            lux = [x * light.illuminance_lx / mean if mean else 0.0 for x in lux]
        per_lux = amps_per_lux(scenario)
        steps = [(times[i], times[i + 1], x * per_lux) for i, x in enumerate(lux)]
        return _joined(steps), times[-1], log.start_of_week_s
    pieces = []
    for block in light.pattern.blocks:
        amps = light.illuminance_lx * block.relative_level
        amps *= amps_per_lux(scenario, block.daylight_share)
        for day in block.days:
            if day not in light.pattern.dark_days:
                base = DAYS.index(day) * DAY_S
                pieces.append((base + block.from_h * 3600.0, base + block.to_h * 3600.0, amps))
    edges = sorted({0.0, WEEK_S, *(p[0] for p in pieces), *(p[1] for p in pieces)})
    steps = []
    for begin, end in itertools.pairwise(edges):
        middle = 0.5 * (begin + end)
        steps.append((begin, end, sum(a for b, e, a in pieces if b <= middle < e)))
    return _joined(steps), WEEK_S, 0.0


def _joined(steps):
    out = [steps[0]]
    for begin, end, amps in steps[1:]:
        if amps == out[-1][2]:
            out[-1] = (out[-1][0], end, amps)
        else:
            out.append((begin, end, amps))
    return out


# ---- load ----------------------------------------------------------------------------------


@dataclass
class Job:
    """One operation."""

    phases: list
    """(current, power, conductance) on top of sleep, and the duration."""
    ready_v: float | None = None
    wanted_per_s: float = 0.0
    interval_s: float = inf
    windows: list = field(default_factory=list)
    """Opening and closing since Monday 00:00, joined where they touch."""
    always: bool = False


def _seen_by_store(phase, regulator):
    """(current, power, conductance) at the terminals for a phase at the device."""
    i = phase.current_A or 0.0
    p = phase.power_W or 0.0
    g = 1.0 / phase.resistance_ohm if phase.resistance_ohm is not None else 0.0
    return _through(i, p, g, regulator)


def _through(i, p, g, regulator):
    if regulator.kind == "none":
        return (i, p, g)
    v = regulator.output_V
    amps = i + p / v + g * v
    if regulator.kind == "linear":
        return (amps, 0.0, 0.0)
    return (0.0, amps * v / regulator.efficiency, 0.0)


def plus(*draws):
    return tuple(sum(d[k] for d in draws) for k in range(3))


def _windows(schedule):
    out = []
    for i, day in enumerate(DAYS):
        if day in schedule.days:
            begin, end = i * DAY_S + schedule.from_h * 3600.0, i * DAY_S + schedule.to_h * 3600.0
            if out and out[-1][1] >= begin:
                out[-1] = (out[-1][0], end)
            else:
                out.append((begin, end))
    return out


class Device:
    """All numbers of one scenario."""

    def __init__(self, scenario, log=None):
        self.scenario = scenario
        celsius, charger, load = scenario.light.ambient_C, scenario.charger, scenario.load
        self.panel = _array(scenario.panels, celsius)
        self.steps, self.period_s, self.week_offset_s = self._light(scenario, log)
        self.charger = charger
        self.diode_slope_v = getattr(charger, "diode_ideality", 1.0) * kt_over_q(celsius)
        self.cold_v = getattr(charger, "cold_start_below_V", 0.0)
        self.quiescent_a = charger.quiescent_A
        if scenario.store.kind == "cell":
            self.store = _cells(scenario.store, celsius)
            self.first_y = scenario.store.initial_charge
            empty_v = self.store.open_v[0]
            self.full_v = min(charger.full_V, self.store.open_v[-1])
        else:
            self.store = _bank(scenario.store, celsius, charger.full_V)
            self.first_y = max(scenario.store.initial_V, self.store.floor)
            empty_v = self.store.floor
            self.full_v = charger.full_V
        self.resume_v = self.full_v - charger.full_hysteresis_V
        self._load(load, empty_v)

    def _light(self, scenario, log):
        return light_steps(scenario, log)

    def _load(self, load, empty_v):
        reg = load.regulator
        need, own = load.minimum_V, (0.0, 0.0, 0.0)
        if reg.kind == "linear":
            need, own = max(need, reg.output_V + reg.dropout_V), (reg.ground_A, 0.0, 0.0)
        elif reg.kind == "switching":
            need, own = max(need, reg.minimum_input_V), (reg.ground_A, 0.0, 0.0)
        self.need_v = need
        self.off_v = max(load.disconnect_V, need, empty_v)
        self.connect_v = load.connect_V
        self.bulk_f = load.bulk_capacitance_F
        self.bulk_top_v = reg.output_V if reg.kind != "none" else inf
        self.retry_s = load.retry_delay_s
        self.reserve_j = load.reserve_J
        self.sleep = plus(_through(load.sleep_A, 0.0, 0.0, reg), own)
        self.start_up = [
            (plus(_seen_by_store(p, reg), own), p.duration_s) for p in load.start_up
        ]
        self.jobs = []
        for op in load.operations:
            phases = [(_seen_by_store(p, reg), p.duration_s) for p in op.phases]
            if op.schedule.kind == "every":
                windows = _windows(op.schedule)
                self.jobs.append(
                    Job(
                        phases=phases,
                        interval_s=op.schedule.interval_s,
                        windows=windows,
                        always=windows == [(0.0, WEEK_S)],
                    )
                )
            else:
                self.jobs.append(
                    Job(
                        phases=phases,
                        ready_v=op.schedule.ready_V,
                        wanted_per_s=op.schedule.wanted_per_day / DAY_S,
                    )
                )
