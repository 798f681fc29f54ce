"""What a sweep varies: paths with their values, read from a command line, and rows by number."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, prod
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

import numpy as np
from numpy.typing import NDArray

from explorer.advice.case import Case
from explorer.files.disk import FileError
from explorer.files.scenario_json import dump_scenario
from explorer.scenario.fields import Quantity, Section, describe
from explorer.scenario.model import Scenario, get_value, owner_class
from explorer.words.refusal import range_ends

Value = float | int | str
Column = NDArray[Any]
MOST_ROWS = 100_000_000
MOST_VALUES = 1_000_000
"""Most values of one quantity."""
FORM = 2
"""Raised when rows of an earlier version would not fit to those of this one."""


class SweepError(FileError):
    """A sweep cannot be made; the text is a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Varied:
    """A quantity and the values, or the range, that a sweep takes of it."""

    path: str
    values: tuple[Value, ...]

    def picked(self, index: NDArray[np.intp]) -> Column:
        """Some of the values, by number."""
        return _column([self.values[i] for i in index.tolist()])

    def drawn(self, share: NDArray[np.float64]) -> Column:
        """Values at random: between the ends for numbers with decimals, else one of the list."""
        first, last = self.values[0], self.values[-1]
        if isinstance(first, float) and isinstance(last, float) and len(self.values) > 1:
            if first > 0:
                return np.asarray(first * (last / first) ** share)
            return first + share * (last - first)
        index = (share * len(self.values)).astype(np.intp)
        return self.picked(np.minimum(index, len(self.values) - 1))


def _column(values: Sequence[Value]) -> Column:
    words = any(isinstance(v, str) for v in values)
    return np.array(values, dtype=object) if words else np.array(values)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """All variants of a scenario in a fixed order."""

    scenario: Scenario
    varied: tuple[Varied, ...]
    random_rows: int = 0
    """Number of random variants; 0 takes every combination."""
    seed: int = 1
    with_answers: bool = True
    """Whether a row holds the answers beside verdict and margins."""
    exact: bool = False
    """Whether the exact march judges every row."""

    def __post_init__(self) -> None:
        paths = [v.path for v in self.varied]
        twice = next((p for p in paths if paths.count(p) > 1), None)
        if twice is not None:
            raise SweepError(f"--vary {twice}: this is given twice.")
        if len(self) > MOST_ROWS:
            raise SweepError(
                f"These are {len(self)} variants; at most {MOST_ROWS} are taken. "
                "Use fewer values, or --random."
            )

    def __len__(self) -> int:
        """Number of rows."""
        return self.random_rows or prod(len(v.values) for v in self.varied)

    def columns(self, begin: int, end: int) -> list[Column]:
        """Values of the rows from one number up to another, in the order of `varied`."""
        end = min(end, len(self))
        if not self.random_rows:
            shape = [len(v.values) for v in self.varied]
            at = np.unravel_index(np.arange(begin, end), shape)
            return [v.picked(i) for v, i in zip(self.varied, at, strict=True)]
        count = len(self.varied)
        draws = np.random.PCG64(self.seed)
        draws.advance(begin * count)
        shares = np.random.Generator(draws).random((end - begin, count))
        return [v.drawn(s) for v, s in zip(self.varied, shares.T, strict=True)]

    def fingerprint(self, base: Case) -> str:
        """The same for the same sweep of the same scenario under the same measured light."""
        text = json.dumps([
            FORM, dump_scenario(self.scenario), [[v.path, list(v.values)] for v in self.varied],
            self.random_rows, self.seed, self.with_answers, self.exact,
        ])
        digest = hashlib.sha256(text.encode())
        log, weather = base.log, base.weather
        if weather is not None:
            for values in (weather.diffuse_lx, weather.normal_lx, weather.temperature_c):
                digest.update(values.tobytes())
        if log is not None:
            digest.update(str(log.start).encode())
            digest.update(log.time_s.tobytes() + log.illuminance_lx.tobytes())
        return digest.hexdigest()


def parse_vary(scenario: Scenario, text: str) -> Varied:
    """Read ``path=low:high:count``, ``path=low:high`` for whole numbers, or ``path=a,b,c``.

    ``low:high:count`` steps evenly; ``low:high:count:ratio`` in equal ratios.

    Raises
    ------
    SweepError
        The path does not exist, or its values are not allowed; the sentence says which.
    """
    path, equals, spec = text.partition("=")
    path, spec = path.strip(), spec.strip()
    if not equals or not path or not spec:
        raise SweepError(f"--vary takes path=low:high:count or path=a,b,c, found {text!r}.")
    try:
        if any(part.startswith("-") for part in path.split(".")):
            raise KeyError(f"{path}: numbers of a list begin with 0")
        value, owner = get_value(scenario, path), owner_class(scenario, path)
    except KeyError as error:
        raise SweepError(f"--vary {path}: {error.args[0]}.") from None
    key = path.rpartition(".")[2]
    if key not in getattr(owner, "model_fields", {}) or isinstance(value, Section | tuple):
        raise SweepError(f"--vary {path}: this is not a single value.")
    kind = _kind(owner.model_fields[key].annotation)
    if kind is str or get_origin(kind) is Literal:
        return Varied(path=path, values=_words(path, spec, kind))
    return Varied(path=path, values=_numbers(path, spec, describe(owner, key), whole=kind is int))


def _kind(annotation: Any) -> Any:
    """Type of a value, of one that may be left out too."""
    if get_origin(annotation) in (Union, UnionType):
        return next(a for a in get_args(annotation) if a is not type(None))
    return annotation


def _words(path: str, spec: str, kind: Any) -> tuple[str, ...]:
    given = tuple(part.strip() for part in spec.split(","))
    for part in given:
        if not part.isprintable():
            raise SweepError(f"--vary {path}: {part!r} holds signs that cannot be printed.")
        if get_origin(kind) is Literal and part not in get_args(kind):
            raise SweepError(
                f"--vary {path}: {part!r} is not one of {', '.join(map(str, get_args(kind)))}."
            )
    return given


def _numbers(path: str, spec: str, info: Quantity, *, whole: bool) -> tuple[Value, ...]:
    """The numbers that a text stands for; none is made before all is known to be allowed."""
    span = ":" in spec
    pieces = spec.split(":") if span else spec.split(",")
    try:
        ends = [float(piece) for piece in (pieces[:2] if span else pieces)]
        if not span:
            count, ratio = len(ends), False
        elif len(pieces) == 2 and whole:
            count, ratio = 0, False
        else:
            count, ratio = int(pieces[2]), pieces[3:] == ["ratio"]
        if span and (len(pieces) > 4 or (len(pieces) == 4 and not ratio)):
            raise ValueError
    except (ValueError, IndexError):
        raise SweepError(
            f"--vary {path}: {spec!r} is not low:high:count, low:high:count:ratio or a,b,c."
        ) from None
    for value in ends:
        _allowed(path, value, info, whole=whole)
    if not span:
        return tuple(int(v) for v in ends) if whole else tuple(ends)
    low, high = ends
    if low > high:
        raise SweepError(f"--vary {path}: {spec!r} ends below its beginning.")
    if len(pieces) == 2:
        count = int(high) - int(low) + 1
    if not 1 <= count <= MOST_VALUES:
        raise SweepError(
            f"--vary {path}: {count} values of one quantity; allowed is 1 to {MOST_VALUES}."
        )
    if len(pieces) == 2:
        return tuple(range(int(low), int(high) + 1))
    if ratio and low <= 0:
        raise SweepError(f"--vary {path}: equal ratios begin above 0, found {spec!r}.")
    spaced = np.geomspace(low, high, count) if ratio else np.linspace(low, high, count)
    if whole:
        return tuple(sorted({round(v) for v in spaced.tolist()}))
    return tuple(spaced.tolist())


def _allowed(path: str, value: float, info: Quantity, *, whole: bool) -> None:
    if not (isfinite(value) and info.low <= value <= info.high):
        low, high = range_ends(info, lambda end: f"{end:.12g}")
        raise SweepError(
            f"--vary {path}: {value:.12g} is not allowed; allowed is {low} to {high}."
        )
    if whole and value != int(value):
        raise SweepError(f"--vary {path}: {value:.12g} is not a whole number.")


__all__ = ["MOST_ROWS", "MOST_VALUES", "Sweep", "SweepError", "Varied", "parse_vary"]
