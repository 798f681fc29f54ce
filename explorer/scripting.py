"""The same things from a script or a notebook: read a design, change it, judge it, look along it.

This module is the interface for other people's programs: what it names stays as it is until a new
major version says otherwise; every other module of the package may change at any time. Arrays go in
and come out, values are SI with the unit in their name, and no window is needed.

Examples
--------
>>> from explorer.scripting import read
>>> probe = read("bundled:plant_label")
>>> probe.value("light.illuminance_lx")
800.0
>>> probe.assess().verdict
'runs'
>>> dim = probe.changed({"light.illuminance_lx": 30.0})
>>> dim.assess().verdict
'falls_short'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from explorer.advice.assess import Assessment, assess, run_for
from explorer.advice.build_front import Wanted
from explorer.advice.builds import search
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.edges import Edge, find_edges
from explorer.advice.reach import reach
from explorer.advice.verdict import Check
from explorer.files.beside import resolve_case
from explorer.files.disk import FileError
from explorer.files.json_text import validated
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.files.shelf import Shelf
from explorer.files.sweep_plan import Sweep, Value, Varied
from explorer.files.sweep_rows import header, judged_rows
from explorer.files.tables import trace_table
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario, get_value, with_values
from explorer.scenario.study import KeptLimits
from explorer.words.builds import builds_table

BUNDLED = "bundled:"
_WORDS = ("verdict", "judged_by", "fault")
"""Columns of a sweep that are no numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What was found about a design."""

    verdict: str
    """``runs``, ``marginal`` or ``falls_short``."""
    governing: str
    """Name of the check that decides."""
    checks: Mapping[str, Check]
    """The six checks by name, each with value, limit, unit, margin, wanted, state and sentence."""
    answers: Mapping[str, float]
    """Numbers by name, with their unit in the name; infinite means never, or without end."""
    hazards: tuple[str, ...]
    """Sentences about what could hurt somebody."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Front:
    """Builds that run and that no other beats in price, panel area, volume and mass at once."""

    designs: tuple[Design, ...]
    """Each confirmed by the exact march, by price."""
    table: Mapping[str, NDArray[Any]]
    """The columns that ``gloaming builds`` writes, arrays of shape (designs,)."""
    tried: int
    """Combinations that were looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class Design:
    """A scenario with the light that was measured for it; a change gives another design."""

    scenario: Scenario
    _case: Case = field(repr=False)

    def value(self, path: str) -> Any:
        """Value at a dotted path, such as ``load.operations.0.schedule.interval_s``.

        Raises
        ------
        KeyError
            There is no such value; the message names the key.
        """
        return get_value(self.scenario, path)

    def changed(self, changes: Mapping[str, Any]) -> Design:
        """Another design, with values changed by their paths.

        A change of the store's size takes resistance, leakage and current limits along, as they
        go along a maker's range.

        Raises
        ------
        KeyError
            There is no such value.
        pydantic.ValidationError
            A value, or the design with all of them, is not allowed; the message says what is.
        """
        scenario = with_values(self.scenario, changes)
        return Design(scenario, self._case.with_scenario(scenario))

    def assess(self) -> Result:
        """Verdict, checks and answers, the least light and the most operations a day included.

        Raises
        ------
        ValueError
            The design cannot be judged; the message says why.
        """
        found: Assessment = assess(self._case)
        verdict = found.verdict
        answers = {**found.answers, **reach(self._case)}
        return Result(
            verdict=verdict.state,
            governing=verdict.governing.name,
            checks={check.name: check for check in verdict.checks},
            answers={name: float(value) for name, value in answers.items()},
            hazards=tuple(str(hazard.sentence) for hazard in verdict.hazards),
        )

    def columns(self, time_s: ArrayLike) -> dict[str, NDArray[np.float64]]:
        """The run from its beginning, exact at moments.

        Parameters
        ----------
        time_s : array_like
            Rising moments, shape (n,); 0 is where the scenario begins. [s]

        Returns
        -------
        dict of ndarray
            Arrays of shape (n,): ``time_s``, ``store_V``, ``terminal_V``, ``terminal_min_V``,
            ``harvest_A``, ``load_A``, ``leakage_A`` and ``connected``. The lowest voltage and the
            currents are those of the step from a moment to the next; the last has no length.

        Raises
        ------
        ValueError
            Moments are missing, not finite, negative or do not rise, or more happens until the last
            of them than can be followed.

        Examples
        --------
        >>> run = read("bundled:plant_label").columns([0.0, 3600.0, 7200.0])
        >>> run["store_V"].shape, bool(run["store_V"][2] >= 0.0)
        ((3,), True)
        """
        moments = np.atleast_1d(np.asarray(time_s, dtype=np.float64))
        if moments.ndim != 1 or not len(moments):
            raise ValueError("time_s takes one row of moments, and at least one.")
        if not np.isfinite(moments).all() or moments[0] < 0.0 or (np.diff(moments) <= 0.0).any():
            raise ValueError("time_s must be finite, begin at 0 or later and rise.")
        run = run_for(self._case, float(moments[-1]))
        if run.span_s < moments[-1]:
            raise ValueError(
                f"More happens than can be followed: the run is known until {run.span_s:g} s."
            )
        rows = run.rows(moments, np.append(moments[1:], moments[-1]))
        return {name: np.asarray(column, float) for name, column in trace_table(rows).items()}

    def edges(self, path: str, values: ArrayLike, *, verdict: str = "runs") -> tuple[Edge, ...]:
        """Where along a quantity the verdict turns, every edge confirmed by the exact march.

        Parameters
        ----------
        path : str
            The quantity.
        values : array_like
            Rising values, shape (n,), between which a change is looked for.
        verdict : str
            ``runs``, or ``works`` for runs or marginal.

        Returns
        -------
        tuple of Edge
            Rising; `value` is the last in which the quantity is had that still holds, `beyond` its
            neighbour, and `holds_above` says on which side.

        Raises
        ------
        ValueError
            `verdict` is neither.

        Examples
        --------
        >>> probe = read("bundled:plant_label")
        >>> (edge,) = probe.edges("light.illuminance_lx", [10, 30, 100, 300, 1000])
        >>> edge.holds_above, 10 < edge.value < 300
        (True, True)
        """
        criteria = {"runs": RUNS, "works": WORKS}
        if verdict not in criteria:
            raise ValueError(f"verdict takes runs or works, found {verdict!r}.")
        rising = np.asarray(values, dtype=np.float64).ravel()
        return find_edges(self._case, path, criteria[verdict], rising).edges

    def sweep(
        self, values: Mapping[str, Sequence[Value]], *, with_answers: bool = True,
        exact: bool = False,
    ) -> dict[str, NDArray[Any]]:
        """Every combination of values, judged: many at once, and exactly near a limit.

        Parameters
        ----------
        values : mapping
            Values by path; the last path changes fastest.
        with_answers : bool
            Whether the answers come along.
        exact : bool
            Whether the exact march judges every row.

        Returns
        -------
        dict of ndarray
            The columns of the table that ``gloaming sweep`` writes, arrays of shape (rows,). A row
            that is not allowed has ``error`` for a verdict, a sentence under ``fault`` and numbers
            that are not a number.

        Examples
        --------
        >>> table = read("bundled:plant_label").sweep({"light.illuminance_lx": [5.0, 500.0]})
        >>> table["verdict"].tolist()
        ['falls_short', 'runs']
        """
        plan = Sweep(
            scenario=self.scenario,
            varied=tuple(Varied(path=p, values=tuple(_plain(v))) for p, v in values.items()),
            with_answers=with_answers, exact=exact,
        )  # fmt: skip
        for one in plan.varied:
            self.value(one.path)
        columns = plan.columns(0, len(plan))
        found = judged_rows(plan, self._case, 0, len(plan))
        names = header(plan)[1 + len(columns):]
        table: dict[str, NDArray[Any]] = {
            one.path: np.asarray(column) for one, column in zip(plan.varied, columns, strict=True)
        }
        for at, name in enumerate(names):
            texts = [row[at] for row in found]
            table[name] = (
                np.array(texts, dtype=object) if name in _WORDS
                else np.array([float(text) if text else np.nan for text in texts])
            )
        return table

    def builds(
        self, parts: Path | str | None = None, *, lithium: bool = True,
        most_parts: int | None = None, price: float | None = None,
        panel_cm2: float | None = None, volume_cm3: float | None = None,
        mass_g: float | None = None, height_mm: float | None = None,
    ) -> Front:
        """Panels, charger and store that do it: generic ones as they are sold, and one's own.

        Parameters
        ----------
        parts : path-like, optional
            Folder with parts of one's own.
        lithium : bool
            Whether lithium cells may be used.
        most_parts : int, optional
            Panels, charger and store together, at least 3.
        price, panel_cm2, volume_cm3, mass_g, height_mm : float, optional
            What a build may have at most. A price is in the currency that most of one's own
            parts are priced in, or relative where those are chargers alone; what is paid in
            another is not within it.

        Raises
        ------
        FileError
            A limit is not allowed, or there is no such folder.
        ValueError
            The design cannot be judged; the message says why.

        Examples
        --------
        >>> label = read("bundled:plant_label")
        >>> front = label.builds(most_parts=3, lithium=False, panel_cm2=8.0, height_mm=10.0)
        >>> {build.assess().verdict for build in front.designs}
        {'runs'}
        >>> len(front.table["price"]) == len(front.designs)
        True
        """
        limits = {
            "lithium": lithium, "most_parts": most_parts, "price": price, "panel_cm2": panel_cm2,
            "volume_cm3": volume_cm3, "mass_g": mass_g, "height_mm": height_mm,
        }  # fmt: skip
        validated(limits, "limits", KeptLimits)
        if parts is not None and not Path(parts).is_dir():
            raise FileError(f"{parts} is no folder; parts are kept in one.")
        kept = () if parts is None else Shelf(Path(parts), None).kept()
        own = tuple(one.part for one in kept if one.part is not None)
        *_, found = search(self._case, own=own, wanted=Wanted(**limits))  # type: ignore[arg-type]
        return Front(
            designs=tuple(
                Design(build.scenario, self._case.with_scenario(build.scenario))
                for build in found.front
            ),
            table={name: np.array(column) for name, column in builds_table(found).items()},
            tried=found.tried,
        )

    def save(self, path: Path | str) -> None:
        """Write the scenario; a log stays where it is.

        Raises
        ------
        FileError
            The place cannot be written; the message says why.
        """
        save_scenario(Path(path), self.scenario)


def read(path: Path | str) -> Design:
    """Read a scenario and the log beside it.

    Parameters
    ----------
    path : path-like
        A scenario file, or ``bundled:`` and the name of one that comes along.

    Raises
    ------
    FileError
        It cannot be read; the message names the file, the key, what was found and what is allowed.
    """
    text = str(path)
    place = (
        Path(str(scenario_folder() / f"{text.removeprefix(BUNDLED)}.json"))
        if text.startswith(BUNDLED) else Path(path)
    )  # fmt: skip
    scenario = load_scenario(place).scenario
    return Design(scenario, resolve_case(scenario, place))


def design(scenario: Scenario | Mapping[str, Any] | None = None) -> Design:
    """A design from a scenario, from the contents of a file, or from defaults alone.

    Raises
    ------
    pydantic.ValidationError
        A value is not allowed.
    FileError
        The light is a log, which only a file can have beside it.
    """
    made = scenario if isinstance(scenario, Scenario) else Scenario.model_validate(scenario or {})
    return Design(made, resolve_case(made, None))


def _plain(values: Sequence[Value]) -> Sequence[Value]:
    """Values as Python has them, whatever array they come from."""
    return np.asarray(values).tolist() if not isinstance(values, (list, tuple)) else values


__all__ = ["Design", "Edge", "FileError", "Front", "Result", "design", "read"]
