"""A device stepped through time by scipy: rates, runs and times of what is drawn in test_rates.

Parts are those of `tests.reference` (panel, charger, store by their own equations); what happens
when is stepped here, one stretch between two events after the other, by an implicit solver with
event location. Neither the engine nor the reference's march takes part.
"""

from dataclasses import dataclass, field
from math import inf

from scipy.integrate import solve_ivp

from tests.reference.circuit import ConverterSource, alone
from tests.reference.device import Device, amps_per_lux, plus

EVENTS = 4000


@dataclass
class Walk:
    """Where a device stands; times in seconds from the beginning.

    Parameters
    ----------
    scenario : Scenario
        The device; one operation, no start-up.
    lux : float
        Steady light; 0 for darkness.
    volts : float
        Of the store at the beginning.
    """

    scenario: object
    lux: float
    volts: float = 0.0
    connected: bool = False
    charging: bool = True
    loaded: bool = True
    t: float = 0.0
    retry: float = 0.0
    busy: float = inf
    """When the phase that runs will end."""
    phase: int = -1
    due: float = inf
    load_j: float = 0.0
    connected_s: float = 0.0
    full: float = inf
    connects: list = field(default_factory=list)
    cut_offs: list = field(default_factory=list)
    joules: list = field(default_factory=list)
    """Energy that the load had taken by each cut-off, and at each connect before it."""
    done: list = field(default_factory=list)
    """Ends of operations."""

    def __post_init__(self):
        self.cold = False
        # The reference knows parts of every device, but no operation that has no end of its own.
        bare = self.scenario.load.model_copy(update={"operations": ()})
        self.device = Device(self.scenario.model_copy(update={"load": bare}), None)
        light_a = self.lux * amps_per_lux(self.scenario)
        self.source = ConverterSource(self.device, light_a)
        (op,) = self.scenario.load.operations
        self.kind = op.schedule.kind
        self.draws = [(p.current_A or 0.0, p.power_W or 0.0,
                       1.0 / p.resistance_ohm if p.resistance_ohm else 0.0)
                      for p in op.phases]  # fmt: skip
        self.seconds = [p.duration_s for p in op.phases]
        self.op = op
        if self.connected:
            self._on()

    def _load(self):
        if not self.connected:
            return (0.0, 0.0, 0.0)
        asleep = (self.scenario.load.sleep_A, 0.0, 0.0)
        if self.kind == "until_empty":
            return plus(asleep, self.draws[0])
        return asleep if self.phase < 0 else plus(asleep, self.draws[self.phase])

    def _node(self, v, load):
        draw = plus(load, (self.device.quiescent_a, 0.0, 0.0))
        ohm, cold = self.device.store.ohm, self.cold
        if not self.charging or self.lux <= 0.0:
            return alone(v, draw, ohm)
        return self.source.terminals(v, draw, ohm, self.device.store.charge_limit_a, cold)

    def to(self, end, stop=lambda walk: False):
        """Step to a time, or until something holds; None where more happens than is worth it."""
        for _ in range(EVENTS):
            if self.t >= end or stop(self):
                return self
            self.cold = self.volts < self.device.cold_v
            if not self._switched():
                self._stretch(end)
        return None

    def _switched(self):
        """Let what is met already take effect; True where something changed."""
        vt = self._node(self.volts, self._load())[0]
        if self.connected and (vt is None or vt <= self.device.off_v - 1e-9):
            self._off()
            return True
        if not self.connected:
            met = self.loaded and self.t >= self.retry - 1e-9 and vt >= self.device.connect_v
            if met:
                self._on()
            return met
        ready = self.kind == "when_ready" and self.phase < 0
        if ready and self.volts >= self.op.schedule.ready_V - 1e-9:
            self._begin()
            return True
        return False

    def _stretch(self, end):
        device, load = self.device, self._load()
        until = min(end, self.busy if self.phase >= 0 else self.due if self.connected else inf)
        if not self.connected and self.t < self.retry:
            until = min(until, self.retry)

        def rates(_, y):
            vt, given, taken = self._node(y[0], load)
            vt = 0.0 if vt is None else vt
            amps = load[0] + (load[1] / max(vt, 1e-9) if load[1] else 0.0) + load[2] * vt
            store = device.store
            return [(given - taken - store.leak(y[0])) / store.slope_c(y[0]), amps * vt]

        watched = self._watched(load)
        events = []
        for level, rising, _ in watched:
            def event(t, y, level=level):
                return level(y[0])

            event.terminal, event.direction = True, 1.0 if rising else -1.0
            events.append(event)
        if until > self.t:
            got = solve_ivp(rates, (self.t, until), [self.volts, self.load_j], method="LSODA",
                            rtol=1e-8, atol=1e-11, events=events)  # fmt: skip
            now = float(got.t[-1])
            self.connected_s += (now - self.t) * self.connected
            self.t, self.volts, self.load_j = now, float(got.y[0, -1]), float(got.y[1, -1])
            hit = [n for n, at in enumerate(got.t_events) if len(at)]
        else:
            hit = []
        for n in hit:
            watched[n][2]()
        if not hit:
            self._clock()

    def _watched(self, load):
        """(function of the voltage, whether it rises through zero, what happens then)."""
        device, out = self.device, []

        def terminal(v):
            vt = self._node(v, load)[0]
            return 0.0 if vt is None else vt

        if self.cold:
            out.append((lambda v: v - device.cold_v, True, self._warm))
        else:
            out.append((lambda v: v - device.cold_v, False, self._cool))
        if self.charging:
            out.append((lambda v: v - device.full_v, True, self._fill))
        else:
            out.append((lambda v: v - device.resume_v, False, self._resume))
        if self.connected:
            out.append((lambda v: terminal(v) - device.off_v, False, self._off))
            if self.kind == "when_ready" and self.phase < 0:
                ready = self.op.schedule.ready_V
                out.append((lambda v: v - ready, True, self._begin))
        elif self.loaded and self.t >= self.retry:
            out.append((lambda v: terminal(v) - device.connect_v, True, self._on))
        return out

    def _warm(self):
        self.volts = max(self.volts, self.device.cold_v * (1 + 1e-12))

    def _cool(self):
        self.volts = min(self.volts, self.device.cold_v * (1 - 1e-12))

    def _fill(self):
        self.charging, self.full = False, min(self.full, self.t)

    def _resume(self):
        self.charging = True

    def _on(self):
        self.connected, self.phase = True, -1
        self.connects.append(self.t)
        self.joules.append(self.load_j)
        if self.kind == "every":
            self.due = self.t

    def _off(self):
        self.connected, self.phase, self.busy, self.due = False, -1, inf, inf
        self.retry = self.t + self.device.retry_s
        self.cut_offs.append(self.t)
        self.joules.append(self.load_j)

    def _begin(self):
        self.phase, self.busy = 0, self.t + self.seconds[0]

    def _clock(self):
        if self.phase >= 0 and self.t >= self.busy - 1e-9:
            self.phase += 1
            if self.phase == len(self.draws):
                self.phase, self.busy = -1, inf
                self.done.append(self.t)
            else:
                self.busy = self.t + self.seconds[self.phase]
        elif self.connected and self.phase < 0 and self.t >= self.due - 1e-9:
            self._begin()
            self.due += self.op.schedule.interval_s


def settled_rate(walk, runs=160, cycles=8):
    """Operations an hour once its habit has settled; None where it is too long to step.

    Where it is cut off again and again, over whole cycles from one connect to another.
    """
    if walk.to(4e6, stop=lambda w: len(w.done) >= runs) is None or len(walk.done) < runs:
        return None
    if not walk.cut_offs:
        half = runs // 2
        return 3600.0 * half / (walk.done[-1] - walk.done[-1 - half])
    if walk.to(4e7, stop=lambda w: len(w.connects) >= 2 * cycles) is None:
        return None
    begin, end = walk.connects[-1 - cycles], walk.connects[-1]
    return 3600.0 * sum(begin < t <= end for t in walk.done) / (end - begin)


def until_empty(walk, runs=6):
    """Length, period, energy and duty of the last of some runs; None where there is none."""
    enough = 2 * runs
    if walk.to(4e6, stop=lambda w: len(w.cut_offs) >= enough) is None:
        return None
    if len(walk.cut_offs) < enough:
        return None
    on, off = walk.connects, walk.cut_offs
    length = off[-1] - on[-1]
    period = on[-1] - on[-2]
    joules = walk.joules[2 * enough - 1] - walk.joules[2 * enough - 2]
    return {"run_length_s": length, "run_period_s": period, "run_energy_J": joules,
            "run_duty": (off[-2] - on[-2]) / period,
            "runs_per_hour": 3600.0 / period}  # fmt: skip


def filled_after(scenario, lux):
    """From empty to full with the device off; infinite where it never is."""
    walk = Walk(scenario, lux, loaded=False)
    walk.to(4e6, stop=lambda w: w.full < inf)
    return walk.full


def through_the_dark(scenario):
    """How long a full store carries the device without light, and the runs done."""
    walk = Walk(scenario, 0.0, volts=scenario.charger.full_V, connected=True, charging=False)
    walk.to(4e6, stop=lambda w: w.cut_offs)
    return walk.t, len(walk.done)
