"""Tables of a sweep on disk: which file is one, and how one becomes Parquet."""

from __future__ import annotations

import os
from importlib import import_module
from pathlib import Path
from typing import Any

from explorer.advice.verdict import CHECK_NAMES
from explorer.files.sweep_plan import Sweep, SweepError
from explorer.files.sweep_rows import header

MARKS = {"row", "verdict", *(f"{name}_margin" for name in CHECK_NAMES), "fault"}
"""Columns that every table of a sweep has."""
FIRST_BYTES = 100_000
PARQUET_MAGIC = b"PAR1"
WORDS = ("verdict", "judged_by", "fault")


def is_table(path: Path) -> bool:
    """Whether a file is a table that a sweep wrote, or nothing yet.

    Raises
    ------
    OSError
        It cannot be read.
    """
    with path.open("rb") as stream:
        begin = stream.read(FIRST_BYTES)
    if begin.startswith(PARQUET_MAGIC):
        try:
            _, parquet = parquet_modules()
            return set(parquet.read_schema(path).names) >= MARKS
        except Exception:  # whatever is wrong with it, no sweep wrote it
            return False
    line = begin.partition(b"\n")[0].decode("utf-8", errors="replace").strip()
    return not begin or set(line.split(",")) >= MARKS


def parquet_modules() -> tuple[Any, Any]:
    """The modules that read CSV and write Parquet; no other part of the program needs them.

    Raises
    ------
    SweepError
        They are missing.
    """
    try:
        return import_module("pyarrow.csv"), import_module("pyarrow.parquet")
    except ImportError:
        raise SweepError(
            "Parquet needs the library pyarrow; type: pip install pyarrow, or write a .csv file."
        ) from None


def to_parquet(sweep: Sweep, source: Path, target: Path) -> None:
    """Make Parquet of a whole table in CSV, a part after the other."""
    arrow_csv, parquet = parquet_modules()
    arrow = import_module("pyarrow")
    kinds = {str: arrow.string(), int: arrow.int64(), float: arrow.float64()}
    given = {v.path: kinds[type(v.values[0])] for v in sweep.varied}
    types = {
        name: given.get(name, arrow.string() if name in WORDS else arrow.float64())
        for name in header(sweep)
    }
    types["row"] = arrow.int64()
    options = arrow_csv.ConvertOptions(
        column_types=types, null_values=[""], strings_can_be_null=False
    )
    new = Path(f"{target}.new")
    with (
        arrow_csv.open_csv(source, convert_options=options) as reader,
        parquet.ParquetWriter(new, reader.schema) as writer,
    ):
        for part in reader:
            writer.write_batch(part)
    os.replace(new, target)
