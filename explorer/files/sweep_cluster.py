"""A sweep on a Dask cluster that stands already: the same rows, in parts of Parquet.

Every task is a chunk of rows that any worker can make, so a worker may die and its chunks are made
by another. A part is written in one step when all of its chunks are there; the same command started
again makes the parts that are missing.
"""

from __future__ import annotations

import csv
import json
import os
import pickle
from collections.abc import Iterator
from dataclasses import dataclass, field
from importlib import import_module
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

from explorer.advice.case import Case
from explorer.files.beside import resolve_case
from explorer.files.sweep_plan import Sweep, SweepError
from explorer.files.sweep_rows import Row, header, judged_rows
from explorer.files.sweep_table import parquet_modules, to_parquet

CHUNKS_A_PART = 16
AHEAD = 3
"""Chunks under way for each thread of the cluster."""
NOTE = "_sweep.json"
"""Readers of Parquet in parts pass over files that begin so."""
_PATIENCE_S = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class _Parts:
    """The folder of one sweep and its parts."""

    folder: Path
    rows: int
    chunk: int

    def __len__(self) -> int:
        return -(-self.rows // self._size)

    @property
    def _size(self) -> int:
        return self.chunk * CHUNKS_A_PART

    def path(self, part: int) -> Path:
        """Where a part lies."""
        return self.folder / f"part-{part:06d}.parquet"

    def begins(self, part: int) -> range:
        """First rows of the chunks of a part."""
        return range(part * self._size, min((part + 1) * self._size, self.rows), self.chunk)

    def count(self, part: int) -> int:
        """Rows of a part."""
        return min((part + 1) * self._size, self.rows) - part * self._size


def run_on_cluster(
    sweep: Sweep, scenario_path: Path | str | None, output: Path, address: str, *, chunk: int
) -> Iterator[int]:
    """Write every row of a sweep as parts of Parquet in a folder, made by a cluster.

    Parameters
    ----------
    sweep : Sweep
        What to vary.
    scenario_path : path-like, optional
        Where the scenario lies; a measured log is looked for beside it.
    output : Path
        Folder to write; its name ends with ``.parquet``, as one table in parts is read by its
        folder.
    address : str
        Of the scheduler, such as ``tcp://host:8786``.
    chunk : int
        Rows that are judged at once, those of a sweep on this machine.

    Yields
    ------
    int
        Rows finished so far, first those of an earlier start.

    Raises
    ------
    SweepError
        No cluster answers, its workers cannot do it, or the folder holds something else.
    """
    parquet_modules()
    if output.suffix != ".parquet":
        raise SweepError(f"With --cluster the table is a folder of Parquet parts: {output} should "
                         "end with .parquet.")  # fmt: skip
    base = resolve_case(sweep.scenario, scenario_path)
    parts = _Parts(folder=output, rows=len(sweep), chunk=chunk)
    missing = _take_up(parts, sweep.fingerprint(base))
    done = len(sweep) - sum(parts.count(part) for part in missing)
    yield done
    if not missing:
        return
    client = _client(address)
    try:
        _refuse_strangers(client, address)
        for part, rows in _made(client, sweep, base, parts, missing):
            _write(parts.path(part), sweep, parts.begins(part)[0], rows)
            done += len(rows)
            yield done
    except OSError as error:
        raise SweepError(f"{output} cannot be written: {error.strerror}.") from None
    finally:
        client.close()


def _take_up(parts: _Parts, known: str) -> list[int]:
    """Parts that are still to be made, in a folder that is this sweep's own."""
    folder, note = parts.folder, parts.folder / NOTE
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if note.exists():
            found = json.loads(note.read_text(encoding="utf-8")).get("sweep")
        elif any(folder.iterdir()):
            found = None
        else:
            note.write_text(json.dumps({"sweep": known}), encoding="utf-8")
            found = known
    except (OSError, ValueError, AttributeError) as error:
        raise SweepError(f"{folder} cannot be used: {error}.") from None
    if found != known:
        raise SweepError(
            f"{folder} holds something else than this sweep; name another folder, or remove it."
        )
    return [part for part in range(len(parts)) if not parts.path(part).exists()]


def _client(address: str) -> Any:
    try:
        distributed = import_module("distributed")
    except ImportError:
        raise SweepError(
            "A cluster needs the library distributed; type: pip install 'gloaming[cluster]'."
        ) from None
    try:
        return distributed.Client(address, timeout=_PATIENCE_S, set_as_default=False)
    except (OSError, ValueError, TimeoutError) as error:
        raise SweepError(
            f"No cluster answers at {address} ({error}). Start a scheduler and workers, and give "
            "the address that the scheduler names."
        ) from None


def _version() -> str:
    try:
        return version("gloaming")
    except PackageNotFoundError:
        return ""


def _refuse_strangers(client: Any, address: str) -> None:
    """Refuse workers that have another version of the program, or none; one that dies is passed."""
    asked = client.run(_version, on_error="return")
    # The line to a worker that dies breaks, which no program does that is not installed.
    versions = {worker: told for worker, told in asked.items() if not isinstance(told, OSError)}
    if not versions:
        raise SweepError(f"The cluster at {address} has no workers; start at least one.")
    for told in versions.values():
        if isinstance(told, Exception):  # whatever keeps a worker from loading the program
            raise SweepError(
                f"Workers of {address} cannot load this program ({told}); install it there."
            )
    strange = [f"{worker} has {found}" for worker, found in versions.items() if found != _version()]
    if strange:
        raise SweepError(
            f"This is version {_version()}, but {strange[0]}; install the same everywhere."
        )


def _unpacked(blob: bytes) -> tuple[Sweep, Case]:
    """Plan and case, made on a worker once and again wherever that worker is lost."""
    found: tuple[Sweep, Case] = pickle.loads(blob)
    return found


def _chunk_of(shared: tuple[Sweep, Case], begin: int, end: int) -> list[Row]:
    sweep, base = shared
    return judged_rows(sweep, base, begin, end)


@dataclass(slots=True)
class _Under:
    """Parts under way: chunks by their first row."""

    waiting: dict[int, dict[int, list[Row] | None]] = field(default_factory=dict)

    def put(self, part: int, begin: int, rows: list[Row]) -> list[Row] | None:
        """Take a chunk; all rows of its part where it was the last."""
        chunks = self.waiting[part]
        chunks[begin] = rows
        if any(found is None for found in chunks.values()):
            return None
        del self.waiting[part]
        return [row for at in sorted(chunks) for row in chunks[at] or ()]


def _made(
    client: Any, sweep: Sweep, base: Case, parts: _Parts, missing: list[int]
) -> Iterator[tuple[int, list[Row]]]:
    """Parts with their rows, as they come."""
    completed = import_module("distributed").as_completed
    blob = pickle.dumps((sweep, base))
    shared = client.submit(_unpacked, blob, pure=False)
    todo = ((part, begin) for part in missing for begin in parts.begins(part))
    under, owners = _Under(), {}
    threads = sum(w["nthreads"] for w in client.scheduler_info(n_workers=-1)["workers"].values())
    running = completed(loop=client.loop)

    def begin_one() -> None:
        part, begin = next(todo)
        under.waiting.setdefault(part, dict.fromkeys(parts.begins(part)))
        end = min(begin + parts.chunk, parts.rows)
        future = client.submit(_chunk_of, shared, begin, end, pure=False)
        owners[future.key] = part, begin
        running.add(future)

    try:
        for _ in range(AHEAD * threads):
            begin_one()
    except StopIteration:
        pass
    for future in running:
        part, begin = owners.pop(future.key)
        try:
            rows = future.result()
        except Exception as error:  # what the cluster gave up after several workers were lost
            raise SweepError(
                f"The cluster gave up rows {begin} to {begin + parts.chunk - 1}: {error}. Finished "
                "parts are kept: the same command goes on from there."
            ) from None
        whole = under.put(part, begin, rows)
        if whole is not None:
            yield part, whole
        try:
            begin_one()
        except StopIteration:
            continue


def _write(path: Path, sweep: Sweep, begin: int, rows: list[Row]) -> None:
    """A part in one step, through the text that a table on this machine has."""
    text = Path(f"{path}.partial")
    columns = sweep.columns(begin, begin + len(rows))
    values = zip(*(column.tolist() for column in columns), strict=True)
    with text.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream)
        writer.writerow(header(sweep))
        for at, (row, found) in enumerate(zip(values, rows, strict=True), begin):
            writer.writerow([at, *row, *found])
    to_parquet(sweep, text, path)
    os.remove(text)


__all__ = ["CHUNKS_A_PART", "NOTE", "run_on_cluster"]
