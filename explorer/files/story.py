"""The logged runs of one device that are held against its design."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from explorer.files.table_reader.told import Told
from explorer.scenario.logged_run import Conditions


@dataclass(frozen=True, slots=True, kw_only=True)
class RunFile:
    """One logged run."""

    path: Path
    told: Told = field(default_factory=Told)
    """What a person said of a file that can be read in two ways."""
    conditions: Conditions = field(default_factory=Conditions)
    is_later: bool = False
    """Whether it was logged months after the others, to see what has aged."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Story:
    """All runs, in the order in which they were opened."""

    runs: tuple[RunFile, ...] = ()
    same_meter: bool = True
    """Whether later runs were logged with the meters of the others."""
    known: tuple[tuple[str, float], ...] = ()
    """How well values that are not fitted are known, as shares under their paths."""

    def with_run(self, place: int, run: RunFile) -> Story:
        """With one run put in the place of another, or behind all."""
        runs = (*self.runs[:place], run, *self.runs[place + 1 :])
        return replace(self, runs=runs)

    def without(self, place: int) -> Story:
        """With one run less."""
        return replace(self, runs=(*self.runs[:place], *self.runs[place + 1 :]))

    def with_grown(self, path: Path, *, adding: bool) -> Story:
        """With a run that has more readings than before, which may be new here.

        Parameters
        ----------
        path : pathlib.Path
            Its file.
        adding : bool
            Whether a new one stands behind the others, rather than alone.
        """
        if any(run.path == path for run in self.runs):
            return self
        for place, run in enumerate(self.runs):
            if run.path.name == path.name:  # a study holds a copy of what it was
                return self.with_run(place, replace(run, path=path))
        new = RunFile(path=path)
        return replace(self, runs=(*self.runs, new) if adding else (new,))

    def places(self, *, later: bool) -> tuple[int, ...]:
        """Where the runs of one sitting stand."""
        return tuple(i for i, run in enumerate(self.runs) if run.is_later == later)
