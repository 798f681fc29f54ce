"""A second opinion on a march: scipy's solve_ivp, event by event, one phase after another.

Written from the descriptions of the parts, not from the engine: it takes only the frozen
parameters. Its state is the open-circuit voltage of a bank (with C(v) as it stands) or the charge
of a cell; panel, charger and series resistance are solved afresh at every evaluation by Brent's
method. It knows nothing of tables, composed cycles or skipped turns, and is slow.
"""

from dataclasses import dataclass, field
from functools import cache
from math import expm1, inf, log1p, sqrt

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, minimize_scalar

from explorer.engine.system import WEEK_S, Periodic, WhenReady
from explorer.physics.charger import Converter
from explorer.physics.load import LinearRegulator, SwitchingRegulator
from explorer.physics.store import Cell

NEAR_S = 1e-9
NEAR_V = 1e-10
COLLAPSED = -1.0


@dataclass
class Course:
    """What the reference found."""

    pieces: list = field(default_factory=list)
    """(begin, end, function of time to open-circuit voltage)"""
    events: list = field(default_factory=list)
    served: list = field(default_factory=list)
    connected_s: float = 0.0
    gave_up_s: float = inf
    """A moment between two events after which it was not worth going on."""

    def finish(self):
        self.begins = np.array([p[0] for p in self.pieces])
        self.first = np.array([float(p[2](p[0])) for p in self.pieces])
        self.last = np.array([float(p[2](p[1])) for p in self.pieces])
        return self

    def volts(self, t):
        i = max(int(np.searchsorted(self.begins, t, side="right")) - 1, 0)
        begin, end, shape = self.pieces[i]
        return float(shape(min(max(t, begin), end)))

    def band(self, t, slack):
        """Lowest and highest voltage within a time slack around t."""
        low, high = t - slack, t + slack
        seen = [self.volts(low), self.volts(t), self.volts(high)]
        i, j = np.searchsorted(self.begins, [low, high])
        seen += self.first[i:j].tolist() + self.last[max(i - 1, 0) : max(j - 1, 0)].tolist()
        return min(seen), max(seen)

    def kinds(self):
        return [kind for _, kind in self.events]


class Light:
    """Charging current at one light level."""

    def __init__(self, system, amps):
        self.system, self.panel, self.charger = system, system.panel, system.charger
        self.amps = amps
        p = self.panel
        self.shunt = p.shunt_s + p.photo_shunt_per_v * amps
        if isinstance(self.charger, Converter):
            self._work_point()
        else:
            self.leak = self.charger.diode_saturation_a
            self.stop = self._diode_v(-self.leak * (1.0 - 1e-12))

    def current(self, u):
        return self.amps - self.panel.saturation_a * expm1(u / self.panel.slope_v) - u * self.shunt

    def _diode_v(self, amps):
        spare = self.amps - amps
        top = self.panel.slope_v * log1p(spare / self.panel.saturation_a)
        if top <= 0.0:
            return 0.0
        return brentq(lambda u: self.current(u) - amps, 0.0, top * 1.001, xtol=1e-15)

    def _work_point(self):
        c, rs = self.charger, self.panel.series_ohm
        open_v = self._diode_v(0.0)
        if self.amps == 0.0:
            volts = amps = 0.0
        elif c.voc_fraction is None:
            found = minimize_scalar(
                lambda u: -self.current(u) * (u - self.current(u) * rs),
                bounds=(0.0, open_v),
                method="bounded",
                options={"xatol": 1e-11},
            )
            amps = self.current(found.x)
            volts = found.x - amps * rs
        else:
            volts = c.voc_fraction * open_v
            u = brentq(lambda x: x - self.current(x) * rs - volts, 0.0, open_v, xtol=1e-15)
            amps = self.current(u)
        watt = volts * amps
        runs = volts >= c.minimum_panel_v and watt >= c.minimum_panel_w
        self.warm_w = max(c.efficiency * watt - c.fixed_loss_w, 0.0) if runs else 0.0
        starts = open_v >= c.cold_panel_v and watt >= c.cold_panel_w
        self.cold_w = c.cold_efficiency * watt if starts else 0.0
        self.panel_a = amps

    def from_converter(self, terminal_v, cold):
        c = self.charger
        watt = self.cold_w if cold else self.warm_w
        limit = min(self.panel_a, c.output_limit_a) if cold else c.output_limit_a
        if watt <= 0.0:
            return 0.0
        v, r = max(terminal_v, 0.0), c.loss_ohm
        if r > 0.0:
            amps = (sqrt(v * v + 4.0 * r * watt) - v) / (2.0 * r)
        else:
            amps = watt / v if v > 0.0 else inf
        return min(amps, limit)

    def behind_diode(self, u):
        """Terminal voltage of the store when the panel's diode stands at u."""
        amps = self.current(u)
        drop = self.charger.diode_slope_v * log1p(max(amps / self.leak, -1.0 + 1e-12))
        return u - amps * self.panel.series_ohm - drop


class Reference:
    """Integrates one system."""

    def __init__(self, system, rtol=1e-9):
        self.system, self.rtol = system, rtol
        self.store, self.load = system.store, system.load
        self.is_cell = isinstance(self.store, Cell)
        self.esr = self.store.resistance_ohm if self.is_cell else self.store.esr_ohm
        self.light = cache(lambda amps: Light(system, amps))
        self._lowest = {}

    # ---- store ---------------------------------------------------------------------------

    def volts(self, y):
        if not self.is_cell:
            return y
        s = self.store
        return float(np.interp(y / s.capacity_c, s.state_of_charge, s.open_circuit_v))

    def capacitance(self, v):
        """dq/dv of a bank: its mean from 0.4 to 0.8 of rated voltage is the rated value."""
        s = self.store
        w = v / s.rated_v - 0.6
        return s.capacitance_f * (1.0 + s.slope * w - s.bend * (w * w - 0.04 / 3.0))

    def leak(self, y):
        if self.is_cell:
            return self.store.self_discharge_a if y > 0.0 else 0.0
        return self.store.leakage_a * y / self.store.rated_v

    def without(self, y, coulomb):
        """State after a charge was taken at once."""
        if self.is_cell:
            return max(y - coulomb, 0.0)
        if coulomb <= 0.0:
            return y
        if quad(self.capacitance, 0.0, y)[0] <= coulomb:
            return 0.0
        return brentq(lambda x: quad(self.capacitance, x, y)[0] - coulomb, 0.0, y, xtol=1e-14)

    # ---- the node at the terminals -------------------------------------------------------

    def solve(self, v, mode):
        """Terminal voltage, charging and drawn current at an open-circuit voltage."""
        amps, charging, cold, draw = mode
        i0, p, g = draw
        source = self.light(amps)
        ceiling = self.store.charge_limit_a if self.is_cell else inf
        if self.is_cell and not self.store.may_charge:
            ceiling = 0.0
        converter = isinstance(self.system.charger, Converter)

        def drawn(vt):
            return i0 + (p / vt if p else 0.0) + g * vt

        def given(vt):
            if not charging:
                return 0.0
            if converter:
                return min(source.from_converter(vt, cold), ceiling)
            if vt >= source.behind_diode(source.stop):
                return min(-source.leak, ceiling)
            low = -0.1
            while source.behind_diode(low) > vt:
                low *= 4.0
            u = brentq(lambda x: source.behind_diode(x) - vt, low, source.stop, xtol=1e-15)
            return min(source.current(u), ceiling)

        r = self.esr
        if r == 0.0:
            vt = max(v, 1e-9)
            return v, given(vt), drawn(vt)
        if charging and not converter:
            found = self._diode_and_resistance(v, source, drawn, p, g, ceiling)
            if found is not None:
                return found
        least = max(sqrt(p * r / (1.0 + g * r)), 1e-9)

        def miss(vt):
            return v + (given(vt) - drawn(vt)) * r - vt

        if miss(least) < 0.0:
            vt = max(0.5 * v, 1e-3)
            return COLLAPSED, given(vt), drawn(vt)
        top = v + (given(least) if charging else 0.0) * r + 1e-6
        vt = brentq(miss, least, max(top, least + 1e-6), xtol=1e-14)
        return vt, given(vt), drawn(vt)

    def _diode_and_resistance(self, v, source, drawn, p, g, ceiling):
        """The same with the panel's diode voltage as the one unknown; None outside its reach."""
        r = self.esr
        least = max(sqrt(p * r / (1.0 + g * r)), 1e-6)
        where = (source.amps, least)
        if where not in self._lowest:
            low = -0.1
            while source.behind_diode(low) > least:
                low *= 4.0
            self._lowest[where] = (
                brentq(lambda x: source.behind_diode(x) - least, low, source.stop, xtol=1e-15)
                if source.behind_diode(source.stop) > least
                else None
            )
        low = self._lowest[where]
        if low is None:
            return None

        def miss(u):
            vt = source.behind_diode(u)
            return v + (source.current(u) - drawn(vt)) * r - vt

        if miss(low) < 0.0 or miss(source.stop) > 0.0:
            return None
        u = brentq(miss, low, source.stop, xtol=1e-15)
        amps = source.current(u)
        if amps > ceiling:
            return None
        vt = source.behind_diode(u)
        return vt, amps, drawn(vt)

    def rate(self, y, mode):
        v = self.volts(y)
        _, charge, drawn = self.solve(v, mode)
        net = charge - drawn - self.leak(y)
        if y <= 0.0 and net < 0.0:
            return 0.0
        if self.is_cell:
            return 0.0 if y >= self.store.capacity_c and net > 0.0 else net
        return net / self.capacitance(max(v, 0.0))

    # ---- schedules -----------------------------------------------------------------------

    def _windows(self, schedule, t):
        absolute = t + self.system.light.begins_at_s
        week = np.floor((absolute + NEAR_S) / WEEK_S) * WEEK_S
        for k in (week, week + WEEK_S):
            for begin, end in schedule.windows_s:
                yield (
                    k + begin - self.system.light.begins_at_s,
                    k + end - self.system.light.begins_at_s,
                )

    def _opens(self, schedule, t):
        for begin, end in self._windows(schedule, t):
            if t < end - NEAR_S:
                return max(t, begin)
        raise AssertionError("a schedule has at least one window a week")

    def _following(self, schedule, start):
        after = start + schedule.interval_s
        for begin, end in self._windows(schedule, start):
            if begin - NEAR_S <= start < end - NEAR_S:
                if schedule.windows_s == ((0.0, WEEK_S),) or after < end - NEAR_S:
                    return after
                break
        return self._opens(schedule, after)

    # ---- the run -------------------------------------------------------------------------

    def run(self, span_s, y, *, connected=False, charging=True, begin_s=0.0, most_pieces=inf):
        """March from a state; y is a voltage for a bank and a charge for a cell."""
        system, load = self.system, self.load
        light = system.light
        period, edges = float(light.edges_s[-1]), light.edges_s
        course = Course(served=[0] * len(load.operations))
        t, end = begin_s, begin_s + span_s
        stage, startup, retry_at = ("on" if connected else "off"), None, -inf
        due = [inf] * len(load.operations)
        busy = [None] * len(load.operations)
        cold_v = (
            float(system.charger.cold_below_v) if isinstance(system.charger, Converter) else 0.0
        )
        cold = self.volts(y) < cold_v

        def schedule_all():
            for j, op in enumerate(load.operations):
                busy[j] = None
                due[j] = self._opens(op.schedule, t) if isinstance(op.schedule, Periodic) else inf

        if connected:
            schedule_all()
        while t < end - NEAR_S:
            if len(course.pieces) >= most_pieces:
                course.gave_up_s = 0.5 * (course.pieces[-1][0] + course.pieces[-1][1]) - begin_s
                break
            base = np.floor((t + NEAR_S) / period) * period
            segment = int(np.searchsorted(edges, t - base + NEAR_S, side="right")) - 1
            segment = min(segment, len(edges) - 2)
            amps, light_until = float(light.photocurrent_a[segment]), base + edges[segment + 1]

            # What the clock says.
            if stage == "start":
                while startup is not None and t >= startup[1] - NEAR_S:
                    k = startup[0] + 1
                    if k < len(load.start_up):
                        startup = (k, startup[1] + load.start_up[k].duration_s)
                    else:
                        startup, stage = None, "on"
                        course.events.append((t, "started"))
                        schedule_all()
            if stage == "on":
                for j, op in enumerate(load.operations):
                    while busy[j] is not None and t >= busy[j][1] - NEAR_S:
                        k = busy[j][0] + 1
                        if k < len(op.phases):
                            busy[j] = (k, busy[j][1] + op.phases[k].duration_s)
                        else:
                            busy[j] = None
                            course.served[j] += 1

            # What the voltages say.
            draw = self._drawn(stage, startup, busy)
            v = self.volts(y)
            if abs(v - cold_v) > NEAR_V:
                cold = v < cold_v
            mode = (amps, charging, cold, draw)
            vt = self.solve(v, mode)[0]
            if charging and v >= system.full_v - NEAR_V:
                charging = False
                course.events.append((t, "full"))
                continue
            if not charging and v <= system.full_v - system.full_hysteresis_v + NEAR_V:
                charging = True
                continue
            if stage == "off" and vt >= load.connect_v - NEAR_V and t >= retry_at - NEAR_S:
                course.events.append((t, "connect"))
                y = self.without(y, load.bulk_f * self._bulk_v(v))
                stage, startup = "start", (-1, t)
                continue
            if stage != "off" and (vt <= load.off_v + NEAR_V or vt == COLLAPSED):
                course.events.append((t, "cut off"))
                stage, startup, retry_at = "off", None, t + load.retry_delay_s
                due, busy = [inf] * len(due), [None] * len(busy)
                continue
            waiting = (
                [
                    (j, op.schedule.ready_v)
                    for j, op in enumerate(load.operations)
                    if isinstance(op.schedule, WhenReady)
                ]
                if stage == "on" and not any(b is not None for b in busy)
                else []
            )
            ready = [j for j, level in waiting if v >= level - NEAR_V]
            if ready:
                j = ready[0]
                busy[j] = (0, t + load.operations[j].phases[0].duration_s)
                continue

            begun = False
            for j, op in enumerate(load.operations if stage == "on" else ()):
                if busy[j] is None and t >= due[j] - NEAR_S:
                    busy[j] = (0, t + op.phases[0].duration_s)
                    due[j] = self._following(op.schedule, due[j])
                    begun = True
            if begun:
                continue

            # Until something happens.
            until = min(end, light_until)
            if stage == "start":
                until = min(until, startup[1])
            elif stage == "on":
                until = min([until, *due, *[b[1] for b in busy if b is not None]])
            elif retry_at > t + NEAR_S:
                until = min(until, retry_at)
            may_connect = stage == "off" and retry_at <= t + NEAR_S
            t, y, met = self._integrate(course, t, until, y, mode, stage, may_connect, waiting)
            if stage != "off":
                course.connected_s += t - course.pieces[-1][0]
            if met == "cold":
                cold = not cold
        return course.finish()

    def _bulk_v(self, v):
        regulator = self.load.regulator
        if isinstance(regulator, LinearRegulator | SwitchingRegulator):
            return min(v, float(regulator.output_v))
        return v

    def _drawn(self, stage, startup, busy):
        draws = []
        if stage == "start":
            draws.append(self.load.start_up[startup[0]].draw)
        elif stage == "on":
            draws.append(self.load.sleep)
            draws += [
                op.phases[b[0]].draw
                for op, b in zip(self.load.operations, busy, strict=True)
                if b is not None
            ]
        return (
            sum(float(d.current_a) for d in draws) + self.system.quiescent_a,
            sum(float(d.power_w) for d in draws),
            sum(float(d.conductance_s) for d in draws),
        )

    def _integrate(self, course, t, until, y, mode, stage, may_connect, waiting):
        system, load = self.system, self.load
        names, watched = [], []

        def watch(name, function, direction):
            function.terminal, function.direction = True, direction
            names.append(name)
            watched.append(function)

        if mode[1]:
            watch("full", lambda _, x: self.volts(x[0]) - system.full_v, 1)
        else:
            resume = system.full_v - system.full_hysteresis_v
            watch("resume", lambda _, x: self.volts(x[0]) - resume, -1)
        if may_connect:
            watch("connect", lambda _, x: self.solve(self.volts(x[0]), mode)[0] - load.connect_v, 1)
        if stage != "off":
            watch("off", lambda _, x: self.solve(self.volts(x[0]), mode)[0] - load.off_v, -1)
        for _, level in waiting:
            watch("ready", lambda _, x, level=level: self.volts(x[0]) - level, 1)
        if isinstance(system.charger, Converter) and system.charger.cold_below_v > 0:
            edge = float(system.charger.cold_below_v)
            watch("cold", lambda _, x: self.volts(x[0]) - edge, 1 if mode[2] else -1)
        speed = self.rate(y, mode)
        if speed == 0.0:
            level = self.volts(y)
            course.pieces.append((t, until, lambda _, level=level: level))
            return until, y, ""
        scale = self.store.capacity_c if self.is_cell else 1.0
        got = solve_ivp(
            lambda _, x: [self.rate(x[0], mode)],
            (t, until),
            [y],
            method="LSODA",
            rtol=self.rtol,
            atol=1e-11 * scale,
            events=watched,
            dense_output=True,
        )
        assert got.success, got.message
        end, last, met = float(got.t[-1]), float(got.y[0, -1]), ""
        shape = got.sol
        course.pieces.append((t, end, lambda s: self.volts(float(shape(s)[0]))))
        for name, hits in zip(names, got.t_events, strict=True):
            if len(hits):
                met = name
        if met == "cold":
            flipped = (mode[0], mode[1], not mode[2], mode[3])
            if self.rate(last, flipped) * self.rate(last, mode) < 0.0:
                # Either side pushes back: it stays where it is.
                level = self.volts(last)
                course.pieces.append((end, until, lambda _, level=level: level))
                return until, last, ""
        if met in ("full", "resume", "ready", "cold"):
            last = self._snap(met, last, waiting)
        return end, max(last, 0.0), met

    def _snap(self, met, y, waiting):
        """The state exactly on the threshold that was met."""
        system = self.system
        if self.is_cell:
            return y
        if met == "ready":
            return min((level for _, level in waiting), key=lambda level: abs(level - y))
        return {
            "full": system.full_v,
            "resume": system.full_v - system.full_hysteresis_v,
            "cold": float(getattr(system.charger, "cold_below_v", 0.0)),
        }[met]
