"""A device marched through time: one stretch after another, each ended by a clock or a threshold.

No phase is averaged, no cycle composed, no turn skipped. What happens at one moment happens in this
order: the light changes, phases end, full and resume, connect or cut off, an operation that waits
for a voltage, an operation whose time has come.
"""

from dataclasses import dataclass, field
from math import floor, inf

from tests.reference.circuit import ConverterSource, DiodeSource, alone
from tests.reference.device import WEEK_S, plus
from tests.reference.motion import mean_along, pieces

NEAR_S = 1e-9


@dataclass
class Totals:
    """Counts and charges since the beginning."""

    harvest_c: float = 0.0
    load_c: float = 0.0
    """Drawn by load and regulator, without inrush and without the charger's own current."""
    inrush_c: float = 0.0
    connects: int = 0
    cut_offs: int = 0
    started: int = 0
    served: list = field(default_factory=list)
    begun: list = field(default_factory=list)
    connected_s: float = 0.0
    lowest_v: float = inf
    highest_v: float = -inf
    lowest_terminal_v: float = inf
    lowest_begin_v: float = inf
    """Lowest store voltage at which an operation began."""


@dataclass
class Row:
    """State at one moment, and what the step that begins there brings."""

    time_s: float
    store_v: float
    terminal_v: float
    connected: bool
    harvest_c: float = 0.0
    load_c: float = 0.0
    inrush_c: float = 0.0
    terminal_min_v: float = inf
    terminal_max_v: float = -inf
    store_min_v: float = inf
    store_max_v: float = -inf
    length_s: float = 0.0


class March:
    """One march; `to` goes on to a time."""

    def __init__(self, device, y, *, connected=False, charging=True, begin_s=0.0, dark=False,
                 loaded=True, moments=(), most=inf):
        self.device, self.y, self.t = device, y, begin_s
        self.charging, self.dark, self.loaded = charging, dark, loaded
        self.store, self.ohm = device.store, device.store.ohm
        self.sources, self.levels = {}, {}
        self.tolerance = 2e-7 if self.store.is_cell else 2e-8
        n = len(device.jobs)
        self.stage = "on" if connected else "off"
        self.phase, self.phase_ends = 0, inf
        self.retry_at = -inf
        self.due, self.busy = [inf] * n, [None] * n
        self.totals = Totals(served=[0] * n, begun=[0] * n)
        self.rows, self.moments, self.next_moment = [], list(moments), 0
        self.inrush_of_row_c = 0.0
        self.events, self.most, self.legs = [], most, 0
        self.first_connect_s = self.first_started_s = self.first_done_s = inf
        self.first_full_s = inf
        self.watched_y = -inf
        """A state at which a falling store is looked at, without any effect."""
        self.cold = self.store.volts(y) < device.cold_v
        self.full_y = self.store.state(device.full_v)
        self.resume_y = self.store.state(device.resume_v)
        if connected:
            self._schedule()

    # ---- the clock -----------------------------------------------------------------------

    def _schedule(self):
        """Every operation begins anew: at once, or when its window opens."""
        for j, job in enumerate(self.device.jobs):
            self.busy[j] = None
            self.due[j] = self._opens(job, self.t) if job.ready_v is None else inf

    def _near_windows(self, job, t):
        offset = self.device.week_offset_s
        week = floor((t + offset + NEAR_S) / WEEK_S) * WEEK_S
        for k in (week, week + WEEK_S):
            for begin, end in job.windows:
                yield k + begin - offset, k + end - offset

    def _opens(self, job, t):
        """First moment from t at which a run may begin; a closing edge is no such moment."""
        if job.always:
            return t
        for begin, end in self._near_windows(job, t):
            if t < end - NEAR_S:
                return max(t, begin)
        raise AssertionError("a schedule has a window every week")

    def _after(self, job, start):
        """The start that follows one: an interval later in the same window, else the next."""
        later = start + job.interval_s
        if job.always:
            return later
        for begin, end in self._near_windows(job, start):
            if begin - NEAR_S <= start < end - NEAR_S:
                if later < end - NEAR_S:
                    return later
                return self._opens(job, max(later, end))
        return self._opens(job, later)

    def _light(self):
        """Photocurrent now, and when it changes."""
        steps, period = self.device.steps, self.device.period_s
        base = floor((self.t + NEAR_S) / period) * period
        inside = self.t - base + NEAR_S
        low, high = 0, len(steps)
        while high - low > 1:
            middle = (low + high) // 2
            if steps[middle][0] <= inside:
                low = middle
            else:
                high = middle
        return (0.0 if self.dark else steps[low][2]), base + steps[low][1]

    def _end_phases(self):
        now = self.t + NEAR_S
        while self.stage == "start" and now >= self.phase_ends:
            self.phase += 1
            self._enter_start_up()
        if self.stage != "on":
            return
        for j, job in enumerate(self.device.jobs):
            while self.busy[j] is not None and now >= self.busy[j][1]:
                k, ended = self.busy[j]
                if k + 1 < len(job.phases):
                    self.busy[j] = (k + 1, ended + job.phases[k + 1][1])
                else:
                    self.busy[j] = None
                    self.totals.served[j] += 1
                    self.first_done_s = min(self.first_done_s, self.t)

    def _enter_start_up(self):
        start_up = self.device.start_up
        if self.phase < len(start_up):
            self.phase_ends = (self.t if self.phase == 0 else self.phase_ends) + start_up[
                self.phase
            ][1]
            return
        self.stage, self.phase_ends = "on", inf
        self.totals.started += 1
        self.first_started_s = min(self.first_started_s, self.t)
        self._schedule()

    # ---- modes ---------------------------------------------------------------------------

    def _draw(self):
        d = self.device
        own = (d.quiescent_a, 0.0, 0.0)
        if self.stage == "off":
            return own
        if self.stage == "start":
            return plus(own, d.start_up[self.phase][0])
        running = [d.jobs[j].phases[b[0]][0] for j, b in enumerate(self.busy) if b is not None]
        return plus(own, d.sleep, *running)

    def _source(self, light_a):
        found = self.sources.get(light_a)
        if found is None:
            kind = DiodeSource if self.device.charger.kind == "direct" else ConverterSource
            found = self.sources[light_a] = kind(self.device, light_a)
        return found

    def terminals(self, y, light_a, draw):
        """Terminal voltage (None where there is none), charging and drawn current."""
        v = self.store.volts(y)
        if not self.charging:
            return alone(v, draw, self.ohm)
        source = self._source(light_a)
        return source.terminals(v, draw, self.ohm, self.store.charge_limit_a, self.cold)

    def _rate(self, light_a, draw):
        """F(y) of the present stretch, which keeps what it has solved.

        `rate.through` goes on beyond the ends of the store, at which a stretch ends.
        """
        store, solved = self.store, {}
        bottom, top = store.floor, store.top
        terminals, leak, slope_c = self.terminals, store.leak, store.slope_c

        def through(y):
            inside = bottom if y < bottom else top if y > top else y
            found = solved.get(inside)
            if found is None:
                found = solved[inside] = terminals(inside, light_a, draw)
            return (found[1] - found[2] - leak(inside)) / slope_c(inside)

        def rate(y):
            found = through(y)
            ends = (y <= bottom and found < 0.0) or (y >= top and found > 0.0)
            return 0.0 if ends else found

        rate.solved, rate.through = solved, through
        return rate

    def _level(self, vt, light_a, draw):
        """State at which the terminals are at a voltage, remembered for each mode."""
        mode = (vt, light_a, draw, self.charging, self.cold)
        if mode not in self.levels:
            self.levels[mode] = self._find_level(vt, light_a, draw)
        return self.levels[mode]

    def _find_level(self, vt, light_a, draw):
        """State at which the terminals are at a voltage: the node equation read backwards."""
        if self.ohm == 0.0:
            return self.store.state(vt)
        i, p, g = draw
        if p > 0.0:
            vt = max(vt, (p * self.ohm / (1.0 + g * self.ohm)) ** 0.5)
        taken = i + (p / max(vt, 1e-9) if p > 0.0 else 0.0) + g * vt
        given, v = 0.0, vt
        # What a table of efficiencies gives depends on the store behind its resistance.
        for _ in range(30 if self.charging and self.device.charger.kind != "direct" else 1):
            if self.charging:
                source = self._source(light_a)
                given = source.current(vt, self.store.charge_limit_a, self.cold, v)
            before, v = v, vt - self.ohm * (given - taken)
            if v == before:
                break
        if self.store.is_cell and v > self.store.open_v[-1]:
            return inf
        return self.store.state(v) if v >= self.store.volts(self.store.floor) else -inf

    # ---- thresholds ----------------------------------------------------------------------

    def _note(self, kind):
        self.events.append((self.t, kind))

    def _switch(self, light_a, draw):
        """Let a threshold that is met take effect; True where something changed."""
        d, y = self.device, self.y
        if self.charging and y >= self.full_y:
            self.charging = False
            self.first_full_s = min(self.first_full_s, self.t)
            self._note("full")
            return True
        if not self.charging and y <= self.resume_y:
            self.charging = True
            return True
        if self.stage == "off":
            if (
                self.loaded
                and self.t >= self.retry_at - NEAR_S
                and y >= self._level(d.connect_v, light_a, draw)
            ):
                self._connect()
                return True
            return False
        if y <= self._level(d.off_v, light_a, draw):
            self._cut_off()
            return True
        if self.stage == "on" and all(b is None for b in self.busy):
            for j, job in enumerate(d.jobs):
                if job.ready_v is not None and y >= self._ready_y(job):
                    self._begin(j)
                    return True
        if self.stage == "on":
            begun = False
            for j in range(len(d.jobs)):
                if self.busy[j] is None and self.t + NEAR_S >= self.due[j]:
                    at = self.due[j]
                    self._begin(j)
                    self.due[j] = self._after(d.jobs[j], at)
                    begun = True
            return begun
        return False

    def _ready_y(self, job):
        if self.store.is_cell and job.ready_v > self.store.open_v[-1]:
            return inf
        return self.store.state(job.ready_v)

    def _begin(self, j):
        self.busy[j] = (0, self.t + self.device.jobs[j].phases[0][1])
        self.totals.begun[j] += 1
        self.totals.lowest_begin_v = min(self.totals.lowest_begin_v, self.store.volts(self.y))

    def _connect(self):
        self._note("connect")
        self.totals.connects += 1
        self.first_connect_s = min(self.first_connect_s, self.t)
        v = self.store.volts(self.y)
        taken = self.device.bulk_f * min(v, self.device.bulk_top_v)
        taken = min(taken, self.store.charge(self.y))
        self.y = self.store.without(self.y, taken)
        self.totals.inrush_c += taken
        if self.rows and not self._row_is_due():
            self.rows[-1].inrush_c += taken
        else:
            self.inrush_of_row_c += taken
        self.stage, self.phase = "start", 0
        self._enter_start_up()

    def _cut_off(self):
        self._note("cut_off")
        self.totals.cut_offs += 1
        self.stage, self.phase_ends = "off", inf
        self.retry_at = self.t + self.device.retry_s
        n = len(self.due)
        self.due, self.busy = [inf] * n, [None] * n

    # ---- the march -----------------------------------------------------------------------

    def to(self, end_s, stop=None):
        """March to a time, or until `stop(self)` holds; True unless there were too many events."""
        while self.t < end_s - NEAR_S:
            if stop is not None and stop(self):
                return True
            if self.legs >= self.most:
                return False
            self.legs += 1
            self._end_phases()
            light_a, light_until = self._light()
            v = self.store.volts(self.y)
            if abs(v - self.device.cold_v) > 1e-12 * (1.0 + v):
                self.cold = v < self.device.cold_v
            draw = self._draw()
            held = self._held_at_cold(light_a, draw)
            if self._switch(light_a, draw):
                continue
            self._row(light_a, draw)
            self._go(light_a, draw, min(end_s, light_until), held)
        return True

    def _row_is_due(self):
        at = self.next_moment
        return at < len(self.moments) and self.t >= self.moments[at] - NEAR_S

    def _row(self, light_a, draw):
        while self._row_is_due():
            vt = self.terminals(self.y, light_a, draw)[0]
            self.rows.append(
                Row(self.t, self.store.volts(self.y), 0.0 if vt is None else vt,
                    self.stage != "off", inrush_c=self.inrush_of_row_c)
            )
            self.inrush_of_row_c = 0.0
            self.next_moment += 1

    def _targets(self, light_a, draw, speed):
        d = self.device
        if speed > 0.0:
            out = [self.full_y] if self.charging else []
            if self.stage == "off" and self.loaded and self.t >= self.retry_at - NEAR_S:
                out.append(self._level(d.connect_v, light_a, draw))
            if self.stage == "on" and all(b is None for b in self.busy):
                out += [self._ready_y(job) for job in d.jobs if job.ready_v is not None]
        else:
            out = [] if self.charging else [self.resume_y]
            if self.stage != "off":
                out.append(self._level(d.off_v, light_a, draw))
            out.append(self.watched_y)
        if self.charging and d.cold_v > 0.0 and d.charger.kind == "converter":
            out.append(self.store.state(d.cold_v))
        return out

    def _go(self, light_a, draw, until, held):
        """One stretch: to the next moment of a clock or the next threshold."""
        if self.stage == "start":
            until = min(until, self.phase_ends)
        elif self.stage == "on":
            until = min([until, *self.due, *(b[1] for b in self.busy if b is not None)])
        elif self.retry_at > self.t + NEAR_S:
            until = min(until, self.retry_at)
        if self.next_moment < len(self.moments):
            until = min(until, self.moments[self.next_moment])
        rate = self._rate(light_a, draw)
        speed = 0.0 if held else rate(self.y)
        if held:  # it goes to and fro between both sides of the edge
            self.cold = False
            self._seen(self.terminals(self.y, light_a, draw)[0], self.store.volts(self.y))
            self.cold = True
        if speed == 0.0:
            self._rest(light_a, draw, until)
            return
        ahead = [x for x in self._targets(light_a, draw, speed) if (x - self.y) * speed > 0.0]
        target = (min(ahead) if speed > 0.0 else max(ahead)) if ahead else None
        edge = self.store.top if speed > 0.0 else self.store.floor
        if abs(edge) < inf and (target is None or (edge - target) * speed < 0.0):
            target = edge
        for before, after, length, begin, end in pieces(
            rate.through, self.y, until - self.t, target, self.tolerance
        ):
            self._count(rate.solved, (before, after), (begin, end), length, light_a, draw)
            self.t, self.y = self.t + length, after
        if target is not None and self.y == target:
            return
        self.t = until

    def _held_at_cold(self, light_a, draw):
        """At the edge of the cold start: whether either side pushes back; else picks the side."""
        edge = self.device.cold_v
        if not self.charging or edge <= 0.0 or self.device.charger.kind != "converter":
            return False
        if abs(self.store.volts(self.y) - edge) > 1e-12 * (1.0 + edge):
            return False
        self.cold = False
        if self._rate(light_a, draw)(self.y) >= 0.0:
            return False
        self.cold = True
        return self._rate(light_a, draw)(self.y) > 0.0

    def _rest(self, light_a, draw, until):
        """A stretch in which the store stays where it is."""
        vt, charge, drawn = self.terminals(self.y, light_a, draw)
        length = until - self.t
        at_end = self.y <= self.store.floor or self.y >= self.store.top
        if not at_end:  # in balance, on the edge of the cold start too
            charge = drawn + self.store.leak(self.y)
        self._add(charge * length, drawn * length, length)
        self._seen(vt, self.store.volts(self.y))
        self.t = until

    def _count(self, solved, ends, speeds, length, light_a, draw):
        """Charges of one step: what was drawn by its mean, the harvest by conservation."""
        if length <= 0.0:
            return
        before, after = ends
        middle = 0.5 * (before + after)
        first, last = (solved.get(y) or self.terminals(y, light_a, draw) for y in ends)
        drawn = draw[0]
        if draw[1] > 0.0 or draw[2] > 0.0:
            between = self.terminals(middle, light_a, draw)
            drawn = mean_along(first[2], between[2], last[2], *speeds)
        leak = mean_along(*(self.store.leak(y) for y in (before, middle, after)), *speeds)
        gained = self.store.charge(after) - self.store.charge(before)
        harvest = gained + (drawn + leak) * length if self._is_fed(light_a) else 0.0
        self._add(harvest, drawn * length, length)
        self._seen(first[0], self.store.volts(before))
        self._seen(last[0], self.store.volts(after))

    def _is_fed(self, light_a):
        """Whether a current flows between charger and store, either way."""
        if not self.charging:
            return False
        return self.device.charger.kind == "direct" or (
            self.store.charge_limit_a > 0.0 and self._source(light_a).given[self.cold] > 0.0
        )

    def _add(self, harvest_c, drawn_c, length):
        totals = self.totals
        load_c = drawn_c - self.device.quiescent_a * length
        totals.harvest_c += harvest_c
        totals.load_c += load_c
        if self.stage != "off":
            totals.connected_s += length
        if self.rows:
            row = self.rows[-1]
            row.harvest_c += harvest_c
            row.load_c += load_c
            row.length_s += length

    def _seen(self, vt, v):
        vt = 0.0 if vt is None else vt
        totals = self.totals
        totals.lowest_v, totals.highest_v = min(totals.lowest_v, v), max(totals.highest_v, v)
        totals.lowest_terminal_v = min(totals.lowest_terminal_v, vt)
        if self.rows:
            row = self.rows[-1]
            row.terminal_min_v = min(row.terminal_min_v, vt)
            row.terminal_max_v = max(row.terminal_max_v, vt)
            row.store_min_v = min(row.store_min_v, v)
            row.store_max_v = max(row.store_max_v, v)
