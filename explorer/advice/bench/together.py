"""Several runs of one device as one problem: common values, and beginnings of every run's own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.bench.noise import noise_of
from explorer.advice.bench.parameters import Parameter
from explorer.advice.bench.problem import Problem, Stopped
from explorer.advice.bench.unsure import Unsure
from explorer.advice.case import Case
from explorer.physics.arrays import FloatArray
from explorer.scenario.logged_run import BenchRun

LEAST_NOISE_V = 1e-3
"""Noise that every run is taken to have at least when runs are weighed against each other. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Common:
    """Something unsure, and how each run that knows of it is moved by it."""

    label: str
    name: str
    """Under which another fit has the same thing; empty where nothing else has it."""
    lasts: bool
    deviation: float
    by_run: Mapping[int, Unsure]


class Together:
    """Residuals of all runs as a function of the unknowns.

    The unknowns are those of `Problem`: the values first, then the beginnings of one run after
    another. Residuals of a run that is noisier than the calmest one weigh less.

    Parameters
    ----------
    case : Case
        The device, as designed.
    runs : sequence of BenchRun
        At least one, each with its conditions.
    chosen, stopped, known
        As of `Problem`.
    """

    def __init__(
        self,
        case: Case,
        runs: Sequence[BenchRun],
        chosen: Sequence[Parameter],
        stopped: Stopped,
        known: Mapping[str, float],
    ) -> None:
        self.given, self.runs, self.chosen = case, tuple(runs), tuple(chosen)
        self.parts = tuple(Problem(case, run, chosen, stopped, known) for run in runs)
        noise = [max(noise_of(part.run.volts), LEAST_NOISE_V) for part in self.parts]
        self.weights = tuple(min(noise) / one for one in noise)
        self.places = self._places()
        n = len(self.chosen)
        self.low, self.high = (
            np.concatenate([getattr(self.parts[0], side)[:n]]
                           + [getattr(part, side)[n:] for part in self.parts])
            for side in ("low", "high")
        )  # fmt: skip
        self.unsure = self._unsure()

    def _places(self) -> tuple[NDArray[np.intp], ...]:
        """Where the unknowns of each run stand among all."""
        n, at, found = len(self.chosen), len(self.chosen), []
        for part in self.parts:
            own = np.arange(at, at + len(part.starts))
            found.append(np.concatenate([np.arange(n), own]))
            at += len(own)
        return tuple(found)

    def _unsure(self) -> tuple[Common, ...]:
        """What is one thing in all runs is moved in all of them together."""
        groups: dict[tuple[str, int], dict[int, Unsure]] = {}
        for place, part in enumerate(self.parts):
            for row, one in enumerate(part.unsure):
                key = (one.shared, -1) if one.shared else (f"{place} {row}", place)
                groups.setdefault(key, {})[place] = one
        first = [next(iter(group.values())) for group in groups.values()]
        return tuple(
            Common(
                label=one.label, name=one.shared, lasts=one.lasts, deviation=one.deviation,
                by_run=group,
            )
            for one, group in zip(first, groups.values(), strict=True)
        )  # fmt: skip

    @property
    def evaluations(self) -> int:
        """Forecasts so far."""
        return sum(part.evaluations for part in self.parts)

    def values(self, unknowns: FloatArray) -> dict[str, float]:
        """Value under each path."""
        return self.parts[0].values(unknowns)

    def split(self, rows: FloatArray) -> list[FloatArray]:
        """Rows of all runs as those of each."""
        sizes = [len(part.run.volts) * (1 + part.with_pulses) for part in self.parts]
        return list(np.split(rows, np.cumsum(sizes)[:-1]))

    def residuals(self, unknowns: FloatArray) -> FloatArray:
        """Readings less forecast, of one run after another, weighed. [V]"""
        return np.concatenate(
            [
                weight * part.residuals(unknowns[place])
                for part, place, weight in zip(self.parts, self.places, self.weights, strict=True)
            ]
        )

    def jacobian(self, unknowns: FloatArray, step: float | None = None) -> FloatArray:
        """Derivatives, shape (rows, unknowns)."""
        blocks = []
        for part, place, weight in zip(self.parts, self.places, self.weights, strict=True):
            own = unknowns[place]
            slopes = part.jacobian(own) if step is None else part.jacobian(own, step)
            block = np.zeros((len(slopes), len(unknowns)))
            block[:, place] = weight * slopes
            blocks.append(block)
        return np.concatenate(blocks)

    def with_moved(self, one: Common, share: float) -> Together | None:
        """The same runs with something unsure moved; None where no scenario is that way."""
        parts = list(self.parts)
        for place, own in one.by_run.items():
            there = self.parts[place].with_moved(own, share)
            if there is None:
                return None
            parts[place] = there
        return self._with(parts)

    def unsure_by(self, unknowns: FloatArray, one: Common) -> FloatArray:
        """What one standard deviation of something unsure adds to the residuals, each way. [V]

        Shape (2, rows), as `Problem.unsure_by`.
        """
        columns = []
        for i, (part, place) in enumerate(zip(self.parts, self.places, strict=True)):
            if i in one.by_run:
                columns.append(self.weights[i] * part.unsure_by(unknowns[place], one.by_run[i]))
            else:
                columns.append(np.zeros((2, len(part.run.volts) * (1 + part.with_pulses))))
        return np.concatenate(columns, axis=1)

    def begun_otherwise(self) -> tuple[Together, ...]:
        """The same runs, each with one that began with the device off in place of on, or on.

        Only of runs whose beginning is in doubt.
        """
        found = []
        for place, part in enumerate(self.parts):
            other = part.begun_otherwise()
            if other is not None:
                parts = list(self.parts)
                parts[place] = other
                found.append(self._with(parts))
        return tuple(found)

    def _with(self, parts: Sequence[Problem]) -> Together:
        other = copy(self)
        other.parts = tuple(parts)
        return other
