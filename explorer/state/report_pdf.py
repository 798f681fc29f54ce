"""A sheet as PDF: the same blocks as the page, with a head and a foot on every page of paper.

Every text is laid out by Qt, so that fonts are embedded and words can be searched; pictures are
painted as lines, not as pixels. A row of a table is kept whole, its titles come again on the next
page, none of its rows goes there alone, and a heading stays with what it heads. Headings are
bookmarks (`report_marks`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from PySide6.QtCore import QBuffer, QByteArray, QMarginsF, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QGuiApplication,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QPen,
    QTextLayout,
    QTextOption,
)
from PySide6.QtSvg import QSvgRenderer

from explorer.files.report_blocks import (
    PAPERS,
    SHORT_TABLE,
    Banner,
    Block,
    Column,
    Figure,
    Heading,
    Note,
    Paper,
    Paragraph,
    Render,
    Row,
    Sheet,
    Table,
    plain,
    widened,
)
from explorer.files.report_svg import (
    HEIGHT,
    INK,
    LINE,
    SOFT,
    WIDTH,
    chart_svg,
    hazard_svg,
    shape_svg,
)
from explorer.state.report_marks import Mark, finished
from explorer.text import say

RESOLUTION = 1200
"""Dots per inch in which places are counted; lines and texts stay sharp at any size."""
SIDE, TOP, BOTTOM = 16.0, 25.0, 20.0
"""Edges of the body of a page. [mm]"""
_TITLE, _HEAD, _TEXT, _SMALL, _CODE, _WORD = 18.0, 12.0, 9.5, 8.5, 7.2, 20.0
"""Type sizes. [pt]"""
_PAD, _CELL_GAP, _BLANK, _AFTER_TABLE = 0.9, 2.5, 11.0, 4.0
_ROUNDING = 0.1
"""What a line may be wider than the sum of its letters. [mm]"""
_FIRST_ROWS = 3
"""So many rows of a table stay with its titles."""
_FLOWS, _TEXT_LEAST = 60.0, 15.0
"""A row higher than this runs on over the page, if so much of it fits on this one. [mm]"""


def sheet_pdf(sheet: Sheet, render: Render = plain, paper: Paper = "A4") -> bytes:
    """A sheet as a PDF document.

    Parameters
    ----------
    sheet : Sheet
        What it says.
    render : callable
        Puts a text into the language of the sheet; English when left out.
    paper : str
        One of `PAPERS`.
    """
    pages = _Press(sheet, render, paper, 0).run()[1]
    press = _Press(sheet, render, paper, pages)
    return finished(press.run()[0], press.headings)


@dataclass(frozen=True, slots=True)
class _Words:
    """A text broken into lines of one width. [mm]"""

    layout: QTextLayout
    bottoms: tuple[float, ...]
    """Where each line ends."""

    @property
    def height(self) -> float:
        return self.bottoms[-1] if self.bottoms else 0.0


class _Press:
    """Sets blocks one below the other, on as many pages as they need."""

    def __init__(self, sheet: Sheet, render: Render, paper: Paper, pages: int) -> None:
        self._sheet, self._render, self._pages = sheet, render, pages
        self._wide, self._high = PAPERS[paper]
        self._body = self._wide - 2 * SIDE
        self.headings: list[Mark] = []
        self._buffer = QBuffer()
        self._buffer.open(QBuffer.OpenModeFlag.WriteOnly)
        self._writer = QPdfWriter(self._buffer)
        self._writer.setResolution(RESOLUTION)
        size = QPageSize(QPageSize.PageSizeId[paper])
        self._writer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF()))
        self._writer.setTitle(sheet.title)
        self._writer.setCreator("Gloaming")
        self._dots = RESOLUTION / 25.4
        self._page, self._y = 1, TOP

    def run(self) -> tuple[bytes, int]:
        """The document and the number of its pages."""
        self._painter = QPainter(self._writer)
        try:
            self._frame()
            self._paragraph(self._sheet.title, _TITLE, bold=True)
            self._paragraph(self._sheet.place, _TEXT, ink=SOFT)
            blocks = self._sheet.blocks
            for i, block in enumerate(blocks):
                self._block(block, blocks[i + 1 :])
        finally:
            self._painter.end()
        return bytes(self._buffer.data().data()), self._page

    def _block(self, block: Block, following: Sequence[Block]) -> None:
        if isinstance(block, Heading):
            self._heading(block, following)
        elif isinstance(block, Paragraph):
            self._paragraph(self._render(block.text), _TEXT)
        elif isinstance(block, Banner):
            self._banner(block)
        elif isinstance(block, Note):
            self._note(block)
        elif isinstance(block, Figure):
            self._figure(block)
        else:
            self._table(block)

    # --- texts ---

    def _font(self, points: float, *, bold: bool = False, code: bool = False) -> QFont:
        fixed = QFontDatabase.SystemFont.FixedFont
        font = QFontDatabase.systemFont(fixed) if code else QFont(QGuiApplication.font())
        font.setPointSizeF(points)
        font.setBold(bold)
        for kind in ("liga", "clig"):  # a search for "first" must find it
            font.setFeature(QFont.Tag(kind), 0)
        return QFont(font, self._writer)

    def _words(
        self, text: str, width: float, points: float, *, bold: bool = False, code: bool = False,
        right: bool = False,
    ) -> _Words:  # fmt: skip
        layout = QTextLayout(text.replace("\n", "\u2028"), self._font(points, bold=bold, code=code))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        layout.setTextOption(option)
        layout.beginLayout()
        y, bottoms = 0.0, []
        while (line := layout.createLine()).isValid():
            line.setLineWidth(width * self._dots)
            spare = width * self._dots - line.naturalTextWidth() if right else 0.0
            line.setPosition(QPointF(max(spare, 0.0), y))
            y += line.height() * 1.08
            bottoms.append(y / self._dots)
        layout.endLayout()
        return _Words(layout, tuple(bottoms))

    def _draw(
        self, words: _Words, x: float, y: float, *, ink: str = INK, first: int = 0,
        last: int | None = None,
    ) -> None:  # fmt: skip
        """Lines from `first` up to `last` of a text, the first of them at a height. [mm]"""
        above = words.bottoms[first - 1] if first else 0.0
        at = QPointF(x * self._dots, (y - above) * self._dots)
        self._painter.setPen(QColor(ink))
        for i in range(first, len(words.bottoms) if last is None else last):
            words.layout.lineAt(i).draw(self._painter, at)

    def _paragraph(self, text: str, points: float, *, bold: bool = False, ink: str = INK) -> None:
        if not text:
            return
        words = self._words(text, self._body, points, bold=bold)
        self._lines([(words, SIDE, ink)])
        self._y += 1.2

    def _lines(self, columns: Sequence[tuple[_Words, float, str]]) -> None:
        """Texts side by side, over as many pages as the longest needs."""
        done = [0] * len(columns)
        while True:
            deepest = 0.0
            for i, (words, x, ink) in enumerate(columns):
                above = words.bottoms[done[i] - 1] if done[i] else 0.0
                fits = [n for n, b in enumerate(words.bottoms, 1) if b - above <= self._room]
                last = max(fits[-1] if fits else 0, done[i])
                self._draw(words, x, self._y, ink=ink, first=done[i], last=last)
                if last > done[i]:
                    deepest = max(deepest, words.bottoms[last - 1] - above)
                done[i] = last
            self._y += deepest
            if all(n == len(words.bottoms) for n, (words, _, _) in zip(done, columns, strict=True)):
                return
            self._turn()

    # --- pages ---

    @property
    def _room(self) -> float:
        """Height that is left on the page. [mm]"""
        return self._high - BOTTOM - self._y

    @property
    def _room_of_page(self) -> float:
        """Height of the body of a page. [mm]"""
        return self._high - TOP - BOTTOM

    def _keep(self, height: float) -> bool:
        """Begin a new page where a height no longer fits; returns whether one was begun."""
        if height > self._room and self._y > TOP:
            self._turn()
            return True
        return False

    def _turn(self) -> None:
        self._writer.newPage()
        self._page += 1
        self._y = TOP
        self._frame()

    def _frame(self) -> None:
        """Head and foot of a page."""
        tag = self._render(say("Scenario {hash}", hash=self._sheet.short_hash))
        beside = self._words(tag, 60.0, _SMALL, right=True)
        room = self._body - 62.0
        font = self._font(_SMALL)
        title = QFontMetricsF(font, self._writer).elidedText(
            self._sheet.title, Qt.TextElideMode.ElideRight, room * self._dots
        )
        self._draw(self._words(title, room + 1.0, _SMALL), SIDE, 12.0, ink=SOFT)
        self._draw(beside, self._wide - SIDE - 60.0, 12.0, ink=SOFT)
        self._rule(17.5, SOFT, 0.25)
        below = self._high - 13.0
        place = say("Page {n} of {pages}", n=self._page, pages=self._pages or 1)
        self._draw(self._words("Gloaming", 60.0, _SMALL), SIDE, below, ink=SOFT)
        self._draw(
            self._words(self._render(place), 60.0, _SMALL, right=True),
            self._wide - SIDE - 60.0, below, ink=SOFT,
        )  # fmt: skip

    def _rule(self, y: float, ink: str, width: float) -> None:
        self._painter.setPen(QPen(QColor(ink), width * self._dots))
        at = y * self._dots
        self._painter.drawLine(
            QPointF(SIDE * self._dots, at), QPointF((self._wide - SIDE) * self._dots, at)
        )

    def _svg(self, text: str, x: float, y: float, width: float, height: float) -> None:
        picture = QSvgRenderer(QByteArray(text.encode("utf-8")))
        dots = self._dots
        picture.render(self._painter, QRectF(x * dots, y * dots, width * dots, height * dots))

    # --- blocks ---

    def _heading(self, block: Heading, following: Sequence[Block]) -> None:
        text = self._render(block.text)
        words = self._words(text, self._body, _HEAD, bold=True)
        led = isinstance(following[0], Paragraph) if following else False
        kept = following[: 2 if led else 1]
        if block.whole:
            kept = tuple(takewhile(lambda other: not isinstance(other, Heading), following))
        after = sum(self._least(other, whole=block.whole) for other in kept)
        self._y += 5.0 if self._y > TOP else 0.0
        self._keep(min(words.height + 3.5 + after, self._room_of_page))
        self.headings.append(Mark(text, self._page, self._high - self._y))
        self._rule(self._y, INK, 0.4)
        self._y += 1.5
        self._draw(words, SIDE, self._y)
        self._y += words.height + 1.5

    def _least(self, block: Block, *, whole: bool = False) -> float:
        """Height that must stay with what stands above a block, or all of its height. [mm]"""
        if isinstance(block, Figure):
            return self._body * HEIGHT / WIDTH + 10.0
        if isinstance(block, Table):
            block = self._fitted(block)
            short = whole or len(block.rows) <= SHORT_TABLE
            rows = block.rows if short else block.rows[:_FIRST_ROWS]
            above = self._head_height(block) + 1.0 + sum(w.height for w in self._names(block))
            for row in rows:
                height = self._row_height(row, block.columns)
                if height > _FLOWS and not whole:
                    return above + _TEXT_LEAST
                above += height
            return above + (_AFTER_TABLE if whole else 0.0)
        if isinstance(block, Paragraph):
            return self._words(self._render(block.text), self._body, _TEXT).height + 1.2
        return 20.0

    def _banner(self, block: Banner) -> None:
        inside = self._body - 26.0
        word = self._words(self._render(block.word), inside, _WORD, bold=True)
        reason = self._words(self._render(block.reason), inside, _TEXT + 1)
        number = self._words(self._render(block.number), inside, _TEXT)
        height = word.height + reason.height + number.height + 9.0
        self._y += 2.0
        self._keep(height)
        self._box(self._y, height, 0.55)
        self._svg(shape_svg(block.state, 24), SIDE + 5.0, self._y + 5.0, 12.0, 12.0)
        y = self._y + 3.5
        for words, ink in ((word, INK), (reason, INK), (number, SOFT)):
            self._draw(words, SIDE + 22.0, y, ink=ink)
            y += words.height + 1.0
        self._y += height + 3.0

    def _note(self, block: Note) -> None:
        lead = 6.0 if block.hazard else 0.0
        title = self._words(
            self._render(block.title), self._body - 8.0 - lead, _SMALL + 0.5, bold=True
        )
        text = self._words(self._render(block.text), self._body - 8.0, _SMALL + 0.5)
        under = max(title.height, lead)
        height = under + text.height + 4.0
        self._keep(height)
        self._box(self._y, height, 0.55 if block.hazard else 0.2)
        dots = self._dots
        bar = QRectF(SIDE * dots, self._y * dots, 1.0 * dots, height * dots)
        self._painter.fillRect(bar, QColor(INK))
        if block.hazard:
            self._svg(hazard_svg(24), SIDE + 4.0, self._y + 1.6, 4.4, 4.4)
        self._draw(title, SIDE + 4.0 + lead, self._y + 2.0)
        self._draw(text, SIDE + 4.0, self._y + 2.0 + under)
        self._y += height + 2.5

    def _box(self, y: float, height: float, width: float) -> None:
        dots = self._dots
        self._painter.setPen(QPen(QColor(INK), width * dots))
        self._painter.drawRect(QRectF(SIDE * dots, y * dots, self._body * dots, height * dots))

    def _figure(self, block: Figure) -> None:
        caption = self._words(self._render(block.caption), self._body, _SMALL)
        height = self._body * HEIGHT / WIDTH
        self._keep(height + caption.height + 4.0)
        picture = chart_svg(block.chart, block.spoken, self._render)
        self._svg(picture, SIDE, self._y, self._body, height)
        self._y += height + 1.0
        self._draw(caption, SIDE, self._y, ink=SOFT)
        self._y += caption.height + 3.0

    # --- tables ---

    def _table(self, table: Table) -> None:
        table = self._fitted(table)
        self._keep(min(self._least(table), self._room_of_page))
        for words, ink in zip(self._names(table), (INK, SOFT), strict=True):
            self._draw(words, SIDE, self._y, ink=ink)
            self._y += words.height
        self._y += 1.0
        self._head(table)
        for i, row in enumerate(table.rows):
            needed = self._row_height(row, table.columns)
            if i + 1 < len(table.rows) and (row.group or i + 2 == len(table.rows)):
                needed += self._row_height(table.rows[i + 1], table.columns)  # never alone
            if self._keep(needed if needed < _FLOWS else _TEXT_LEAST):
                self._head(table)
            self._row(row, table.columns)
        self._y += _AFTER_TABLE

    def _fitted(self, table: Table) -> Table:
        """The table with columns as wide as the longest word above them."""
        metrics = QFontMetricsF(self._font(_SMALL, bold=True), self._writer)
        words = (self._render(c.title).split(" ") for c in table.columns)
        widths = (max(metrics.horizontalAdvance(w) for w in own) / self._dots for own in words)
        return widened(table, [(w + _CELL_GAP + _ROUNDING) / self._body for w in widths])

    def _names(self, table: Table) -> tuple[_Words, _Words]:
        title, caption = self._render(table.title), self._render(table.caption)
        return (
            self._words(title, self._body, _TEXT + 0.5, bold=True) if title else _nothing(),
            self._words(caption, self._body, _SMALL),
        )

    def _head_height(self, table: Table) -> float:
        return self._row_height(*_titles(table))

    def _head(self, table: Table) -> None:
        self._row(*_titles(table))
        self._rule(self._y, INK, 0.3)

    def _row_height(self, row: Row, columns: Sequence[Column]) -> float:
        cells = self._cells(row, columns)
        least = _BLANK if not row.group and not any(row.cells[1:]) else 0.0
        above = 1.5 if row.group else 0.0
        return max(least, *(words.height for words, _, _ in cells)) + 2 * _PAD + above

    def _row(self, row: Row, columns: Sequence[Column]) -> None:
        self._y += _PAD + (1.5 if row.group else 0.0)
        begin, page = self._y, self._page
        if row.state is not None:
            x = SIDE + columns[0].share * self._body
            self._svg(shape_svg(row.state, 24), x, self._y + 0.1, 3.3, 3.3)
        self._lines(self._cells(row, columns))
        if page == self._page and not row.group and not any(row.cells[1:]):
            self._y = max(self._y, begin + _BLANK)
        self._y += _PAD
        self._rule(self._y, LINE, 0.15)

    def _cells(self, row: Row, columns: Sequence[Column]) -> list[tuple[_Words, float, str]]:
        if row.group:
            text = self._render(row.cells[0])
            return [(self._words(text, self._body, _SMALL, bold=True), SIDE, INK)]
        cells, x = [], SIDE
        for i, (cell, column) in enumerate(zip(row.cells, columns, strict=True)):
            width = column.share * self._body
            lead = 4.4 if row.state is not None and i == 1 else 0.0
            code = column.kind == "code"
            words = self._words(
                self._render(cell), width - _CELL_GAP - lead, _CODE if code else _SMALL,
                bold=row.strong and not code, code=code, right=column.kind == "number",
            )  # fmt: skip
            cells.append((words, x + lead, INK))
            x += width
        return cells


def _nothing() -> _Words:
    return _Words(QTextLayout(), ())


def _titles(table: Table) -> tuple[Row, tuple[Column, ...]]:
    """The titles of a table as a row, none of them in the letters of code."""
    columns = tuple(replace(c, kind="text") if c.kind == "code" else c for c in table.columns)
    return Row(cells=tuple(column.title for column in columns), strong=True), columns
