"""The residuals of a run as a function of what is fitted, and their derivatives."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from copy import copy
from dataclasses import replace

import numpy as np
from pydantic import ValidationError

from explorer.advice.bench.conditions import under_conditions
from explorer.advice.bench.forecast import Beginning, first_beginning, forecast, window_s
from explorer.advice.bench.noise import noise_of
from explorer.advice.bench.parameters import Parameter, sees_pulses, with_values
from explorer.advice.bench.steps import step_of, until_cut_off
from explorer.advice.bench.unsure import Unsure, moved, unsure
from explorer.advice.case import Case
from explorer.physics.arrays import FloatArray
from explorer.scenario.logged_run import BenchRun, thinned

Stopped = Callable[[], bool]

FIT_ROWS = 1500
"""Rows that are fitted; more would only repeat each other."""
STEP = 5e-3
"""Relative step of the differences for the Jacobian; well above what the tables round."""
FIRST_VOLT_STEP_V = 1e-3
SCALE_V = 0.01
"""Unit of the fitted beginning, so that it weighs like the logarithm of a value. [V]"""
LEAST_PART = 5
"""Rows without which the forecast does not begin anew."""
AT_REST = 10.0
"""Weight of a reading at rest: it has noise alone, the others what the model leaves out too."""
REST_V = 2e-3
"""How far beside its noise a reading at rest may be off. [V]"""
FAR_V = 10.0
"""Residual of values that make no scenario. [V]"""


class Halt(Exception):
    """Somebody asked to stop."""


class Problem:
    """Residuals of a run as a function of the fitted values.

    The unknowns are the logarithms of the values over their starts, and then the voltages at each
    beginning in units of `SCALE_V`.
    """

    def __init__(
        self,
        case: Case,
        run: BenchRun,
        chosen: Sequence[Parameter],
        stopped: Stopped,
        known: Mapping[str, float],
    ) -> None:
        self.case = case
        scenario = under_conditions(case, run).scenario
        self.chosen, self.stopped = tuple(chosen), stopped
        paths = tuple(p.path for p in self.chosen)
        run, rows = until_cut_off(run, scenario.load.disconnect_V), FIT_ROWS
        self.with_pulses = sees_pulses(scenario, run)
        if self.with_pulses:
            # Every row must hold at least one pulse for its lowest reading to say anything.
            rows = int(np.clip(run.span_s / (1.01 * window_s(scenario, run)), 8, FIT_ROWS))
        self.run = thinned(run, rows)
        self.full = self._full_stretches()
        self.starts = self._starts()
        step = step_of(self.run) if self.starts[0].at_rest else None
        self.unread = step.rows if step is not None else 0
        self.unsure = unsure(self.case, self.run, paths, known)
        self.evaluations = 0
        bounds = [(np.log(p.low / p.start), np.log(p.high / p.start)) for p in self.chosen]
        wide = [REST_V + 4.0 * noise_of(self.run.volts) if s.at_rest else 0.5 for s in self.starts]
        bounds += [(-most / SCALE_V, most / SCALE_V) for most in wide]
        self.low, self.high = np.array(bounds).T

    @property
    def under(self) -> Case:
        """The device under the conditions of the run."""
        return under_conditions(self.case, self.run)

    def _full_stretches(self) -> list[tuple[int, int]]:
        """Rows in which the run is full: from near the top until it has left the hysteresis."""
        charger, volts = self.under.scenario.charger, self.run.volts
        room, found, since = charger.full_hysteresis_V, [], -1
        left_v = charger.full_V - room - max(0.3 * room, 4.0 * noise_of(volts))
        for row, reading in enumerate(volts.tolist()):
            if since < 0 and reading >= charger.full_V - 0.5 * room:
                since = row
            elif since >= 0 and reading < left_v:
                found.append((since, row))
                since = -1
        return [*found, (since, len(volts))] if since >= 0 else found

    def _starts(self) -> tuple[Beginning, ...]:
        """The first reading, and each at which the run is no longer full."""
        volts = self.run.volts
        again = [row for _, row in self.full if row < len(volts) - LEAST_PART]
        return (
            first_beginning(self.under, self.run),
            *(Beginning(first_v=float(volts[r]), connected=True, row=r) for r in again),
        )

    def values(self, unknowns: FloatArray) -> dict[str, float]:
        """Value under each path."""
        return {
            p.path: float(np.clip(p.start * np.exp(u), p.low, p.high))
            for p, u in zip(self.chosen, unknowns.tolist(), strict=False)
        }

    def begins(self, unknowns: FloatArray) -> tuple[Beginning, ...]:
        """Where the forecast begins."""
        moved = SCALE_V * unknowns[len(self.chosen) :]
        return tuple(
            replace(start, first_v=start.first_v + by)
            for start, by in zip(self.starts, moved.tolist(), strict=True)
        )

    def residuals(self, unknowns: FloatArray) -> FloatArray:
        """Reading less forecast at every row, and of the lowest readings where pulses show. [V]"""
        case, run = self.case, self.run
        if self.stopped():
            raise Halt
        self.evaluations += 1
        try:
            scenario = with_values(case.scenario, self.values(unknowns))
            there = under_conditions(case.with_scenario(scenario), run)
            found = forecast(there, run, self.begins(unknowns), lowest=self.with_pulses)
        except (ValidationError, ValueError):
            return np.full(len(run.volts) * (1 + self.with_pulses), FAR_V)
        missed = self._missed(run.volts, found.terminal_v)
        parts = [missed]
        if self.with_pulses:
            parts.append(run.low_v - found.terminal_min_v)
        if self.unread:
            # While a current steps in, nothing is compared but the reading at rest before it.
            for part in parts:
                part[: self.unread] = 0.0
            missed[0] = AT_REST * (float(run.volts[0]) - self.begins(unknowns)[0].first_v)
        return np.concatenate(parts)

    def _missed(self, volts: FloatArray, forecast_v: FloatArray) -> FloatArray:
        """Readings less forecast, where both are full nothing. [V]"""
        charger = self.case.scenario.charger
        resume_v = charger.full_V - charger.full_hysteresis_V
        missed = np.minimum(volts, resume_v) - np.minimum(forecast_v, resume_v)
        for first, end in self.full:
            # Once it was full too, a forecast may fall back below at another moment than the run.
            reached = np.maximum.accumulate(np.minimum(forecast_v[first:end], resume_v))
            missed[first:end] = resume_v - reached
        return missed

    def with_moved(self, one: Unsure, share: float) -> Problem | None:
        """The same run with something unsure moved; None where no scenario is that way."""
        there = moved(one, self.case, self.run, share)
        if there is None:
            return None
        other = copy(self)
        other.case, other.run = there
        return other

    def is_like(self, other: Problem) -> bool:
        """Whether nothing differs that this run would show."""
        return self.run is other.run and self.under.scenario == other.under.scenario and (
            self.under.log is other.under.log
        )

    def unsure_by(self, unknowns: FloatArray, one: Unsure) -> FloatArray:
        """What one standard deviation of something unsure adds to the residuals. [V]

        Either way, shape (2, rows), as where it is more; where one side makes no scenario, both
        are what the other adds. A device that cuts off answers both sides otherwise.
        """
        here = self.residuals(unknowns)
        sides: dict[float, FloatArray] = {}
        for sign in (1.0, -1.0):
            there = self.with_moved(one, sign * one.deviation)
            if there is not None and not there.is_like(self):
                missed = there.residuals(unknowns)
                if not np.all(missed == FAR_V):
                    sides[sign] = sign * (missed - here)
        nothing = np.zeros_like(here)
        return np.array([sides.get(s, sides.get(-s, nothing)) for s in (1.0, -1.0)])

    def begun_otherwise(self) -> Problem | None:
        """The same run of a device that is off where it was taken as on, or the other way round.

        None where the first reading, or what was told of it, leaves no doubt.
        """
        load, first = self.under.scenario.load, self.starts[0]
        if self.run.conditions.connected is not None:
            return None
        if first.at_rest or not load.disconnect_V < first.first_v < load.connect_V:
            return None
        other = copy(self)
        other.starts = (replace(first, connected=not first.connected), *self.starts[1:])
        return other

    def jacobian(self, unknowns: FloatArray, step: float = STEP) -> FloatArray:
        """Derivatives by central differences, shape (rows, unknowns).

        The rows of one beginning do not know the others, so all are moved at once.
        """
        n = len(self.chosen)
        moves = [np.eye(len(unknowns))[i] * step for i in range(n)]
        moves.append(np.where(np.arange(len(unknowns)) < n, 0.0, FIRST_VOLT_STEP_V / SCALE_V))
        slopes = []
        for move in moves:
            up = np.clip(unknowns + move, self.low, self.high)
            down = np.clip(unknowns - move, self.low, self.high)
            width = max(float(np.max(up - down)), 1e-12)
            slopes.append((self.residuals(up) - self.residuals(down)) / width)
        by_start = slopes.pop()
        rows = np.arange(len(self.run.volts))
        part = np.searchsorted([s.row for s in self.starts], rows, side="right") - 1
        part = np.tile(part, len(by_start) // len(part))
        own = [np.where(part == k, by_start, 0.0) for k in range(len(self.starts))]
        return np.column_stack([*slopes, *own])
