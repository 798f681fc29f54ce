"""A case: a design and the light that was measured for it, with what was computed for it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import wraps
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from explorer.advice.variants import varied
from explorer.engine.course import Allowance, Unfinished
from explorer.engine.library import Library
from explorer.engine.march import Engine
from explorer.engine.system import System
from explorer.scenario.build import build
from explorer.scenario.light import Light
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.weather import WeatherYear
from explorer.scenario.year_course import darkest, month_system, months_of
from explorer.scenario.year_light import YearLight, year_light
from explorer.text import say

T = TypeVar("T")

TABLES = Library()
"""Tables that all cases of this process share: most edits change a few of them."""


CASE_BYTES, LEG_BYTES = 3_000_000, 300
"""About what a judged design keeps: its tables, and each leg of its runs. Measured on the bundled
scenarios with knobs moved; a run has some hundred legs, or 400 000. [bytes]"""
YEAR_STUDY = "year study"
"""Under which the runs of a year hang on a case."""


class _Missing:
    """Stands for what was not made yet."""


_MISSING = _Missing()


class Unjudgeable(ValueError):
    """A design that cannot be judged; the message says so to a person."""


@contextmanager
def judging() -> Iterator[None]:
    """A stretch of computing that ends in a sentence where numbers run out of range."""
    try:
        with np.errstate(all="ignore"):
            yield
    except ArithmeticError:
        raise Unjudgeable(CANNOT) from None


CANNOT = say(
    "This design cannot be judged: some of its values lie so far apart that they cannot be "
    "computed with. Look for a wrong unit or a wrong power of ten."
)


@dataclass(frozen=True, slots=True, eq=False)
class Case:
    """A scenario and its log, which travel as one thing.

    What is computed for a case hangs on it and is computed once: the system, the engine, and
    whatever a function marked with `kept` gives. Two cases of one scenario are two cases.

    Parameters
    ----------
    scenario : Scenario
        Validated scenario.
    log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
    weather : WeatherYear, optional
        The measured weather, where the scenario's daylight comes from a file.
    """

    scenario: Scenario
    log: LightLog | None = None
    weather: WeatherYear | None = None
    _memory: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False)
    _shared: dict[Hashable, Any] = field(default_factory=dict, repr=False)
    """What holds under any margins; nothing in it refers to a case."""

    def once(self, key: Hashable, make: Callable[[], T]) -> T:
        """What was made under a key, made at the first call.

        Raises
        ------
        Unjudgeable
            Its numbers run out of range.
        """
        return _once(self._memory, key, make)

    def once_under_any_margins(self, key: Hashable, make: Callable[[], T]) -> T:
        """The same for what the margins change nothing of: cases that differ in these share it."""
        return _once(self._shared, key, make)

    def knows(self, key: Hashable) -> bool:
        """Whether something was made under a key."""
        return key in self._memory

    @property
    def size(self) -> int:
        """About how much of memory it takes; of a year, its darkest month alone. [bytes]"""
        engine: Engine | None = self._shared.get("engine")
        return CASE_BYTES + (0 if engine is None else LEG_BYTES * engine.walked.legs)

    def __reduce__(
        self,
    ) -> tuple[type[Case], tuple[Scenario, LightLog | None, WeatherYear | None]]:
        """Copied to another process, a case is computed there anew."""
        return Case, (self.scenario, self.log, self.weather)

    def forget(self) -> None:
        """Let go of what was computed, of a design that is looked at once.

        What hangs on a case refers back to it, so that it would stay until the collector of cycles
        comes by: a search of some hundred designs holds gigabytes by then.
        """
        self._memory.clear()

    @property
    def year(self) -> YearLight | None:
        """The year of light, where the design lives in one; else None.

        ValueError where it follows a weather file and there is none.
        """
        light = self.scenario.light
        if light.pattern.kind != "daylight":
            return None
        return self.once_under_any_margins("year", lambda: year_light(light, self.weather))

    @property
    def light(self) -> Light:
        """The scenario's light; in a year with its sources together, as warm as it is while lit."""
        if self.year is None:
            return self.scenario.light
        source, share = self.year.spectrum()
        return self.scenario.light.model_copy(update={
            "source": source, "daylight_share": share, "ambient_C": self.year.mean_lit_c,
        })

    @property
    def mean_lit_lx(self) -> float:
        """Mean of a log, or of a year of daylight, while lit; 0 where there is neither. [lx]"""
        if self.year is not None:
            return self.year.mean_lit_lx
        return 0.0 if self.log is None else self.log.mean_lit_lx

    @property
    def is_long(self) -> bool:
        """Whether its light has thousands of levels, so that every march takes a while."""
        return self.log is not None or self.scenario.light.pattern.kind == "daylight"

    @property
    def period_s(self) -> float:
        """Time after which the light repeats. [s]"""
        if self.year is not None:
            return len(self.year.daylight_lx) * self.year.step_s
        return self.system.light.period_s

    @property
    def system(self) -> System:
        """What the engine is given: of a year, in its darkest month.

        ValueError where the pattern is a log and there is none.
        """
        return self.once_under_any_margins("system", self._built)

    def _built(self) -> System:
        if self.year is None:
            return build(self.scenario, self.log)
        from explorer.advice.year.study import wear_of  # which runs cases

        return month_system(darkest(months_of(self.scenario, self.year)), wear_of(self))

    @property
    def engine(self) -> Engine:
        """The system made ready to be marched."""
        return self.once_under_any_margins(
            "engine", lambda: Engine(self.system, library=TABLES)
        )

    @contextmanager
    def within(self, events: int) -> Iterator[None]:
        """A stretch of computing that is given up where its marches come through many events.

        Some 10 microseconds each, so that a window can try before it hands a case to a worker. What
        was computed until then stays, and the same case goes on from there.

        Raises
        ------
        Unfinished
            From within, where more than so many events would follow. At once where a year of
            daylight would be run through for the first time.
        """
        if self.scenario.light.pattern.kind == "daylight" and YEAR_STUDY not in self._shared:
            raise Unfinished
        try:
            engine = self.engine
        except (ValueError, ArithmeticError):
            yield  # whatever is asked within says why
            return
        engine.allowance = Allowance(events)
        try:
            yield
        finally:
            engine.allowance = None

    def with_scenario(self, scenario: Scenario) -> Case:
        """Another design in the same light.

        What is asked of a device changes nothing of what it does: under other margins alone the
        engine, with all of its tables, and the runs are the same ones.
        """
        if scenario is self.scenario:
            return self
        if scenario.model_copy(update={"margins": self.scenario.margins}) == self.scenario:
            return Case(scenario, self.log, self.weather, self._shared)
        return Case(scenario, self.log, self.weather)

    def is_beside(self, other: Case) -> bool:
        """Whether both were given the same measured light."""
        return self.log is other.log and self.weather is other.weather

    def with_value(self, path: str, value: Any) -> Case:
        """The case with one value changed; see `explorer.scenario.model.with_value`."""
        return self.with_scenario(with_value(self.scenario, path, value))

    def varied(self, changes: Mapping[str, ArrayLike]) -> Case:
        """Many designs as one case; see `explorer.advice.variants.varied`."""
        return Case(varied(self.scenario, changes), self.log, self.weather)


def _once(memory: dict[Hashable, Any], key: Hashable, make: Callable[[], T]) -> T:
    found: T | _Missing = memory.get(key, _MISSING)
    if isinstance(found, _Missing):
        with judging():
            found = make()
        memory[key] = found  # another thread may let go of it at once
    return found


def kept(make: Callable[[Case], T]) -> Callable[[Case], T]:
    """A function of a case whose result hangs on the case, computed at the first call."""

    @wraps(make)
    def remembered(case: Case) -> T:
        return case.once(make, lambda: make(case))

    return remembered
