"""The map of verdicts as a picture: a colour and a pattern for each outcome, lines at margins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from explorer.advice.territory import Territory
from explorer.advice.verdict import State
from explorer.state.theme import Tokens
from explorer.widgets.drawers.scales import Scale
from explorer.widgets.paint import mix
from explorer.words.drawers import CODES

FloatArray = NDArray[np.float64]
_PERIOD = 8.0
"""Distance of the pattern's lines and dots. [px]"""
_TINT = {"runs": 0.34, "marginal": 0.22, "falls_short": 0.10}
_INK = {"runs": 0.78, "marginal": 0.78, "falls_short": 0.58}
_LEAST, _MOST = 0.02, 50.0
"""Margins beyond these say no more, and would bend what lies between grid points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MapPicture:
    """What is drawn inside the axes, in shares of their lengths."""

    image: QImage
    margin_one: list[QLineF]
    """Where the smallest margin is 1."""
    margin_wanted: list[QLineF]
    """Where every check has just the margin wanted."""


def map_picture(
    found: Territory, x: Scale, y: Scale, width: int, height: int, ratio: float, tokens: Tokens
) -> MapPicture:
    """Draw a map.

    Parameters
    ----------
    found : Territory
        Margins on a grid, coarse or fine.
    x, y : Scale
        The whole axes, of which the grid may leave values out.
    width, height : int
        Size in logical pixels.
    ratio : float
        Device pixels to a logical one.
    tokens : Tokens
        Colours.
    """
    columns = x.rows(width, found.x.values)
    rows = y.rows(height, found.y.values)[::-1]
    margin = _between(_levels(found.margin), rows, columns)
    reserve = _between(_levels(found.reserve), rows, columns)
    codes = (margin >= 0).astype(np.uint8) + ((margin >= 0) & (reserve >= 0)).astype(np.uint8)
    return MapPicture(
        image=_painted(codes, ratio, tokens),
        margin_one=_contour(margin),
        margin_wanted=_contour(np.minimum(reserve, margin)),
    )


def _levels(margin: FloatArray) -> FloatArray:
    return np.asarray(np.log(np.clip(margin, _LEAST, _MOST)))


def _between(values: FloatArray, rows: FloatArray, columns: FloatArray) -> FloatArray:
    """Values between grid points, straight in both directions. Shape (rows, columns)."""
    r = np.minimum(rows.astype(int), max(values.shape[0] - 2, 0))
    c = np.minimum(columns.astype(int), max(values.shape[1] - 2, 0))
    r1 = np.minimum(r + 1, values.shape[0] - 1)
    c1 = np.minimum(c + 1, values.shape[1] - 1)
    down, across = (rows - r)[:, None], (columns - c)[None, :]
    upper = values[np.ix_(r, c)] * (1 - across) + values[np.ix_(r, c1)] * across
    lower = values[np.ix_(r1, c)] * (1 - across) + values[np.ix_(r1, c1)] * across
    return np.asarray(upper * (1 - down) + lower * down)


def _painted(codes: NDArray[np.uint8], ratio: float, tokens: Tokens) -> QImage:
    height, width = (round(n * ratio) for n in codes.shape)
    rows = np.minimum((np.arange(height) / ratio).astype(int), codes.shape[0] - 1)
    columns = np.minimum((np.arange(width) / ratio).astype(int), codes.shape[1] - 1)
    fine = codes[np.ix_(rows, columns)]
    marked = np.stack([pattern(state, width, height, ratio) for state in CODES])
    mark = np.take_along_axis(marked, fine[None].astype(int), axis=0)[0]
    colors = np.array(
        [[_rgb(map_color(s, tokens)), _rgb(map_ink(s, tokens))] for s in CODES], dtype=np.uint32
    )
    pixels = np.ascontiguousarray(colors[fine, mark.astype(int)])
    image = QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32).copy()
    image.setDevicePixelRatio(ratio)
    return image


def pattern(state: State, width: int, height: int, ratio: float) -> NDArray[np.bool_]:
    """Which pixels carry ink: none where it runs, diagonals where marginal, dots where short."""
    x, y = np.arange(width)[None, :] / ratio, np.arange(height)[:, None] / ratio
    if state == "runs":
        return np.zeros((height, width), bool)
    if state == "marginal":
        return np.asarray((x + y) % _PERIOD < 1.5)
    odd = (y // (_PERIOD / 2)).astype(int) % 2 * (_PERIOD / 2)
    return np.asarray(((x + odd) % _PERIOD < 1.6) & (y % (_PERIOD / 2) < 1.6))


def map_color(state: State, tokens: Tokens) -> QColor:
    """Ground of one outcome."""
    return mix(tokens.color(state), tokens.color("card"), _TINT[state])


def map_ink(state: State, tokens: Tokens) -> QColor:
    """Pattern of one outcome."""
    return mix(tokens.color(state), tokens.color("card"), _INK[state])


def _rgb(color: QColor) -> int:
    return color.rgb() & 0xFFFFFFFF


def _contour(level: FloatArray) -> list[QLineF]:
    """Lines where a level of shape (rows, columns) passes zero, in shares of both sides.

    Marching squares: each square between four pixels gets a line between the sides on which the
    level changes its sign.
    """
    height, width = level.shape
    a, b = level[:-1, :-1], level[:-1, 1:]
    d, c = level[1:, :-1], level[1:, 1:]
    cells = [(v >= 0).astype(int) for v in (a, b, c, d)]
    kind = cells[0] + 2 * cells[1] + 4 * cells[2] + 8 * cells[3]
    rows, columns = np.nonzero((kind > 0) & (kind < 15))
    lines = []
    for i, j in zip(rows.tolist(), columns.tolist(), strict=True):
        corners = (level[i, j], level[i, j + 1], level[i + 1, j + 1], level[i + 1, j])
        sides = []
        for k, (x0, y0, x1, y1) in enumerate(_SIDES):
            one, other = corners[k], corners[(k + 1) % 4]
            if (one >= 0) != (other >= 0):
                t = one / (one - other)
                sides.append((j + 0.5 + x0 + t * (x1 - x0), i + 0.5 + y0 + t * (y1 - y0)))
        for (x0, y0), (x1, y1) in zip(sides[::2], sides[1::2], strict=False):
            lines.append(QLineF(x0 / width, y0 / height, x1 / width, y1 / height))
    return lines


_SIDES = ((0, 0, 1, 0), (1, 0, 1, 1), (1, 1, 0, 1), (0, 1, 0, 0))


def paint_swatch(painter: QPainter, rect: QRectF, state: State, tokens: Tokens) -> None:
    """A small piece of the map for its legend."""
    ratio = 2.0
    width, height = int(rect.width() * ratio), int(rect.height() * ratio)
    codes = np.full((int(rect.height()), int(rect.width())), CODES.index(state), dtype=np.uint8)
    image = _painted(codes, ratio, tokens)
    assert image.width() == width
    assert image.height() == height
    painter.drawImage(rect.topLeft(), image)
    painter.setPen(QPen(tokens.color("edge"), 1.0))
    painter.drawRect(rect.adjusted(0.5, 0.5, -0.5, -0.5))
