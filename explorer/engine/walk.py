"""One march through time: from threshold to threshold, never through small steps.

Between two events (light changes, a phase ends, a threshold is met) the store moves along one
exact `Flow`. Pulses that are small against the store are taken many cycles at a time, large ones
one by one. A course that returns to the same event in the same light repeats itself and is
skipped over whole (`explorer.engine.repeats`).
"""

from __future__ import annotations

from math import inf

from explorer.engine import at_full, repeats
from explorer.engine.course import Interrupted, Standing, StopAt, Trajectory, asked_to_stop
from explorer.engine.legs import Legs
from explorer.engine.levels import BlendedMotion, Motion
from explorer.engine.motions import Motions
from explorer.engine.schedule import TIME_GRAIN_S
from explorer.engine.system import DAY_S

MAX_LEGS = 400_000
MOST_TRIES = 2000
"""Failed start-ups after which a first operation is no longer waited for."""
MOST_TRIAL_LEGS = 200
"""Legs after which the trial of a turn is given up."""
ASKED_EVERY = 16
"""Events of a march after which it asks whether anybody still waits for it; under a log an event
may be a month of readings, some milliseconds."""
MOST_IN_VAIN = 6
"""Trials in a row that come to nothing, after each of which twice as many events are waited for the
next: a device that hiccups ten thousand times a day would spend its time on them."""
MOST_AT_ONCE = 1000
"""Events at one moment after which a run ends: it would never come away from there."""


class Run(Legs):
    """One march; see `Progress` for its parameters."""

    def __init__(
        self, engine: Motions, span_s: float, start: Standing, begin_s: float
    ) -> None:
        super().__init__(engine, span_s, start, begin_s)
        self.most_legs = MAX_LEGS
        self.stop_at: StopAt | None = None
        self.fulls: dict[object, repeats.Seen] = {}
        """When the store was full in the present light, by what was due after it."""
        self.period: repeats.Period | None = None
        """How the last one began."""
        self.days: dict[int, repeats.Period] = {}
        """How days began in the present period, by the segment of the light."""
        self.new_segment = True
        self.trials = self.in_vain = self.patience = 0
        """Turns that were tried out; how often in a row in vain; events until the next trial."""

    # ---- the loop ------------------------------------------------------------------------

    def go(
        self, stop_at: StopAt | None, most_legs: int, most_cut_offs: float = inf
    ) -> Trajectory:
        """March to the end.

        Raises
        ------
        Unfinished
            The engine's allowance is spent.
        Interrupted
            Nobody waits for it any more; see `course.until`.
        """
        self.stop_at, self.most_legs = stop_at, most_legs
        clock, last = self.clock, self.end - TIME_GRAIN_S
        allowance = self.engine.allowance
        self.allowance = allowance = allowance if allowance and allowance.counts else None
        stopped, count = asked_to_stop(), 0
        while self.t < last:
            if allowance is not None:
                allowance.spend(1)
            if stopped is not None:
                if count % ASKED_EVERY == 0 and stopped():
                    raise Interrupted
                count += 1
            if stop_at is not None and self._happened(stop_at):
                break
            if (
                len(self.legs) > most_legs or self.at_once > MOST_AT_ONCE
                or self.tally.cut_offs > most_cut_offs
            ):
                break
            now = self.t + TIME_GRAIN_S
            if (
                now >= self.segment_end or now >= clock.window_edge
                or clock.busy or self.stage == "start"
            ):
                self._pass_edges()
                if stop_at is StopAt.FIRST_OPERATION and self.first_operation < inf:
                    break
            if self.new_period:
                self.new_period = False
                self.days.clear()
                self._repeat_periods()
                continue
            if self.new_segment:
                self.new_segment = False
                if stop_at is None and self.engine.days and self._repeat_days():
                    continue
            motions = self.motions()
            if self._switch(motions[2]):
                continue
            if not self.level.exact and self._cruise():
                continue
            if self.stage == "on":
                if clock.busy:
                    if self._run_through():
                        continue
                elif self._take_cycles():
                    continue
                if clock.begin_due(self.t):
                    # Mostly nothing is met before its phases are over.
                    if clock.busy:
                        self._run_through()
                    continue
            self._move(motions)
        return Trajectory(
            self.legs,
            self.events,
            self.tally,
            self.standing(),
            self.t - self.begin_s,
            self.first_operation - self.begin_s,
            self.begin_s,
            self.first_connects,
        )

    def _happened(self, what: StopAt) -> bool:
        if what is StopAt.FIRST_OPERATION:
            return self.first_operation < inf or self.tally.cut_offs >= MOST_TRIES
        return self.tally.cut_offs > 0 if what is StopAt.CUT_OFF else not self.charging

    def _pass_edges(self) -> None:
        """Let the clock's own events happen: light, windows, ends of phases."""
        t = self.t + TIME_GRAIN_S
        while t >= self.segment_end:
            self.segment += 1
            self.new_segment = True
            if self.segment >= len(self.engine.levels):
                self.segment = 0
                self.base += self.engine.edges[-1]
                self.new_period = True
            self.segment_end = self.base + self.engine.edges[self.segment + 1]
            self.level = self.engine.levels[self.segment]
            self.seen.clear()
            self.fulls.clear()
        if self.stage == "start":
            while self.stage == "start" and t >= self.phase_end:
                self._next_start_phase()
        elif self.stage == "on":
            if t >= self.clock.window_edge:
                self.clock.look(self.t)
            if self.clock.busy:
                for j in self.clock.end_phases(self.t):
                    self.tally.served[j] += 1.0

    def _next_start_phase(self) -> None:
        self.start_k += 1
        if self.start_k < len(self.load.start_up):
            self.phase_end += self.load.start_up[self.start_k].duration_s
            return
        self.stage = "on"
        self.phase_end = inf
        self.tally.started += 1
        if self.first_operation == inf:
            self.first_operation, self.first_connects = self.t, self.tally.connects
        self.clock.start(self.t)

    # ---- thresholds ----------------------------------------------------------------------

    def _switch(self, motion: Motion | BlendedMotion) -> bool:
        """Let a threshold that is met take effect; True where something changed."""
        q, field = self.q, self.field
        if self.charging and q >= field.full_c:
            self.charging = False
            self._note("full")
            self._repeat_full()
            return True
        if not self.charging and q <= field.resume_c:
            self.charging = True
            return True
        if self.stage == "off":
            if q >= motion.connect_c and self.engine.may_connect and not self.waits_to_retry:
                self._connect()
                return True
            return False
        if q <= motion.off_c:
            self._cut_off()
            return True
        if self.stage == "on" and self.ready and not self.clock.busy:
            for j, charge in self.ready:
                if q >= charge:
                    # A turn that opens with a connect opens before what that takes at once.
                    if self.noted_at < self.t:
                        self._repeat(("ready", j))
                    self.clock.begin(j, self.t)
                    return True
        return False

    def _connect(self) -> None:
        self._note("connect")
        if self._repeat("connect"):
            return
        self.tally.connects += 1
        self.q = max(self.q - self.engine.inrush_c(self.q), 0.0)
        self.stage, self.start_k = "start", -1
        self.phase_end = self.t
        self._next_start_phase()

    def _cut_off(self) -> None:
        busy = self.stage == "start" or bool(self.clock.busy)
        self._note("brown_out" if busy else "disconnect")
        self.tally.cut_offs += 1
        self.stage = "off"
        self.phase_end = inf
        self.clock.stop()
        self.retry_at = self.t + self.load.retry_delay_s

    # ---- what repeats -------------------------------------------------------------------

    def _repeat(self, event: object) -> bool:
        """Pass over whole turns of a course that has come back to an event, where it has."""
        clock = self.clock
        if self.stage == "on" and any(s < inf for s in clock.next_start):
            return False
        # While off no window is watched, but the turn to come may run into one that opens.
        if self.stage != "on":
            clock.look(self.t)
        where = (event, self.stage, self.charging, clock.busy, clock.small, clock.window_edge)
        before = self.seen.get(where)
        now = self.seen[where] = repeats.seen(self, before)
        if self.patience > 0:
            self.patience -= 1
            return False
        trials = self.trials
        skip = repeats.turns(self, event, before, now, self._tried)
        if skip is None:
            if self.trials > trials:
                self.in_vain = min(self.in_vain + 1, MOST_IN_VAIN)
                self.patience = 2**self.in_vain - 2
            return False
        self.in_vain = 0
        self._pass(skip)
        # Other events keep their memory: skipped turns may be part of a longer turn.
        del self.seen[where]
        return True

    def _repeat_full(self) -> None:
        """Pass over turns of a store that is full now, where they repeat."""
        if self.stop_at is not None:
            # The run ends at a first operation or a cut-off. Neither can lie within the turns that
            # are passed over here: from full down to resume and up again, with no pulse in them.
            # A run that ends when the store is full has come to its end.
            waits = self.stop_at is not StopAt.FULL
            skip = at_full.full_turns(self, pulses_as_mean=False) if waits else None
            if skip is not None:
                self._pass(skip)
            return
        pulses = self.stage == "on" and self.clock.fast is not None and self.engine.compose
        if pulses and self.level.exact and not self.clock.busy:
            place, now = at_full.full_place(self), repeats.seen(self, None)
            then = self.fulls.get(place)
            skip = None if then is None else at_full.full_again(self, then, now)
            if skip is not None:
                self._pass(skip)
                self.fulls.clear()
                return
            self.fulls[place] = now
        first = next(iter(self.fulls.values()), None)
        enough = first is not None and at_full.walked_enough(
            self, first.time_s, len(self.fulls)
        )
        # During a start-up or an operation the course may repeat as a whole, from one such phase to
        # the next. To pass over that saves more than to pass over the turns at full within a phase.
        inside = self.stage == "start" or bool(self.clock.busy)
        if inside and self._repeat("full"):
            return
        skip = at_full.full_turns(self, enough)
        if skip is not None:
            self._pass(skip)
        elif not inside:
            self._repeat("full")

    def _tried(self, start: Standing, begin_s: float, span_s: float) -> Standing | None:
        """Where another run would stand after a time; None where that takes too many legs."""
        self.trials += 1
        trial = Run(self.engine, span_s, start, begin_s)
        end = trial.go(None, MOST_TRIAL_LEGS).end
        return end if trial.t >= trial.end - TIME_GRAIN_S else None

    def _repeat_periods(self) -> None:
        """Copy a whole period of light that left all as it found it, as often as it fits.

        Unlike a turn it is copied leg by leg, as its course is looked at day by day.
        """
        before, now = self.period, repeats.period(self)
        self.period = now
        if self.stop_at is not None or before is None:
            return
        count = repeats.periods(self, before, now, self.most_legs)
        if count > 0:
            self._copy(
                before.charge_c, before.leg, before.event, before.tally,
                now.time_s - before.time_s, count,
            )
            self.seen.clear()
            self.period = None

    def _repeat_days(self) -> bool:
        """Copy a day that left all as it found it, as often as days like it follow."""
        now, alike = repeats.period(self), self.engine.days.get(self.segment)
        self.days[self.segment] = now
        before = None if alike is None else self.days.get(alike.before)
        if alike is None or before is None:
            return False
        count = repeats.days(self, before, now, alike.times, self.most_legs)
        if count == 0:
            return False
        base, edges = self.base, self.engine.edges
        self._copy(before.charge_c, before.leg, before.event, before.tally, DAY_S, count)
        self.clock.wait_for_windows()
        self.base, self.segment = base, self.segment + count * (self.segment - alike.before)
        if self.segment == len(self.engine.levels):
            self.base, self.segment, self.new_period = base + edges[-1], 0, True
        self.segment_end = self.base + edges[self.segment + 1]
        self.level = self.engine.levels[self.segment]
        self.seen.clear()
        self.fulls.clear()
        self.days.clear()
        return True
