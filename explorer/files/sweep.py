"""Sweeps: the verdict of many variants of one scenario, streamed to a table.

Each row comes from the exact engine, so it says what ``gloaming check`` would say of that
variant. Rows are appended to a partial file as they are finished; the same sweep started again
goes on where it was interrupted.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import multiprocessing
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from importlib import import_module
from itertools import islice, product
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import numpy as np
from pydantic import ValidationError

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.verdict import CHECK_NAMES
from explorer.files.disk import FileError
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import dump_scenario
from explorer.scenario.fields import Section, describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, with_values
from explorer.words.refusal import fault_text

Value = float | int | str
CHUNK = 8
"""Rows that a worker takes at a time."""
MOST_ROWS = 5_000_000


class SweepError(FileError):
    """A sweep cannot be made; the text is a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Varied:
    """A quantity and the values, or the range, that a sweep takes of it."""

    path: str
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """All variants of a scenario in a fixed order."""

    scenario: Scenario
    varied: tuple[Varied, ...]
    random_rows: int = 0
    """Number of random variants; 0 takes every combination."""
    seed: int = 1

    def __len__(self) -> int:
        """Number of rows."""
        if self.random_rows:
            return self.random_rows
        return int(np.prod([len(v.values) for v in self.varied])) if self.varied else 1

    def rows(self) -> Iterator[tuple[Value, ...]]:
        """Values of every variant, in the order of `varied`."""
        if not self.random_rows:
            yield from product(*(v.values for v in self.varied))
            return
        random = np.random.default_rng(self.seed)
        for _ in range(self.random_rows):
            yield tuple(_pick(v, float(random.random())) for v in self.varied)

    @property
    def fingerprint(self) -> str:
        """The same for the same sweep of the same scenario."""
        text = json.dumps(
            [dump_scenario(self.scenario), [[v.path, list(v.values)] for v in self.varied],
             self.random_rows, self.seed]
        )
        return hashlib.sha256(text.encode()).hexdigest()


def _pick(varied: Varied, share: float) -> Value:
    """A random value: between the ends for numbers with decimals, one of the list otherwise."""
    first, last = varied.values[0], varied.values[-1]
    if isinstance(first, float) and isinstance(last, float) and len(varied.values) > 1:
        if first > 0:
            return float(first * (last / first) ** share)
        return first + share * (last - first)
    return varied.values[min(int(share * len(varied.values)), len(varied.values) - 1)]


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
        raise SweepError(
            f"--vary takes path=low:high:count or path=a,b,c, found {text!r}."
        )
    try:
        get_value(scenario, path)
        owner = owner_class(scenario, path)
    except KeyError as error:
        raise SweepError(f"--vary {path}: {error.args[0]}.") from None
    key = path.rpartition(".")[2]
    if key not in owner.model_fields or isinstance(get_value(scenario, path), Section | tuple):
        raise SweepError(f"--vary {path}: this is not a single value.")
    kind = owner.model_fields[key].annotation
    values = _values(path, spec, kind)
    info = describe(owner, key)
    for value in values:
        if isinstance(value, int | float) and not info.low <= value <= info.high:
            unit = f" {info.unit}" if info.unit else ""
            raise SweepError(
                f"--vary {path}: {value} is not allowed; allowed is {info.low:g} to "
                f"{info.high:g}{unit}."
            )
    return Varied(path=path, values=values)


def _values(path: str, spec: str, kind: Any) -> tuple[Value, ...]:
    if get_origin(kind) is Literal or kind is str:
        given = tuple(part.strip() for part in spec.split(","))
        if get_origin(kind) is Literal:
            for part in given:
                if part not in get_args(kind):
                    raise SweepError(
                        f"--vary {path}: {part!r} is not one of {', '.join(get_args(kind))}."
                    )
        return given
    whole = kind is int
    try:
        if ":" not in spec:
            numbers = [float(part) for part in spec.split(",")]
            return tuple(int(n) for n in numbers) if whole else tuple(numbers)
        pieces = spec.split(":")
        low, high = float(pieces[0]), float(pieces[1])
        if whole and len(pieces) == 2:
            return tuple(range(int(low), int(high) + 1))
        count = int(pieces[2])
        ratio = len(pieces) > 3 and pieces[3] == "ratio"
        if len(pieces) > 4 or (len(pieces) == 4 and not ratio) or count < 1:
            raise ValueError
        spaced = np.geomspace(low, high, count) if ratio else np.linspace(low, high, count)
    except (ValueError, IndexError):
        raise SweepError(
            f"--vary {path}: {spec!r} is not low:high:count, low:high:count:ratio or a,b,c."
        ) from None
    if whole:
        return tuple(sorted({round(v) for v in spaced.tolist()}))
    return tuple(spaced.tolist())


def header(sweep: Sweep) -> list[str]:
    """Names of the columns: what is varied, the verdict, six margins, the answers, a fault."""
    margins = (f"{name}_margin" for name in CHECK_NAMES)
    return ["row", *(v.path for v in sweep.varied), "verdict", *margins, *ANSWER_NAMES, "fault"]


ANSWER_NAMES = (
    "first_charge_s", "full_charge_s", "dark_time_s", "operations_per_charge", "recovery_s",
    "lowest_store_V", "highest_store_V", "lowest_terminal_V", "served_share", "balance_ratio",
    "cut_offs_per_week", "longest_dark_s",
)
"""Answers that a sweep writes, in the order of its columns; infinite ones as ``inf``."""


def judged(
    scenario: Scenario, log: LightLog | None, paths: Sequence[str], values: Sequence[Value]
) -> list[Any]:
    """One row's verdict, margins and answers; a variant that cannot be judged says why."""
    try:
        case = Case(with_values(scenario, dict(zip(paths, values, strict=True))), log)
        verdict, numbers = judge(case), answers(case)
    except ValidationError as error:
        fault = error.errors(include_url=False)[0]
        where = ".".join(str(part) for part in fault["loc"])
        return _fault(f"{where}: {fault_text(fault)}" if where else fault_text(fault))
    except Exception as error:  # whatever it is, it must not stop the rows after it
        return _fault(f"This variant cannot be computed: {error}")
    return [
        verdict.state,
        *(repr(float(c.margin)) for c in verdict.checks),
        *(repr(float(numbers[n])) for n in ANSWER_NAMES),
        "",
    ]


def _fault(sentence: str) -> list[Any]:
    """A row that has no numbers, only a sentence."""
    return ["error", *([""] * (len(CHECK_NAMES) + len(ANSWER_NAMES))), sentence]


_shared: dict[str, Any] = {}


def _begin_worker(scenario: Scenario, path: str | None, names: tuple[str, ...]) -> None:
    _shared.update(scenario=scenario, log=resolve_log(scenario, path), names=names)


def _work(values: tuple[Value, ...]) -> list[Any]:
    return judged(_shared["scenario"], _shared["log"], _shared["names"], values)


def run_sweep(
    sweep: Sweep, scenario_path: Path | str | None, output: Path, *, workers: int | None = None
) -> Iterator[int]:
    """Write every row of a sweep to a CSV file, or to Parquet by the file's ending.

    Parameters
    ----------
    sweep : Sweep
        What to vary.
    scenario_path : path-like, optional
        Where the scenario lies; a measured log is looked for beside it.
    output : Path
        Table to write. Until all rows are there they stand in ``<output>.partial``.
    workers : int, optional
        Processes; as many as the machine has cores when left out.

    Yields
    ------
    int
        Rows finished so far, first those found from an earlier start.

    Raises
    ------
    SweepError
        The place cannot be written, or Parquet is asked for and its library is missing.
    """
    if output.is_dir():
        raise SweepError(f"{output} is a folder; name a file.")
    if output.suffix == ".parquet":
        _parquet()
    partial, note = Path(f"{output}.partial"), Path(f"{output}.partial.json")
    done = _rows_done(sweep, partial, note)
    yield done
    names = tuple(v.path for v in sweep.varied)
    resolve_log(sweep.scenario, scenario_path)
    try:
        if not done:
            note.write_text(json.dumps({"sweep": sweep.fingerprint}), encoding="utf-8")
        with partial.open("a", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream)
            if not done:
                writer.writerow(header(sweep))
            todo = islice(sweep.rows(), done, None)
            for values, row in _results(sweep, scenario_path, names, todo, workers):
                writer.writerow([done, *values, *row])
                done += 1
                if done % CHUNK == 0:
                    stream.flush()
                yield done
        if output.suffix == ".parquet":
            _to_parquet(partial, output)
            partial.unlink()
        else:
            os.replace(partial, output)
        note.unlink(missing_ok=True)
    except OSError as error:
        raise SweepError(f"{output} cannot be written: {error.strerror}.") from None


def _results(
    sweep: Sweep, scenario_path: Path | str | None, names: tuple[str, ...],
    todo: Iterator[tuple[Value, ...]], workers: int | None,
) -> Iterator[tuple[tuple[Value, ...], list[Any]]]:
    count = workers or os.cpu_count() or 1
    where = None if scenario_path is None else str(scenario_path)
    if count == 1:
        _begin_worker(sweep.scenario, where, names)
        for values in todo:
            yield values, _work(values)
        return
    with ProcessPoolExecutor(
        count, mp_context=multiprocessing.get_context("spawn"),
        initializer=_begin_worker, initargs=(sweep.scenario, where, names),
    ) as pool:
        while batch := list(islice(todo, CHUNK * count * 4)):
            yield from zip(batch, pool.map(_work, batch, chunksize=CHUNK), strict=True)


def _rows_done(sweep: Sweep, partial: Path, note: Path) -> int:
    """Rows of an earlier start of the same sweep; a torn last line is cut off."""
    try:
        known = json.loads(note.read_text(encoding="utf-8")).get("sweep")
        written = partial.read_bytes()
    except (OSError, ValueError, AttributeError):
        partial.unlink(missing_ok=True)
        return 0
    # Bytes, so that what stands there keeps its line ends and a torn letter does not matter.
    whole = written[: written.rfind(b"\n") + 1]
    if known != sweep.fingerprint or not whole:
        partial.unlink(missing_ok=True)
        return 0
    if whole != written:
        partial.write_bytes(whole)
    return max(sum(1 for _ in csv.reader(io.StringIO(whole.decode(), newline=""))) - 1, 0)


def _parquet() -> tuple[Any, Any]:
    """The modules that read CSV and write Parquet; no other part of the program needs them."""
    try:
        return import_module("pyarrow.csv"), import_module("pyarrow.parquet")
    except ImportError:
        raise SweepError(
            "Parquet needs the library pyarrow; type: pip install pyarrow, or write a .csv file."
        ) from None


def _to_parquet(source: Path, target: Path) -> None:
    arrow_csv, parquet = _parquet()
    parquet.write_table(arrow_csv.read_csv(source), f"{target}.new")
    os.replace(f"{target}.new", target)
