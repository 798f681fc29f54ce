"""Sweeps: the verdict of many variants of one scenario, streamed to a table.

Rows come in chunks of a fixed size: the batch engine judges a chunk at once, the exact march what
that leaves open. Chunks are appended to a partial file in their order; the same sweep started
again goes on where it was interrupted, with the same table in the end.
"""

from __future__ import annotations

import csv
import json
import multiprocessing
import os
import stat
import threading
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from explorer.advice.case import Case
from explorer.files.beside import beside_path, resolve_case
from explorer.files.disk import is_free
from explorer.files.sweep_plan import Column, Sweep, SweepError, Value, Varied, parse_vary
from explorer.files.sweep_rows import ANSWER_NAMES, Row, batch_rows, exact_row, header, judged_rows
from explorer.files.sweep_table import is_table, parquet_modules, to_parquet
from explorer.files.tables import inert
from explorer.loaded import settle_down

CHUNK = 1024
"""Rows that are judged at once. A table made in other chunks may differ in its last digit."""
PARCEL = 8
"""Rows for the exact march that a worker takes at a time."""
AHEAD = 2
"""Chunks under way for each worker."""


@dataclass(slots=True)
class _Chunk:
    """Rows under way."""

    begin: int
    rows: list[Row | None]
    awaited: int = 1
    """Answers of workers that are still to come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """The files of one sweep."""

    output: Path
    partial: Path
    note: Path

    @property
    def all(self) -> tuple[Path, Path, Path]:
        return self.output, self.partial, self.note


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
        The place cannot be written or holds something else, a worker ended, or Parquet is asked
        for and its library is missing.
    """
    place = _Place(
        output=output, partial=Path(f"{output}.partial"), note=Path(f"{output}.partial.json")
    )
    if output.suffix == ".parquet":
        parquet_modules()
    base = resolve_case(sweep.scenario, scenario_path)
    try:
        _refuse_to_spoil(place, sweep, scenario_path)
        known = sweep.fingerprint(base)
        with place.note.open("a", encoding="utf-8") as note:
            if not is_free(note.fileno()):
                raise SweepError(f"{output} is being written by another sweep; wait for its end.")
            yield from _rows(sweep, base, known, place, workers)
        place.note.unlink(missing_ok=True)
    except OSError as error:
        raise SweepError(f"{output} cannot be written: {error.strerror}.") from None
    except BrokenProcessPool:
        raise SweepError(
            "A process that judged variants was ended from outside. The rows before are kept: the "
            "same command goes on from there."
        ) from None


def _rows(
    sweep: Sweep, base: Case, known: str, place: _Place, workers: int | None
) -> Iterator[int]:
    """Write the rows that are missing; yields how many there are."""
    done = _rows_done(sweep, known, place)
    yield done
    if not done:
        place.note.write_text(json.dumps({"sweep": known}), encoding="utf-8")
    with place.partial.open("a", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream)
        if not done:
            writer.writerow(header(sweep))
        for chunk in _chunks(sweep, base, done, workers or os.cpu_count() or 1):
            columns = sweep.columns(chunk.begin, chunk.begin + len(chunk.rows))
            values = zip(*(_cells(c) for c in columns), strict=True)
            for row, (at, found) in zip(values, enumerate(chunk.rows), strict=True):
                writer.writerow([chunk.begin + at, *row, *(found or ())])
            stream.flush()
            done += len(chunk.rows)
            yield done
    if place.output.suffix == ".parquet":
        to_parquet(sweep, place.partial, place.output)
        place.partial.unlink()
    else:
        os.replace(place.partial, place.output)


def _cells(column: Column) -> list[Value]:
    """Values as they are written; words of a title may look like a formula."""
    return [inert(v) if isinstance(v, str) else v for v in column.tolist()]


_shared: dict[str, Any] = {}


def _begin_worker(sweep: Sweep, base: Case) -> None:
    _shared.update(sweep=sweep, base=base)


def _end_with_parent() -> None:
    """A worker waits for work for ever; whoever killed the sweep has no use for it."""
    parent = multiprocessing.parent_process()
    assert parent is not None
    parent.join()
    os._exit(1)


def _begin_process(sweep: Sweep, base: Case) -> None:
    threading.Thread(target=_end_with_parent, daemon=True).start()
    settle_down()
    _begin_worker(sweep, base)


def _judge(numbers: Sequence[int], *, marches: bool) -> list[Row | None]:
    """Some rows, in a worker; see `_judged`."""
    return _judged(_shared["sweep"], _shared["base"], numbers, marches=marches)


def _judged(
    sweep: Sweep, base: Case, numbers: Sequence[int], *, marches: bool
) -> list[Row | None]:
    """Rows of which some are numbered, all from first to last by the batch or these by the march.

    None where the batch leaves one open.
    """
    begin, end = numbers[0], numbers[-1] + 1
    columns = sweep.columns(begin, end)
    if not marches:
        return batch_rows(sweep, base, columns)
    lists = [c.tolist() for c in columns]
    values = [[column[i - begin] for column in lists] for i in numbers]
    return [exact_row(sweep, base, row) for row in values]


def _chunks(sweep: Sweep, base: Case, done: int, workers: int) -> Iterator[_Chunk]:
    """Finished chunks in their order."""
    begins = range(done, len(sweep), CHUNK)
    if workers == 1:
        for begin in begins:
            end = min(begin + CHUNK, len(sweep))
            yield _Chunk(begin, list(judged_rows(sweep, base, begin, end)))
        return
    with ProcessPoolExecutor(
        workers - 1, mp_context=multiprocessing.get_context("spawn"),
        initializer=_begin_process, initargs=(sweep, base),
    ) as pool:
        try:
            yield from _Under(sweep, base, pool, workers).way(begins)
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


@dataclass(frozen=True, slots=True, eq=False)
class _Task:
    """Rows of a chunk that are judged together."""

    chunk: _Chunk
    places: Sequence[int]
    marches: bool

    @property
    def numbers(self) -> Sequence[int]:
        """Rows of the sweep."""
        return [self.chunk.begin + i for i in self.places]


@dataclass(slots=True)
class _Under:
    """Chunks under way in several processes, of which this one is one.

    So the first rows need no other process to begin, and few rows begin none.
    """

    sweep: Sweep
    base: Case
    pool: ProcessPoolExecutor
    workers: int
    queue: deque[_Chunk] = field(default_factory=deque)
    waiting: deque[_Task] = field(default_factory=deque)
    owners: dict[Future[list[Row | None]], _Task] = field(default_factory=dict)

    def way(self, begins: range) -> Iterator[_Chunk]:
        """Every chunk, in its order, as soon as all of it is judged."""
        left = iter(begins)
        while True:
            while len(self.queue) < AHEAD * self.workers and (
                begin := next(left, None)
            ) is not None:
                self._begin(begin)
            if not self.queue:
                return
            while len(self.waiting) > 1 and len(self.owners) < AHEAD * (self.workers - 1):
                task = self.waiting.popleft()
                future = self.pool.submit(_judge, task.numbers, marches=task.marches)
                self.owners[future] = task
            done = {future for future in self.owners if future.done()}
            if self.waiting and not done:
                task = self.waiting.popleft()
                self._take(task, _judged(
                    self.sweep, self.base, task.numbers, marches=task.marches
                ))
            elif self.owners:
                done, _ = wait(self.owners, return_when=FIRST_COMPLETED)
            for future in done:
                self._take(self.owners.pop(future), future.result())
            while self.queue and not self.queue[0].awaited:
                yield self.queue.popleft()

    def _begin(self, begin: int) -> None:
        size = min(CHUNK, len(self.sweep) - begin)
        chunk = _Chunk(begin, [None] * size)
        self.queue.append(chunk)
        self.waiting.append(_Task(chunk, range(size), marches=False))

    def _take(self, task: _Task, rows: list[Row | None]) -> None:
        chunk = task.chunk
        chunk.awaited -= 1
        for i, row in zip(task.places, rows, strict=True):
            chunk.rows[i] = row
        # What the batch left open; a march leaves nothing. It goes before chunks that follow.
        open_ = [i for i in task.places if chunk.rows[i] is None]
        parcels = [open_[k : k + PARCEL] for k in range(0, len(open_), PARCEL)]
        self.waiting.extendleft(_Task(chunk, places, marches=True) for places in parcels[::-1])
        chunk.awaited += len(parcels)


def _refuse_to_spoil(place: _Place, sweep: Sweep, scenario_path: Path | str | None) -> None:
    """Refuse a place that holds what the sweep is made from, or what no sweep has written."""
    inputs = [] if scenario_path is None else [Path(scenario_path)]
    used = beside_path(sweep.scenario, scenario_path) if inputs else None
    if used is not None:
        inputs.append(used)
    for path in place.all:
        if not path.exists():
            continue
        if path.is_dir():
            raise SweepError(f"{path} is a folder; name a file.")
        if not stat.S_ISREG(path.stat().st_mode):
            raise SweepError(f"{path} is not an ordinary file; name another.")
        if any(source.exists() and path.samefile(source) for source in inputs):
            raise SweepError(f"{path} is what the sweep is made from; name another file.")
    ours = _noted(place.note) is not None
    for path in (place.output, place.partial):
        if path.exists() and not (is_table(path) or (path == place.partial and ours)):
            raise SweepError(
                f"{path} exists and is no table of a sweep; name another file, or remove it."
            )
    if place.note.exists() and not ours and not place.partial.exists():
        raise SweepError(
            f"{place.note} exists and is no note of a sweep; name another table, or remove it."
        )


def _noted(note: Path) -> str | None:
    """Of which sweep a partial table is, by the note beside it; one cut short says of none."""
    try:
        text = note.read_text(encoding="utf-8")
        known = json.loads(text).get("sweep") if text else ""
    except (OSError, ValueError, AttributeError):
        return None
    return known if isinstance(known, str) else None


def _rows_done(sweep: Sweep, known: str, place: _Place) -> int:
    """Rows of an earlier start of the same sweep, in whole chunks; what follows is cut off."""
    if _noted(place.note) != known or not place.partial.exists():
        place.partial.unlink(missing_ok=True)
        return 0
    lines = kept = end = offset = 0
    with place.partial.open("rb") as stream:
        for line in stream:
            if not line.endswith(b"\n"):
                break
            lines, offset = lines + 1, offset + len(line)
            if lines > 1 and ((lines - 1) % CHUNK == 0 or lines - 1 == len(sweep)):
                kept, end = lines - 1, offset
    if not kept:
        place.partial.unlink()
        return 0
    os.truncate(place.partial, end)
    return kept


__all__ = [
    "ANSWER_NAMES", "Sweep", "SweepError", "Varied", "header", "parse_vary", "run_sweep",
]
