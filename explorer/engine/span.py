"""Extremes of a strip of legs over stretches of time, whole turns and cycles taken at once."""

from __future__ import annotations

import numpy as np

from explorer.engine.extent import Extent
from explorer.engine.leg_kinds import BLENDED, PLAIN, TURNS
from explorer.engine.modes import Blend, Modes
from explorer.engine.orbits import Orbits, Passed
from explorer.engine.strip import Strip
from explorer.physics.arrays import FloatArray, IntArray

EVEN = 1e-3
"""Share of a full store that cycles may drift by, each, to count as going straight between."""


class Spans:
    """A strip that is asked how far the store goes.

    Parameters
    ----------
    strip : Strip
        The legs.
    """

    def __init__(self, strip: Strip) -> None:
        self._strip, self._modes = strip, strip.modes
        self._inner = Spans(strip.inner) if strip.inner is not None else None
        length = strip.end_s - strip.begin_s
        self._length_s = length
        unit = length / np.maximum(strip.times, 1.0)
        self._unit_s = np.where(strip.times > 0.0, unit, np.inf)
        """Length of one cycle or turn of a leg, infinite for a plain one. [s]"""
        self._turn: Extent | None = None
        self._whole: Extent | None = None

    def extent(
        self, begin_s: FloatArray, end_s: FloatArray, course: IntArray | int = 0, *,
        coarse: bool = False,
    ) -> Extent:
        """How far the store goes in stretches of time, shape (n,).

        Parameters
        ----------
        begin_s, end_s : ndarray
            Ends of each stretch. [s]
        course : ndarray or int
            Course of each.
        coarse : bool
            Where a stretch lasts longer than a cycle or turn, take one from its beginning and one
            up to its end: a pulse at either end can stand in the stretch beside it.
        """
        return self._extent(begin_s, end_s, course, coarse)[0]

    def sketched(self, begin_s: FloatArray, end_s: FloatArray) -> tuple[Extent, FloatArray]:
        """How far the store goes in stretches of time, coarsely, and its usual charge. [C]

        That is its charge for most of the time in stretches of more than a cycle or turn, NaN
        elsewhere: of a turn its mean, of a load cycle the charge between its pulses.
        """
        return self._extent(begin_s, end_s, 0, coarse=True)

    def _extent(
        self, begin_s: FloatArray, end_s: FloatArray, course: IntArray | int, coarse: bool
    ) -> tuple[Extent, FloatArray]:
        first, a = self._strip.late(begin_s, course)
        last, b = self._strip.early(end_s, course)
        last = np.maximum(last, first)
        one = first == last
        out = Extent.none(len(begin_s))
        stop = np.where(one, np.maximum(a, b), self._length_s[first])
        more = (~one).nonzero()[0]
        # Both ends at once: half as many look-ups.
        legs = np.concatenate([first, last[more]])
        n = len(first)
        usual_c = np.full(len(legs), np.nan)
        found = self._in_legs(
            legs, np.concatenate([a, np.zeros(len(more))]), np.concatenate([stop, b[more]]),
            coarse, usual_c,
        )
        out.put(slice(None), found.part(slice(n)))
        if more.size:
            out.put(more, self.whole.between(first[more], last[more]))
            out.put(more, found.part(slice(n, None)))
            # Of a stretch over several legs the longer end counts, where it is most of it.
            rest = self._length_s[first[more]] - a[more]
            longer = np.where(b[more] > rest, usual_c[n:], usual_c[more])
            most = np.maximum(b[more], rest) >= 0.5 * (end_s - begin_s)[more] * (1.0 - 1e-9)
            usual_c[more] = np.where(most, longer, np.nan)
        return out, usual_c[:n]

    @property
    def whole(self) -> Extent:
        """Extent of each leg."""
        if self._whole is None:
            self._whole = self._whole_legs()
        return self._whole

    def _whole_legs(self) -> Extent:
        """Extent of each leg, from the charges at its ends alone."""
        strip = self._strip
        out = Extent.none(len(self._length_s))
        path = ((strip.kind == PLAIN) | (strip.kind == BLENDED)).nonzero()[0]
        for q in (strip.begin_c[path], strip.end_c[path]):
            lowest_v, lowest_c = self._modes.lowest(strip.row.part(path), q)
            out.put(path, Extent(lowest_c=lowest_c, highest_c=q, lowest_v=lowest_v, end_c=q))
        for orbits, leg in zip(strip.orbits, strip.which_cycles(), strict=True):
            # Not from where it ends: in a bright light all cycles end alike, wherever they began.
            before = np.maximum(strip.times[leg] - 1.0, 0.0).astype(np.intp)
            last_c = orbits.begins(strip.begin_c[leg], before, strip.smooth[leg])
            both = orbits.whole_extent(np.concatenate([strip.begin_c[leg], last_c]))
            out.put(leg, both.part(slice(len(leg))))
            out.put(leg, both.part(slice(len(leg), None)))
        leg = (strip.kind == TURNS).nonzero()[0]
        if leg.size:
            turns, kept = strip.turns.part(leg), self._turn_extent().part(leg)
            for count in (np.zeros(len(leg), np.intp), turns.times.astype(np.intp) - 1):
                out.put(leg, self._shifted(kept, turns.shift(count, np.zeros(len(leg)))))
        return out

    @property
    def courses(self) -> Extent:
        """Extent of each course."""
        return self.whole.joined(self._strip.first[:-1])

    def lowest_connected_v(self) -> FloatArray:
        """Lowest terminal voltage of each course while connected; infinite where never. [V]"""
        strip, volts = self._strip, self._modes.volts
        lowest = np.where(strip.connected, self.whole.lowest_v, np.inf)
        leg = (strip.kind == TURNS).nonzero()[0]
        if leg.size and self._inner is not None:
            inner = self._inner.lowest_connected_v()[strip.place(leg)]
            turns, zero = strip.turns.part(leg), np.zeros(len(leg))
            ends = (np.zeros(len(leg), np.intp), turns.times.astype(np.intp) - 1)
            shift = np.minimum(*(turns.shift(count, zero) for count in ends))
            moved = volts(turns.opening_c + shift) - volts(turns.opening_c)
            lowest[leg] = np.maximum(inner + moved, 0.0)
        return np.asarray(np.minimum.reduceat(lowest, strip.first[:-1]))

    # ---- within legs ---------------------------------------------------------------------

    def _in_legs(
        self, leg: IntArray, a: FloatArray, b: FloatArray, coarse: bool, usual_c: FloatArray
    ) -> Extent:
        """Extent from a time to another within legs.

        Where whole cycles or turns are passed `usual_c` takes what is usual in the middle.
        """
        strip, out = self._strip, Extent.none(len(leg))
        kind = strip.kind[leg]
        path = ((kind == PLAIN) | (kind == BLENDED)).nonzero()[0]
        units = b - a >= self._unit_s[leg] * (1.0 - 1e-9) if coarse else np.zeros(len(leg), bool)
        asked = _Asked()
        if path.size:
            twice = np.concatenate([path, path])
            asked.path(strip, twice, leg[twice], np.concatenate([a[path], b[path]]))
        for orbits, some in strip.cycling(leg):
            whole = units[some]
            fine, rough = some[~whole], some[whole]
            if rough.size:
                extent, between_c, drift_c = self._whole_cycles(
                    orbits, leg[rough], a[rough], b[rough]
                )
                even = np.abs(drift_c) <= EVEN * self._modes.engine.field.full_c
                usual_c[rough[even]] = between_c[even]
                out.put(rough[even], extent.part(even.nonzero()[0]))
                fine = np.concatenate([fine, rough[~even]])
            if fine.size:
                self._in_cycles(orbits, leg[fine], a[fine], b[fine], coarse, fine, out, asked)
        asked.put(self._modes, out)
        turns = kind == TURNS
        rough = (turns & units).nonzero()[0]
        if rough.size:
            extent, usual_c[rough] = self._whole_turns(leg[rough], a[rough], b[rough])
            out.put(rough, extent)
        fine = (turns & ~units).nonzero()[0]
        if fine.size:
            out.put(fine, self._in_turns(leg[fine], a[fine], b[fine], coarse))
        return out

    def _in_cycles(
        self, orbits: Orbits, leg: IntArray, a: FloatArray, b: FloatArray, coarse: bool,
        place: IntArray, out: Extent, asked: _Asked,
    ) -> None:
        """Add what stretches at some places pass of cycles; whole ones between are put at once."""
        strip = self._strip
        first, from_s = strip.cycle_of(orbits, leg, a, late=True)
        last, to_s = strip.cycle_of(orbits, leg, b, late=False)
        last = np.maximum(last, first)
        one = first == last
        more = (~one).nonzero()[0]
        # Both ends at once: half as many look-ups.
        twice = np.concatenate([leg, leg[more]])
        begins = orbits.begins(
            strip.begin_c[twice], np.concatenate([first, last[more]]), strip.smooth[twice]
        )
        inner = (last - first > 1).nonzero()[0]
        for count in (first[inner] + 1, last[inner] - 1) if inner.size else ():
            at = leg[inner]
            begin_c = orbits.begins(strip.begin_c[at], count, strip.smooth[at])
            out.put(place[inner], orbits.whole_extent(begin_c))
        n = len(leg)
        stop = np.where(one, np.maximum(to_s, from_s), orbits.cycle.length_s)
        parts = (
            (begins[:n], from_s, stop, place),
            (begins[n:], np.zeros(len(more)), to_s[more], place[more]),
        )
        for begin_c, since, until, where in parts:
            if not len(begin_c):
                continue
            if coarse:
                passed, whole = orbits.sketched(begin_c, since, until)
                if whole.size:
                    out.put(where[whole], orbits.pulse_extent(begin_c[whole]))
                asked.passed(where, passed)
                continue
            for passed in orbits.between(begin_c, since, until):
                asked.passed(where, passed)

    def _whole_cycles(
        self, orbits: Orbits, leg: IntArray, a: FloatArray, b: FloatArray
    ) -> tuple[Extent, FloatArray, FloatArray]:
        """Extent of a cycle from where stretches begin and of one up to where they end.

        Both lie between the whole cycles there, as the drift of one cycle has it. And the charge
        between pulses in the middle, and that drift.
        """
        strip, n = self._strip, len(leg)
        late, middle = np.concatenate([leg, leg]), 0.5 * (a + b)
        first, into = strip.cycle_of(orbits, late, np.concatenate([a, middle]), late=True)
        last, to_s = strip.cycle_of(orbits, leg, b, late=False)
        thrice = np.concatenate([late, leg])
        begin_c = orbits.begins(
            strip.begin_c[thrice], np.concatenate([first, last]), strip.smooth[thrice]
        )
        first_c, last_c = begin_c[:n], begin_c[2 * n :]
        drift_c = (last_c - first_c) / np.maximum(last - first[:n], 1)
        both = orbits.whole_extent(np.concatenate([first_c, last_c]))
        length = orbits.cycle.length_s
        out = self._shifted(both.part(slice(n)), drift_c * into[:n] / length)
        ends = self._shifted(both.part(slice(n, None)), drift_c * (to_s / length - 1.0))
        out.put(slice(None), ends)
        return out, begin_c[n : 2 * n] + drift_c * into[n:] / length, drift_c

    def _turn_extent(self) -> Extent:
        """Extent of the turn that each leg repeats."""
        if self._turn is None:
            self._turn = Extent.none(len(self._length_s))
            leg = (self._strip.kind == TURNS).nonzero()[0]
            if self._inner is not None:
                self._turn.put(leg, self._inner.courses.part(self._strip.place(leg)))
        return self._turn

    def _whole_turns(
        self, leg: IntArray, a: FloatArray, b: FloatArray
    ) -> tuple[Extent, FloatArray]:
        """Extent of a turn from where stretches begin and of one up to where they end.

        And the mean charge of one in the middle.
        """
        turns, kept = self._strip.turns.part(leg), self._turn_extent().part(leg)
        zero, out = np.zeros(len(leg)), Extent.none(len(leg))
        for time, late in ((a, True), (b, False)):
            count, into = turns.split(time, late)
            begun = count + into / turns.turn_s - (0.0 if late else 1.0)
            out.put(slice(None), self._shifted(kept, turns.shift(begun, zero)))
        usual_c = zero
        if self._strip.inner is not None:
            shift = turns.shift(*turns.split(0.5 * (a + b), late=True))
            usual_c = self._strip.inner.mean_c[self._strip.place(leg)] + shift
        return out, usual_c

    def _in_turns(self, leg: IntArray, a: FloatArray, b: FloatArray, coarse: bool) -> Extent:
        turn, turns = self._inner, self._strip.turns.part(leg)
        assert turn is not None
        course = self._strip.place(leg)
        begins = turn._strip.offset_s[course]
        first, from_s = turns.split(a, late=True)
        last, to_s = turns.split(b, late=False)
        last = np.maximum(last, first)
        one = first == last
        stop = np.where(one, np.maximum(to_s, from_s), turns.turn_s)
        found = turn.extent(begins + from_s, begins + stop, course, coarse=coarse)
        out = self._shifted(found, turns.shift(first, from_s))
        inner = (last - first > 1).nonzero()[0]
        if inner.size:
            part, kept = turns.part(inner), self._turn_extent().part(leg[inner])
            for count in (first[inner] + 1, last[inner] - 1):
                shift = part.shift(count, np.zeros(len(inner)))
                out.put(inner, self._shifted(kept, shift))
        more = (~one).nonzero()[0]
        if more.size:
            at = begins[more]
            found = turn.extent(at, at + to_s[more], course[more], coarse=coarse)
            shift = turns.part(more).shift(last[more], to_s[more])
            out.put(more, self._shifted(found, shift))
        return out

    def _shifted(self, extent: Extent, shift_c: FloatArray) -> Extent:
        """Extent of a turn that lies a little higher or lower than the one it stands for."""
        volts, full_c = self._modes.volts, self._modes.engine.field.full_c
        moved = volts(extent.lowest_c + shift_c) - volts(extent.lowest_c)
        highest = extent.highest_c + shift_c
        # A turn that fills the store fills it, wherever it began.
        highest = np.where(extent.highest_c <= full_c, np.minimum(highest, full_c), highest)
        return Extent(
            lowest_c=extent.lowest_c + shift_c, highest_c=highest,
            lowest_v=np.maximum(extent.lowest_v + moved, 0.0),
            end_c=extent.end_c + shift_c,
        )


class _Asked:
    """Places that are looked at together: quicker than motion by motion."""

    def __init__(self) -> None:
        self._place: list[IntArray] = []
        self._rows: list[Blend] = []
        self._begin_c: list[FloatArray] = []
        self._seconds: list[FloatArray] = []

    def path(self, strip: Strip, place: IntArray, leg: IntArray, since: FloatArray) -> None:
        """Add moments of plain and blended legs, which come first of all."""
        length, begin_c = strip.end_s[leg] - strip.begin_s[leg], strip.begin_c[leg]
        over = since >= length
        begin_c = np.where(over, strip.end_c[leg], begin_c)
        mixed = strip.kind[leg] == BLENDED
        if mixed.any():
            begin_c[mixed] = strip.along_blends(leg[mixed], since[mixed])
        self._place.append(place)
        self._rows.append(strip.row.part(leg))
        self._begin_c.append(begin_c)
        self._seconds.append(np.where(over | mixed, 0.0, since))

    def passed(self, place: IntArray, passed: Passed) -> None:
        """Add what is passed of a phase of cycles."""
        self._place.append(place[passed.place])
        self._rows.append(Blend.single(passed.row))
        self._begin_c.append(passed.begin_c)
        self._seconds.append(passed.seconds)

    def put(self, modes: Modes, out: Extent) -> None:
        """Move all of them, and widen what they belong to."""
        if not self._place:
            return
        row = Blend.all_of(self._rows)
        q, seconds = np.concatenate(self._begin_c), np.concatenate(self._seconds)
        moves = (seconds > 0.0).nonzero()[0]
        q[moves] = modes.along(row.low[moves], q[moves], seconds[moves])
        lowest_v, lowest_c = modes.lowest(row, q)
        extent = Extent(lowest_c=lowest_c, highest_c=q, lowest_v=lowest_v, end_c=q)
        out.put_each(np.concatenate(self._place), extent)
