"""A chart as SVG: plain lines, areas and texts that browsers and Qt draw alike.

Only attributes are used, no style sheet, no clip path and no script; what would leave the field is
cut off here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from explorer.advice.verdict import State
from explorer.files.report_blocks import (
    Axis,
    Band,
    Bars,
    Chart,
    Curve,
    Mosaic,
    Render,
    Strip,
    plain,
)
from explorer.physics.arrays import FloatArray

WIDTH, HEIGHT = 720.0, 270.0
"""Size of a picture in its own units; on A4 a unit is a quarter of a millimetre."""
INK, SOFT, LINE, ENVELOPE, NIGHT, PAPER = (
    "black", "dimgray", "silver", "lightgray", "whitesmoke", "white",
)  # fmt: skip
"""Ink on paper, told apart without any colour."""
BARS = ("dimgray", "darkgray", "gainsboro", "white")
TILES = ("black", "dimgray", "gray", "darkgray", "silver", "gainsboro", "white")
_TEXT, _GAP, _SAMPLE = 12.0, 15.0, 26.0
_TOP, _BOTTOM, _LEFT, _RIGHT = 28.0, 42.0, 66.0, 140.0
_STRIP, _STRIP_GAP = 34.0, 8.0
_LETTER_WIDTH = 6.6
"""Mean width of a letter at the size of the texts. [units]"""
_TALL, _BESIDE = 8.0, 13.0
"""Half of a text with its ground, and how far its middle stands from what it is beside."""
FONT = "sans-serif"


@dataclass(frozen=True, slots=True)
class _Field:
    """Where the axes lie within the picture."""

    x: Axis
    left: Axis
    right: Axis | None
    west: float
    east: float
    north: float
    south: float

    def across(self, value: float) -> float:
        share = (value - self.x.low) / (self.x.high - self.x.low)
        return self.west + min(max(share, 0.0), 1.0) * (self.east - self.west)

    def up(self, value: float, *, right: bool = False) -> float:
        axis = self.right if right and self.right is not None else self.left
        share = (value - axis.low) / (axis.high - axis.low)
        return self.south - min(max(share, 0.0), 1.0) * (self.south - self.north)


def chart_svg(chart: Chart, spoken: str, render: Render = plain) -> str:
    """A chart as one SVG element with its title.

    Parameters
    ----------
    chart : Chart
        What to draw.
    spoken : str
        The picture in words.
    render : callable
        Puts texts into the language of the sheet.
    """
    below = _STRIP + _STRIP_GAP if chart.strip else 0.0
    field = _Field(
        chart.x, chart.left, chart.right,
        west=_LEFT, east=WIDTH - _RIGHT, north=_TOP, south=HEIGHT - _BOTTOM - below,
    )  # fmt: skip
    south = field.south + below
    parts = [
        *_shades(chart, field, south),
        *(_band(band, field) for band in chart.bands),
        *(_mosaic(chart.mosaic, field) if chart.mosaic else ()),
        *_grid(chart, field, south, render),
        *_levels(chart, field, render),
        *(bar for bars in chart.bars for bar in _bars(bars, field)),
        *(_curve(curve, field) for curve in chart.curves),
        *_drops(chart, field, render),
        *_dots(chart, field),
        *(_strip(chart.strip, field, south, render) if chart.strip else ()),
        *_legend(chart, render),
        _rectangle(field.west, field.north, field.east, field.south, fill="none", stroke=INK),
    ]
    words = printable(render(spoken))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" '
        f'width="{WIDTH:g}" height="{HEIGHT:g}" role="img" '
        f'aria-label={quoteattr(words)} font-family="{FONT}" font-size="{_TEXT:g}">'
        f"<title>{escape(words)}</title>"
        f"{_rectangle(0, 0, WIDTH, HEIGHT, fill=PAPER)}{''.join(parts)}</svg>"
    )


def shape_svg(state: State, size: float) -> str:
    """The shape of a verdict: a full disc, a half disc, or a ring with a bar through it."""
    inside = {
        "runs": f'<circle cx="12" cy="12" r="10" fill="{INK}"/>',
        "marginal": (
            f'<circle cx="12" cy="12" r="9" fill="{PAPER}" stroke="{INK}" stroke-width="2"/>'
            f'<path d="M12 3 A9 9 0 0 0 12 21 Z" fill="{INK}"/>'
        ),
        "falls_short": (
            f'<circle cx="12" cy="12" r="9" fill="{PAPER}" stroke="{INK}" stroke-width="2.6"/>'
            f'<path d="M7 12 H17" stroke="{INK}" stroke-width="2.6"/>'
        ),
    }[state]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" width="{size:g}" '
        f'height="{size:g}" aria-hidden="true">{inside}</svg>'
    )


def hazard_svg(size: float) -> str:
    """A triangle with an exclamation mark."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" width="{size:g}" '
        f'height="{size:g}" aria-hidden="true">'
        f'<path d="M12 2 L23 22 L1 22 Z" fill="{PAPER}" stroke="{INK}" stroke-width="2" '
        f'stroke-linejoin="round"/><path d="M12 9 V15" stroke="{INK}" stroke-width="2.4"/>'
        f'<circle cx="12" cy="18.6" r="1.5" fill="{INK}"/></svg>'
    )


def printable(text: str) -> str:
    r"""A text without the control letters that neither XML nor HTML may hold.

    Examples
    --------
    >>> printable("Fern\x00 label")
    'Fern label'
    """
    return "".join(letter for letter in text if letter >= " " or letter in "\t\n")


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _rectangle(
    west: float, north: float, east: float, south: float, *, fill: str, stroke: str = "none"
) -> str:
    return (
        f'<rect x="{_n(west)}" y="{_n(north)}" width="{_n(east - west)}" '
        f'height="{_n(south - north)}" fill="{fill}" stroke="{stroke}"/>'
    )


def _line(
    x1: float, y1: float, x2: float, y2: float, *, stroke: str, width: float = 1.0, dash: str = ""
) -> str:
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<line x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}" stroke="{stroke}" '
        f'stroke-width="{width:g}"{dashed}/>'
    )


def _text(
    x: float, y: float, text: str, *, anchor: str = "start", fill: str = INK, turned: bool = False,
    bold: bool = False,
) -> str:  # fmt: skip
    turn = f' transform="rotate(-90 {_n(x)} {_n(y)})"' if turned else ""
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" fill="{fill}"{weight}{turn}>'
        f"{escape(printable(text))}</text>"
    )


def _points(xs: Iterable[float], ys: Iterable[float]) -> list[str]:
    """Coordinates without those that repeat the one before."""
    found: list[str] = []
    for x, y in zip(xs, ys, strict=True):
        point = f"{x:.1f},{y:.1f}"
        if not found or found[-1] != point:
            found.append(point)
    return found


def _within(x: FloatArray, y: FloatArray, axis: Axis) -> tuple[FloatArray, FloatArray]:
    """The part of a line that lies on the horizontal axis, ends included."""
    inside = (x >= axis.low) & (x <= axis.high)
    return x[inside], y[inside]


def _curve(curve: Curve, field: _Field) -> str:
    x, y = _within(curve.x, curve.y, field.x)
    points = _points(
        (field.across(v) for v in x), (field.up(v, right=curve.right) for v in y)
    )
    dashed = f' stroke-dasharray="{curve.dash}"' if curve.dash else ""
    return (
        f'<polyline points="{" ".join(points)}" fill="none" stroke="{INK}" '
        f'stroke-width="{curve.width:g}" stroke-linejoin="round"{dashed}/>'
    )


def _band(band: Band, field: _Field) -> str:
    x, high = _within(band.x, band.high, field.x)
    _, low = _within(band.x, band.low, field.x)
    over = _points((field.across(v) for v in x), (field.up(v) for v in high))
    under = _points((field.across(v) for v in x[::-1]), (field.up(v) for v in low[::-1]))
    return f'<polygon points="{" ".join(over + under)}" fill="{ENVELOPE}" stroke="none"/>'


def _bars(bars: Bars, field: _Field) -> list[str]:
    return [
        _rectangle(field.across(a), field.up(high), field.across(b), field.south,
                   fill=BARS[bars.ink], stroke=INK)
        for a, b, high in zip(bars.begin.tolist(), bars.end.tolist(), bars.high.tolist(),
                              strict=True)
        if high > 0.0
    ]  # fmt: skip


def _mosaic(mosaic: Mosaic, field: _Field) -> list[str]:
    """One shape for each class, of runs of tiles that lie side by side."""
    columns, rows = mosaic.classes.shape
    wide, high = (field.east - field.west) / columns, (field.south - field.north) / rows
    shapes: list[list[str]] = [[] for _ in mosaic.labels]
    for row in range(rows):
        line = mosaic.classes[:, row]
        turns = np.flatnonzero(np.diff(line)) + 1
        edges = [0, *turns.tolist(), columns]
        y = _n(field.south - (row + 1) * high)
        for a, b in pairwise(edges):
            shapes[int(line[a])].append(
                f"M{_n(field.west + a * wide)} {y}h{_n((b - a) * wide)}v{_n(high)}"
                f"h{_n((a - b) * wide)}Z"
            )
    inks = tiles(len(mosaic.labels))
    return [
        f'<path d="{"".join(shape)}" fill="{ink}" stroke="none"/>'
        for shape, ink in zip(shapes, inks, strict=True) if shape
    ]


def tiles(count: int) -> tuple[str, ...]:
    """Greys for so many classes, from dark to white."""
    return tuple(TILES[round(k * (len(TILES) - 1) / max(count - 1, 1))] for k in range(count))


def _shades(chart: Chart, field: _Field, south: float) -> list[str]:
    return [
        _rectangle(field.across(begin), field.north, field.across(end), south, fill=NIGHT)
        for begin, end in chart.shades
        if field.across(end) - field.across(begin) > 0.05
    ]


def _grid(chart: Chart, field: _Field, south: float, render: Render) -> list[str]:
    parts = []
    for tick in chart.left.ticks:
        y = field.up(tick.time_s)
        parts.append(_line(field.west, y, field.east, y, stroke=LINE, width=0.6))
        parts.append(_text(field.west - 6, y + 4, render(tick.label), anchor="end"))
    if chart.right is not None:
        for tick in chart.right.ticks:
            y = field.up(tick.time_s, right=True)
            parts.append(_line(field.east, y, field.east + 4, y, stroke=INK))
            parts.append(_text(field.east + 8, y + 4, render(tick.label)))
        middle = 0.5 * (field.north + field.south)
        parts.append(
            _text(field.east + 52, middle, render(chart.right.title), anchor="middle", turned=True)
        )
    for tick in chart.x.ticks:
        x = field.across(tick.time_s)
        if tick.label:
            parts.append(_text(x, south + 16, render(tick.label), anchor="middle"))
        parts.append(_line(x, south, x, south + 4, stroke=INK))
    title_y = 0.5 * (field.north + field.south)
    parts.append(_text(13, title_y, render(chart.left.title), anchor="middle", turned=True))
    middle = 0.5 * (field.west + field.east)
    parts.append(_text(middle, HEIGHT - 8, render(chart.x.title), anchor="middle"))
    return parts


def _levels(chart: Chart, field: _Field, render: Render) -> list[str]:
    at = [field.up(level.y) for level in chart.levels]
    parts = []
    for level, y, label_y in zip(chart.levels, at, spread_out(at, _GAP), strict=True):
        parts.append(_line(field.west, y, field.east, y, stroke=SOFT, dash="7 4"))
        parts.append(_line(field.east, y, field.east + 8, label_y, stroke=SOFT))
        parts.append(_text(field.east + 11, label_y + 4, render(level.label)))
    return parts


def spread_out(places: Sequence[float], gap: float) -> list[float]:
    """Places moved apart until no two are closer than a gap, in their order.

    Examples
    --------
    >>> spread_out([10.0, 12.0, 40.0], 15.0)
    [3.5, 18.5, 40.0]
    """
    order = np.argsort(places, kind="stable")
    found = [float(places[i]) for i in order]
    for _ in range(40):
        for i in range(1, len(found)):
            short = gap - (found[i] - found[i - 1])
            if short > 1e-9:
                found[i - 1] -= short / 2
                found[i] += short / 2
    result = [0.0] * len(found)
    for i, value in zip(order, found, strict=True):
        result[int(i)] = round(value, 3)
    return result


def _drops(chart: Chart, field: _Field, render: Render) -> list[str]:
    """Distances with their names where no curve runs: beside the middle or below or above it."""
    parts: list[str] = []
    taken: list[tuple[float, float]] = []
    drawn = [
        (np.array([field.across(v) for v in curve.x.tolist()]),
         np.array([field.up(v, right=curve.right) for v in curve.y.tolist()]))
        for curve in chart.curves
    ]  # fmt: skip
    for drop in chart.drops:
        x, low, high = field.across(drop.x), field.up(drop.low), field.up(drop.high)
        parts.append(_line(x, low, x, high, stroke=INK, width=2.4))
        parts += [_line(x - 4, end, x + 4, end, stroke=INK) for end in (low, high)]
        label = render(drop.label)
        width = len(label) * _LETTER_WIDTH + 6
        # Where there is room on either side, on paper of its own so that no line runs through it.
        sides = [x + 6] if x < 0.6 * field.east else [x - 6 - width]
        sides += [x + 6] if x + 6 + width < field.east else []
        heights = (0.5 * (low + high), low + _BESIDE, high - _BESIDE, low + 2 * _BESIDE)
        places = [(left, y) for y in heights for left in sides
                  if field.north + 7 < y < field.south - 7]
        free = [(left, y) for left, y in places if all(abs(y - t) >= _GAP for _, t in taken)]
        west_end, y = min(
            free or places,
            key=lambda at: sum(_crossed(at[0], at[0] + width, at[1], line) for line in drawn),
        )
        taken.append((west_end, y))
        parts.append(_rectangle(west_end, y - 7, west_end + width, y + 7, fill=PAPER))
        east = west_end > x
        parts.append(
            _text(x + 9 if east else x - 9, y + 4, label, anchor="start" if east else "end")
        )
    return parts


def _crossed(
    west: float, east: float, middle: float, line: tuple[FloatArray, FloatArray]
) -> float:
    """Share of a text's width over which a curve runs through it, also where it only dips in."""
    x, y = line
    even = np.linspace(west, east, 40)
    met = (np.abs(np.interp(even, x, y, np.nan, np.nan) - middle) < _TALL).mean()
    # Points between those of the curve, for one that steps up or down within the text.
    each = np.arange(float(len(x)))
    between = np.linspace(0.0, len(x) - 1.0, 20 * len(x))
    x, y = np.interp(between, each, x), np.interp(between, each, y)
    dips = (x > west) & (x < east) & (np.abs(y - middle) < _TALL)
    return max(float(met), 0.05 if dips.any() else 0.0)


def _dots(chart: Chart, field: _Field) -> list[str]:
    parts = []
    for i, dot in enumerate(sorted(chart.dots, key=lambda dot: dot.x)):
        x, y = field.across(dot.x), field.up(dot.y, right=dot.right)
        parts.append(
            f'<circle cx="{_n(x)}" cy="{_n(y)}" r="4" fill="{PAPER}" stroke="{INK}" '
            f'stroke-width="1.6"/>'
        )
        # Letters stand on the outer side, clear of the other dots.
        aside = (-9, "end") if 2 * i < len(chart.dots) - 1 else (9, "start")
        parts.append(_text(x + aside[0], y - 7, dot.letter, anchor=aside[1], bold=True))
    return parts


def _strip(strip: Strip, field: _Field, south: float, render: Render) -> list[str]:
    north = south - _STRIP
    x, y = _within(strip.x, strip.y, field.x)
    heights = south - np.clip(y / strip.high, 0.0, 1.0) * _STRIP
    points = _points((field.across(v) for v in x), heights)
    closed = [f"{field.west:.1f},{south:.1f}", *points, f"{field.east:.1f},{south:.1f}"]
    return [
        f'<polygon points="{" ".join(closed)}" fill="{LINE}" stroke="{SOFT}" stroke-width="0.8"/>',
        _rectangle(field.west, north, field.east, south, fill="none", stroke=INK),
        _text(field.west - 6, north + 10, render(strip.high_label), anchor="end"),
        _text(field.west - 6, south, "0", anchor="end"),
        _text(field.east + 11, 0.5 * (north + south) + 4, render(strip.title)),
    ]


def _legend(chart: Chart, render: Render) -> list[str]:
    x, parts, middle = _LEFT, [], 13.0
    for curve in chart.curves:
        parts.append(
            _line(x, middle, x + _SAMPLE, middle, stroke=INK, width=curve.width, dash=curve.dash)
        )
        x = _name(parts, x, render(curve.label))
    grounds = [(band.label, ENVELOPE) for band in chart.bands]
    grounds += [(chart.shade_label, NIGHT)] if chart.shades and chart.shade_label else []
    grounds += [(bars.label, BARS[bars.ink]) for bars in chart.bars]
    if chart.mosaic is not None:
        grounds += list(zip(chart.mosaic.labels, tiles(len(chart.mosaic.labels)), strict=True))
    for label, fill in grounds:
        parts.append(
            _rectangle(x, middle - 6, x + _SAMPLE, middle + 6, fill=fill, stroke=LINE)
        )
        x = _name(parts, x, render(label))
    return parts


def _name(parts: list[str], x: float, label: str) -> float:
    """Write a name beside its sample; returns where the next sample begins."""
    parts.append(_text(x + _SAMPLE + 5, 17.0, label))
    return x + _SAMPLE + 5 + len(label) * _LETTER_WIDTH + 16
