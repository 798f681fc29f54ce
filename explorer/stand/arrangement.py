"""Where everything goes on the stand's page: picture above, hands below, upright or wide."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.stand.legibility import Sizes


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle. [logical px]"""

    x: int
    y: int
    width: int
    height: int

    @property
    def bottom(self) -> int:
        """First row below."""
        return self.y + self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """The bands of the page, from top to bottom."""

    upright: bool
    header: Box
    headline: Box
    trace: Box
    strip: Box
    knobs: Box
    knob_columns: int
    cards: Box
    places: int
    """Rows of the table of other places for which there is room, the heads among them."""

    @property
    def below(self) -> Box:
        """Everything under the picture: what hands reach, or the invitation."""
        top = self.strip.y
        return Box(
            x=self.strip.x,
            y=top,
            width=self.strip.width,
            height=self.cards.bottom - top,
        )


_ONE_LINE = 24
"""A knob this wide, in sizes of its text, has its sentence on one line."""
PLACES_LINE = 1.3
"""Of the table of other places, over the size of its letters."""
LOWEST_TRACE = 0.14
"""Least part of the page's height that the trace gets."""


def knob_height(sizes: Sizes, width: int) -> int:
    """Height of one knob of a width: name and value, slider, sentence on one or two lines. [px]"""
    lines = 1 if width >= _ONE_LINE * sizes.near else 2
    text = sizes.near * (1.7 + 1.08 * lines)
    return round(text + slider_height(sizes) + sizes.gap)


def slider_height(sizes: Sizes) -> int:
    """Height of a slider with the names on its track. [px]"""
    return round(max(sizes.target, sizes.near * 1.4) + sizes.near * 1.05)


def card_height(sizes: Sizes) -> int:
    """Height of one row of scenario cards. [px]"""
    return round(max(sizes.target * 1.15, sizes.near * 3.0))


def places_height(sizes: Sizes, rows: int) -> int:
    """Height of a table of other places, its heads counted as a row. [px]"""
    return round(rows * sizes.reason * PLACES_LINE)


def arrange(
    width: int, height: int, sizes: Sizes, knobs: int, places: int = 0
) -> Arrangement:
    """Divide a page.

    Parameters
    ----------
    width, height : int
        Of the page. [px]
    sizes : Sizes
        From `sizes_for`.
    knobs : int
        How many visitors may move, 1 to 4.
    places : int
        Rows of the table of other places: beside the notes, or below them on an upright page.
        Where the page is too low for all, fewer are shown.
    """
    while True:
        bands = _divided(width, height, sizes, knobs, places)
        if bands.cards.bottom <= height - sizes.margin or places <= 2:
            return bands
        places -= 1


def _divided(width: int, height: int, sizes: Sizes, knobs: int, places: int) -> Arrangement:
    """The bands with so many rows of the table of other places."""
    upright = height > width
    margin, gap = sizes.margin, sizes.gap
    inner = width - 2 * margin
    columns = min(knobs, 2) if upright else knobs
    rows = -(-knobs // columns)
    header = round(sizes.near * 1.5)
    if upright:
        headline = round(sizes.word * 1.22 + sizes.number * 1.1 + sizes.caption * 1.3)
        strip = round(sizes.reason * 2.6 + sizes.near * 2.6)
        strip += (gap + places_height(sizes, places)) if places else 0
    else:
        headline = round(max(sizes.word * 1.3, sizes.number * 1.12 + sizes.caption * 1.2))
        strip = round(sizes.reason * 1.35 + sizes.near * 1.5)
        strip = max(strip, places_height(sizes, places))
    each = (inner - gap * (columns - 1)) // columns
    knob = rows * knob_height(sizes, each) + (rows - 1) * gap
    cards = card_height(sizes) * (2 if upright else 1) + (gap if upright else 0)
    taken = 2 * margin + header + headline + strip + knob + cards + 5 * gap
    trace = max(height - taken, round(LOWEST_TRACE * height))
    # On a page that is too low, the headline gives way: hands must keep their targets.
    headline = max(headline - max(taken + trace - height, 0), round(0.1 * height))
    y = margin
    boxes = []
    for band in (header, headline, trace, strip, knob, cards):
        boxes.append(Box(x=margin, y=y, width=inner, height=band))
        y += band + gap
    return Arrangement(
        upright=upright,
        header=boxes[0],
        headline=boxes[1],
        trace=boxes[2],
        strip=boxes[3],
        knobs=boxes[4],
        knob_columns=columns,
        cards=boxes[5],
        places=places,
    )
