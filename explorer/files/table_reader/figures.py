"""Numbers as loggers and spreadsheets write them: which mark parts decimals, which thousands."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.files.table_reader.told import DecimalMark
from explorer.physics.arrays import FloatArray

MISSING = frozenset({
    "", "nan", "-nan", "n/a", "#n/a", "na", "null", "none", "-", "--", "---", "ol", "-ol", "o.l",
    "ovl", "err", "error", "inf", "-inf", "+inf",
})  # fmt: skip
"""What stands where a reading is missing, in small letters (common practice, no source)."""
CODES = (-999.0, -9999.0, -99999.0)
"""Numbers that stand for a missing reading (common practice, no source)."""
_GROUPED = r"[+-]?(?:[1-9]\d{0,2}(?:(%s)\d{3})(?:\1\d{3})*|\d*)(?:%s\d*)?(?:[eE][+-]?\d+)?"
_SHAPES = {
    "point": re.compile(_GROUPED % ("[,'’ \u00a0\u202f]", r"\.")),
    "comma": re.compile(_GROUPED % ("[.'’ \u00a0\u202f]", ",")),
}
_GROUP_MARKS = {"point": ",'’ \u00a0\u202f", "comma": ".'’ \u00a0\u202f"}
_EITHER = re.compile(r"[+-]?[1-9]\d{0,2}([.,])\d{3}")
_PLAIN = re.compile(r"[+-]?\d{4,}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What the numbers of a file say about their decimal mark."""

    mark: DecimalMark | None
    """None where nothing decides."""
    example: str | None
    """A number that could be read both ways; None where there is none."""


def mark_of(columns: Sequence[Iterable[str]]) -> Evidence:
    """The decimal mark of a file, from all numbers of its columns.

    A number such as ``1,234`` says nothing; ``12,5`` or ``1.234,5`` in any column decides for
    the whole file. ``12345`` beside ``1,234`` in one column shows that thousands are not grouped.

    Parameters
    ----------
    columns : sequence of iterable of str
        Cells by column.

    Examples
    --------
    >>> mark_of([["1,234", "12,5"]]).mark, mark_of([["1,234", "1,234.5"]]).mark
    ('comma', 'point')
    >>> mark_of([["1,234", "2,345"]])
    Evidence(mark=None, example='1,234')
    """
    example: str | None = None
    for cells in columns:
        either: str | None = None
        is_plain = False
        for raw in cells:
            if "." not in raw and "," not in raw:
                is_plain = is_plain or _PLAIN.fullmatch(raw.strip()) is not None
                continue
            cell = raw.strip()
            if _EITHER.fullmatch(cell):
                either = either or cell
                continue
            if found := _says(cell):
                return Evidence(mark=found, example=None)
        if either is not None and is_plain:
            return Evidence(mark="point" if "." in either else "comma", example=None)
        example = example or either
    return Evidence(mark=None, example=example)


def _says(cell: str) -> DecimalMark | None:
    """What one number says; None for what is no number."""
    fits = [mark for mark, shape in _SHAPES.items() if shape.fullmatch(cell)]
    if len(fits) != 1 or cell.lower() in MISSING:
        return None
    return "point" if fits[0] == "point" else "comma"


def figures(cells: Sequence[str], mark: DecimalMark) -> tuple[FloatArray, NDArray[np.intp]]:
    """Numbers of a column, with the places of those that are missing or cannot be read.

    Parameters
    ----------
    cells : sequence of str
        Shape (n,).
    mark : {"point", "comma"}
        Of the decimals.

    Returns
    -------
    ndarray
        Shape (n,), NaN where a cell holds no number.
    ndarray of int
        Places of those cells; `MISSING` tells the two kinds apart.
    """
    whole = "\n".join(cells)
    other = "," if mark == "point" else "."
    if other not in whole and "_" not in whole:
        try:
            plain = whole if mark == "point" else whole.replace(",", ".")
            found = np.array([float(cell) for cell in plain.split("\n")])
        except ValueError:
            pass
        else:
            if np.isfinite(found).all():
                return found, np.zeros(0, np.intp)
    values = np.full(len(cells), np.nan)
    unread: list[int] = []
    for place, cell in enumerate(cells):
        value = figure_of(cell, mark)
        if value is None:
            unread.append(place)
        else:
            values[place] = value
    return values, np.array(unread, np.intp)


def figure_of(cell: str, mark: DecimalMark) -> float | None:
    """One number; None for a code of a missing reading and for anything else.

    Examples
    --------
    >>> figure_of("1.300,5", "comma"), figure_of("1 300", "point"), figure_of("3,90", "point")
    (1300.5, 1300.0, None)
    """
    text = cell.strip()
    if not any(c.isdigit() for c in text) or not _SHAPES[mark].fullmatch(text):
        return None
    for group in _GROUP_MARKS[mark]:
        text = text.replace(group, "")
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        return None
    return value if np.isfinite(value) else None

