"""What a sheet is made of: blocks that say what they are and leave the look to their writers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

import numpy as np

from explorer.advice.verdict import State
from explorer.physics.arrays import FloatArray, IntArray
from explorer.text import Text
from explorer.words.moments import Tick

Render = Callable[[str], str]
"""Puts a `Text` into the language of the sheet; what a user typed stays as it is."""
Kind = Literal["text", "number", "code"]
Dash = Literal["", "7 4", "2 3"]
DASHES: tuple[Dash, ...] = get_args(Dash)
"""Curves of one kind take them in turn, so that they differ in print."""
Paper = Literal["A4", "Letter"]
PAPERS: dict[Paper, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height of each paper that a sheet may be printed on, upright. [mm]"""
SHORT_TABLE = 6
"""A table of so many rows is not parted between two pages."""


def plain(text: str) -> str:
    """The text in English, as a plain string."""
    return str.__str__(text) if isinstance(text, Text) else text


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Begins a section."""

    text: str
    whole: bool = False
    """Whether the section stays on one page, where it has room on any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Banner:
    """The verdict: shape, word, reason, number."""

    state: State
    word: str
    reason: str
    number: str
    """The governing margin and what it is held against."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A framed text that must not be overlooked."""

    title: str
    text: str
    hazard: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table."""

    title: str
    share: float
    """Of the table's width; all of them make 1."""
    kind: Kind = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of a table."""

    cells: tuple[str, ...]
    strong: bool = False
    """Stands out: a sum, or a value that somebody chose."""
    group: bool = False
    """One cell across the table that names the rows below it."""
    state: State | None = None
    """Shape to draw in front of the second cell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows under titles; its first column names each row."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    title: str = ""
    """Stands out above the caption, where a section has several tables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A straight axis with its ticks."""

    title: str
    low: float
    high: float
    ticks: tuple[Tick, ...]
    """The place of a tick is in `time_s`, whatever the axis measures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A line through points."""

    label: str
    x: FloatArray
    y: FloatArray
    dash: Dash = ""
    width: float = 1.6
    right: bool = False
    """Whether it is read at the right-hand axis."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """The ground between two lines."""

    label: str
    x: FloatArray
    low: FloatArray
    high: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedLine:
    """A horizontal line with a name at its right end."""

    label: str
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """A point with a letter beside it."""

    letter: str
    x: float
    y: float
    right: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """A vertical distance with a name, between two heights at one place."""

    label: str
    x: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What is drawn in a low field under the picture, on the same horizontal axis."""

    title: str
    x: FloatArray
    y: FloatArray
    high: float
    """Upper end of the field."""
    high_label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Upright bars of one kind."""

    label: str
    begin: FloatArray
    end: FloatArray
    high: FloatArray
    ink: int
    """Which grey, 0 for the darkest, to 3 for white."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mosaic:
    """A field of even tiles, each of one class."""

    labels: tuple[str, ...]
    """Of the classes, from the darkest grey to white."""
    classes: IntArray
    """Shape (columns, rows), the first row at the bottom."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A picture with axes."""

    x: Axis
    left: Axis
    right: Axis | None = None
    shades: tuple[tuple[float, float], ...] = ()
    """Stretches of the horizontal axis on grey ground."""
    shade_label: str = ""
    bands: tuple[Band, ...] = ()
    curves: tuple[Curve, ...] = ()
    levels: tuple[NamedLine, ...] = ()
    dots: tuple[Dot, ...] = ()
    drops: tuple[Drop, ...] = ()
    strip: Strip | None = None
    bars: tuple[Bars, ...] = ()
    mosaic: Mosaic | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A chart with what it shows in words."""

    caption: str
    """Below the picture."""
    spoken: str
    """For those who do not see it."""
    chart: Chart


Block = Heading | Paragraph | Banner | Note | Table | Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole sheet, in no language yet."""

    title: str
    """The person's own words."""
    place: str
    short_hash: str
    """Beginning of the scenario's SHA-256, for the head of every page."""
    blocks: tuple[Block, ...]


def widened(table: Table, least: Sequence[float]) -> Table:
    """The table with no column below a share of its width; those with room to spare give way.

    Parameters
    ----------
    table : Table
        Whose columns have the shares that are wished for.
    least : sequence of float
        What each column needs. Where all together need more than there is, nothing is changed.
    """
    shares = np.array([column.share for column in table.columns])
    lacking, spare = np.maximum(least - shares, 0.0), np.maximum(shares - least, 0.0)
    if not 0.0 < lacking.sum() <= spare.sum():
        return table
    shares += lacking - spare * lacking.sum() / spare.sum()
    columns = zip(table.columns, shares.tolist(), strict=True)
    return replace(table, columns=tuple(replace(c, share=share) for c, share in columns))
