"""The kinds of legs that a march is made of: motions, pulses, whole cycles, readings of a log."""

from __future__ import annotations

from bisect import bisect_right
from math import ceil, floor, inf, sqrt

from explorer.engine import repeats
from explorer.engine.course import Allowance, Leg, Standing
from explorer.engine.flows import blended
from explorer.engine.keys import On
from explorer.engine.motions import Active, Motions, Phases, Stretches
from explorer.engine.progress import NEW, Followed, Progress
from explorer.engine.schedule import TIME_GRAIN_S

READINGS = 3
"""Readings of a log that cost as much as one event."""
MANY = 12
"""Phases of an operation above which its runs are composed, whole or in blocks of them, even
where nothing repeats."""

OWN_MOMENTS_S = 6 * 3600.0
"""Interval from which on the runs of an operation are not spread over it under a measured log; a
thousand of them a year cost less than its readings. [s]"""

Where = tuple[float, bool, tuple[int, ...], int, Active]
"""Light, charger state, averaged operations, an operation that runs, and those beside it."""


class Legs(Progress):
    """A march that adds leg after leg; what happens between them is not decided here."""

    def __init__(
        self, engine: Motions, span_s: float, start: Standing, begin_s: float
    ) -> None:
        super().__init__(engine, span_s, start, begin_s)
        self.seen: dict[object, repeats.Seen] = {}
        """Events of the present light as they were met last time."""
        self.new_period = False
        """Whether a period of the light has just begun."""
        self.allowance: Allowance | None = None
        """What the march may spend, with others; None for as much as it needs."""

    def _move(self, motions: Followed) -> None:
        """One plain leg: to the next clock event or threshold."""
        low_m, high_m, motion = motions
        begin_s, stage, clock = self.t, self.stage, self.clock
        until = self.segment_end if self.segment_end < self.end else self.end
        low, high = (-inf, self.field.full_c) if self.charging else (self.field.resume_c, inf)
        if stage == "off":
            if self.waits_to_retry:
                until = min(until, self.retry_at)
            elif self.engine.may_connect:
                high = min(high, motion.connect_c)
        else:
            low = max(low, motion.off_c)
            moment = self.phase_end if stage == "start" else clock.next_moment(begin_s)
            until = min(until, moment)
            if self.ready and stage == "on" and not clock.busy:
                high = min(high, *(charge for _, charge in self.ready))
        seconds = until - begin_s
        q, used = motion.flow.run(self.q, seconds, low, high)
        end = begin_s + used if used < seconds else until
        self._count(end - begin_s)
        self._add(end, q, low_m, high_m)

    def _run_through(self) -> bool:
        """Run through the phases of an operation at work; False where anything is met.

        Nothing else may be due before it ends: what else happens is left to the loop.
        """
        clock, level = self.clock, self.level
        if not level.exact:
            return False
        (j, k), beside = clock.busy[0], clock.busy[1:]
        phase_end = clock.phase_end(j)
        horizon = min(self.segment_end, self.end, clock.window_edge, *clock.next_start)
        if beside:
            j, k = min(clock.busy, key=lambda one: clock.phase_end(one[0]))
            phase_end = clock.phase_end(j)
            beside = tuple(one for one in clock.busy if one[0] != j)
            other_end = min(clock.phase_end(other) for other, _ in beside)
            horizon = min(horizon, other_end - 2.0 * TIME_GRAIN_S)
        if phase_end > horizon:
            return False
        where = (level.low_a, self.charging, clock.small, j, beside)
        count = len(self.operations[j].phases)
        block = count
        if count > MANY:
            block = ceil(sqrt(count))
            ends = {0: (count, block)}.get(k, (k + block,)) if k % block == 0 else ()
            if any(
                self._take_phases(where, phase_end, k, min(end, count), horizon) for end in ends
            ):
                return True
        phases = self.engine.found_phases.get(where) or self._find_phases(where)
        field, charging, offset = self.field, self.charging, self.begin_s
        low, high = (-inf, field.full_c) if charging else (field.resume_c, inf)
        begun = t = self.t
        q, first = self.q, k
        while q < high if charging else q > low:
            motion, flow, off_c, _ = phases[k]
            if q <= off_c:
                break
            end = phase_end
            to, used = flow.run(q, end - t, low if low > off_c else off_c, high)
            met = used < end - t
            if met:
                end = t + used
            if end > t:
                self.legs.append(NEW(Leg, (
                    t - offset, end - offset, q, to, level, charging, True, motion, motion,
                    None, None,
                )))
            t, q = end, to
            if met:
                break
            k += 1
            if k == len(phases):
                self.tally.served[j] += 1.0
                break
            phase_end += phases[k][3]
            if phase_end > horizon or (k % block == 0 and block < count):
                break
        if k == first and t == begun:
            return False
        self.t, self.q = t, q
        self._count(t - begun)
        clock.come_to(j, k, phase_end)
        return True

    def _find_phases(self, where: Where) -> Phases:
        level, charging, small, j, beside = where
        engine, phases = self.engine, self.operations[j].phases
        draws = {k: On(small, tuple(sorted([*beside, (j, k)]))) for k in set(engine.alike[j])}
        motions = {k: engine.motion(level, charging, draw) for k, draw in draws.items()}
        found = self.engine.found_phases[where] = tuple(
            (motions[k], motions[k].flow, motions[k].off_c, phase.duration_s)
            for k, phase in zip(engine.alike[j], phases, strict=True)
        )
        return found

    def _take_phases(
        self, where: Where, phase_end: float, first: int, after: int, horizon: float
    ) -> bool:
        """Take phases of a run as one leg, where the first has just begun and nothing is met."""
        level, charging, small, j, beside = where
        engine, clock, phases = self.engine, self.clock, self.operations[j].phases
        name = (*where, first, after)
        found = engine.found_cycles.get(name)
        if found is None:
            found = engine.found_cycles[name] = (
                engine.cycle(level, charging, small, j, (first, after), beside),
                engine.motion(level, charging, On(small, beside)),
            )
        run, motion = found
        begun = phase_end - phases[first].duration_s
        end = begun + run.length_s
        if not engine.compose or begun > self.t + TIME_GRAIN_S or end > horizon:
            return False
        if run.whole_span(self.q) is None:
            return False
        self._count(end - self.t)
        self._add(end, run.map.at(self.q), motion, motion, (run, run))
        over = after == len(phases)
        if over:
            self.tally.served[j] += 1.0
        clock.come_to(j, after, end if over else end + phases[after].duration_s)
        return True

    def _take_cycles(self) -> bool:
        """Take whole load cycles at once; False where the store must be walked."""
        clock, begin_s, q = self.clock, self.t, self.q
        fast = clock.fast
        if fast is None or clock.next_start[fast] > begin_s + 2 * TIME_GRAIN_S:
            return False
        engine, level, charging, small = self.engine, self.level, self.charging, clock.small
        if not engine.compose or not level.exact:
            return False
        interval = clock.interval_s(fast)
        until = min(self.segment_end, self.end, clock.others_due(), clock.window_edge)
        at_most = floor((until - begin_s) / interval + 1e-9)
        if at_most < 1:
            return False
        where = (level.low_a, charging, small, fast)
        found = engine.found_cycles.get(where)
        if found is None:
            found = engine.found_cycles[where] = (
                engine.cycle(level.low_a, charging, small, fast),
                engine.motion(level.low_a, charging, On(small)),
            )
        cycle, motion = found
        span = cycle.smooth_span(q)
        if span is not None:
            low, high = self._inside(span)
            flow, count = cycle.generator, at_most
            end_c, used = flow.run(q, at_most * interval, low, high)
            if used < at_most * interval:
                count = min(floor(used / interval + 1e-9), at_most)
                end_c = flow.advance(q, count * interval)
        else:
            whole = cycle.whole_span(q)
            if whole is None:
                return False
            low, high = self._inside(whole)
            end_c, count = cycle.leap(q, at_most, low, high)
        if count < at_most and low <= end_c <= high:
            # One more begins within the bounds, and ends beyond them.
            reached = cycle.map.at(end_c)
            if not self.ready or all(reached < charge for _, charge in self.ready):
                end_c, count = reached, count + 1
        if count < 1:
            return False
        self._count(count * interval)
        self._add(begin_s + count * interval, end_c, motion, motion, (cycle, cycle))
        self.tally.served[fast] += count
        clock.after_cycles(fast, self.t)
        return True

    def _inside(self, span: tuple[float, float]) -> tuple[float, float]:
        low, high = span
        if self.charging:
            high = min(high, self.field.full_c)
        else:
            low = max(low, self.field.resume_c)
        for _, charge in self.ready:
            high = min(high, charge)
        return low, high

    def _cruise(self) -> bool:
        """Run through the readings of a log in one go, until something else happens.

        Pulses are taken along the generator, in fractions of a cycle, unless they are seldom.
        False where the store must be walked.
        """
        clock, on = self.clock, self.stage == "on"
        if self.stage == "start" or clock.busy or (on and self.ready):
            return False
        if self.waits_to_retry:
            return False
        fast, limit = None, self.end
        if on:
            fast = clock.fast
            if fast is not None and not self.engine.compose:
                return False
            if fast is not None and clock.interval_s(fast) >= OWN_MOMENTS_S:
                # Its runs are few and move the store: each has its own moment.
                limit, fast = min(limit, clock.next_start[fast]), None
            limit = min(limit, clock.others_due(), clock.window_edge)
        stretches = self.engine.stretches(self.charging, self.draw(), fast)
        begin_t, legs = self.t, len(self.legs)
        if self.charging:
            self._follow(stretches, limit)
        else:
            self._coast(stretches, limit)
        t = self.t
        if t <= begin_t:
            return False
        if self.allowance is not None:
            self.allowance.spend((len(self.legs) - legs) // READINGS)
        self._count(t - begin_t)
        if fast is not None:
            passed = clock.passed(fast, t)
            self.tally.served[fast] += passed
            clock.pass_starts(fast, passed)
        return True

    def _follow(self, stretches: Stretches, limit: float) -> None:
        """Follow reading after reading while nothing else happens."""
        engine, made, add = self.engine, stretches.made, self.legs.append
        edges, levels, last = engine.edges, engine.levels, len(engine.levels) - 1
        connects, on, offset = engine.may_connect, self.stage == "on", self.begin_s
        t, q, segment, base = self.t, self.q, self.segment, self.base
        segment_end, stop = self.segment_end, limit - TIME_GRAIN_S
        while t < stop:
            pair, level = made[segment] or stretches.make(segment), levels[segment]
            weight, until = level.weight, segment_end if segment_end < limit else limit
            low_c, high_c = pair.low_c, pair.high_c
            if pair.cycles is None:
                low_c, high_c = pair.bounds(weight, connects)
            if not low_c < q < high_c:
                break
            first, second = pair.flows
            if level.exact:
                to, used = first.run(q, until - t, low_c, high_c)
            else:
                to, used = blended(first, second, weight, q, until - t, low_c, high_c)
            met = used < until - t
            end = t + used if met else until
            add(NEW(Leg, (
                t - offset, end - offset, q, to, level, True, on, pair.low, pair.high,
                pair.cycles, None,
            )))
            t, q = end, to
            if met:
                break
            if t >= segment_end - TIME_GRAIN_S:
                segment += 1
                if segment > last:
                    segment, base = 0, base + edges[-1]
                    self.new_period = True
                segment_end = base + edges[segment + 1]
                if self.new_period:
                    break
        if segment != self.segment or base != self.base:
            self.seen.clear()
        self.t, self.q, self.segment, self.base = t, q, segment, base
        self.segment_end, self.level = segment_end, levels[segment]

    def _coast(self, stretches: Stretches, limit: float) -> None:
        """Let a store that does not charge go on: one motion, whatever the readings are."""
        edges, t, q = self.engine.edges, self.t, self.q
        pair = stretches.made[self.segment] or stretches.make(self.segment)
        low_c, high_c = pair.bounds(0.0, self.engine.may_connect)
        period_end = self.base + edges[-1]
        until = min(limit, period_end)
        if t >= until - TIME_GRAIN_S or not low_c < q < high_c:
            return
        to, used = pair.flows[0].run(q, until - t, low_c, high_c)
        end = t + used if used < until - t else until
        self._add(end, to, pair.low, pair.low, pair.cycles)
        if end < self.segment_end - TIME_GRAIN_S:
            return
        self.seen.clear()
        if end >= period_end - TIME_GRAIN_S:
            self.segment, self.base, self.new_period = 0, period_end, True
        else:
            self.segment = bisect_right(edges, end + TIME_GRAIN_S - self.base) - 1
        self.segment_end = self.base + edges[self.segment + 1]
        self.level = self.engine.levels[self.segment]
