"""Measures texts in a window: whether each has its room, and whether any two lie on each other."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSizeF, Qt
from PySide6.QtGui import QPainter, QPicture, QPixmap, QRegion
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QGraphicsView,
    QLabel,
    QLineEdit,
    QTableView,
    QWidget,
)

from explorer.widgets.answer_card import AnswerRow
from explorer.widgets.buttons import PillButton
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.exact_field import ExactField

SLACK = 1
"""Pixels that fonts are rounded by."""


def texts(window: QWidget) -> Iterator[QWidget]:
    """Everything in sight that shows one text of its own."""
    for kind in (QLabel, PillButton, QLineEdit):
        for widget in window.findChildren(kind):
            if widget.isVisible() and widget.window() is window.window() and shown(widget):
                yield widget


def shown(widget: QWidget) -> str:
    """The text of a widget."""
    return widget._text() if isinstance(widget, PillButton) else widget.text()


def cut(widget: QWidget) -> str:
    """Why a text is not all to be read where it stands; empty where it is."""
    text, metrics = shown(widget), widget.fontMetrics()
    if isinstance(widget, ElidedLabel):
        holder = widget.parentWidget() if isinstance(widget.parentWidget(), AnswerRow) else widget
        whole = metrics.horizontalAdvance(text) <= widget.contentsRect().width() + SLACK
        return "" if whole or holder.toolTip() else "ends in an ellipsis without a tip"
    if isinstance(widget, QLabel):
        if widget.wordWrap():
            needed = widget.heightForWidth(widget.width())
            return "" if needed <= widget.height() + SLACK else "lines are cut off"
        return "" if widget.sizeHint().width() <= widget.width() + SLACK else "its end is cut off"
    if isinstance(widget, PillButton):
        return "" if widget.sizeHint().width() <= widget.width() + SLACK else "a button is cut"
    if isinstance(widget, ExactField):
        room = widget.width() - 2 * 4 - 2
        return "" if metrics.horizontalAdvance(text) <= room + SLACK else "a number is cut"
    return ""


def in_sight(widget: QWidget) -> QRect:
    """The part of a widget that no scrolling area hides, in the window's pixels."""
    top = widget.window()
    rect = QRect(widget.mapTo(top, QPoint(0, 0)), widget.size())
    above = widget.parentWidget()
    while above is not None and above is not top:
        rect = rect.intersected(QRect(above.mapTo(top, QPoint(0, 0)), above.size()))
        above = above.parentWidget()
    return rect.intersected(top.rect())


def outside(widget: QWidget) -> bool:
    """Whether a text leaves the box around it, where that does not scroll."""
    above = widget.parentWidget()
    if above is None or isinstance(above.parentWidget(), QAbstractScrollArea):
        return False
    box = above.rect().adjusted(-SLACK, -SLACK, SLACK, SLACK)
    return not box.contains(widget.geometry())


def overlaps(window: QWidget) -> Iterator[tuple[str, str]]:
    """Pairs of texts that lie on each other."""
    found = [(widget, in_sight(widget)) for widget in texts(window)]
    for i, (one, here) in enumerate(found):
        for other, there in found[i + 1 :]:
            both = here.intersected(there)
            if both.width() > SLACK and both.height() > SLACK and not (
                one.isAncestorOf(other) or other.isAncestorOf(one)
            ):
                yield shown(one), shown(other)


def faults(window: QWidget) -> list[tuple[str, ...]]:
    """All that is wrong, in words."""
    found: list[tuple[str, ...]] = [
        (shown(widget), why) for widget in texts(window) if (why := cut(widget))
    ]
    found += [(shown(widget), "leaves its box") for widget in texts(window) if outside(widget)]
    return found + [(*pair, "lie on each other") for pair in overlaps(window)]


def cut_cells(root: QWidget) -> list[tuple[str, ...]]:
    """Cells of tables in sight that end in an ellipsis and have no tip."""
    found: list[tuple[str, ...]] = []
    for view in root.findChildren(QTableView):
        model, metrics = view.model(), view.fontMetrics()
        if not view.isVisible() or model is None:
            continue
        room = view.viewport().rect()
        for row in range(model.rowCount()):
            for column in range(model.columnCount()):
                index = model.index(row, column)
                where = view.visualRect(index)
                text, tip = index.data(), index.data(Qt.ItemDataRole.ToolTipRole)
                if not where.isEmpty() and room.intersects(where) and text and not tip and (
                    metrics.horizontalAdvance(str(text)) > where.width()
                ):
                    found.append((str(text), "a cell is cut"))
    return found


def scrolled(area: QAbstractScrollArea, *, upwards: bool) -> list[tuple[str, ...]]:
    """Whether what lies in an area is larger than it."""
    found: list[tuple[str, ...]] = []
    if area.isVisible():
        if area.horizontalScrollBar().maximum() > 0:
            found.append((type(area).__name__, "scrolls sideways"))
        if upwards and area.verticalScrollBar().maximum() > 0:
            found.append((type(area).__name__, "scrolls inside"))
    return found


@contextmanager
def drawn_texts() -> Iterator[list[tuple[str, QRectF, QRectF | None]]]:
    """Every text that is painted meanwhile: where it lies on the device, and the box it was given.

    What plots of the library paint into pictures of their own is left out.
    """
    found: list[tuple[str, QRectF, QRectF | None]] = []
    paint = QPainter.drawText

    def note(painter: QPainter, *values: object) -> object:
        if not isinstance(painter.device(), QPicture):
            found.extend(_noted(painter, values))
        return paint(painter, *values)

    QPainter.drawText = note
    try:
        yield found
    finally:
        QPainter.drawText = paint


def _noted(painter: QPainter, values: tuple) -> Iterator[tuple[str, QRectF, QRectF | None]]:
    text = next(value for value in values if isinstance(value, str))
    if not text.strip():
        return
    way, first = painter.deviceTransform(), values[0]
    if isinstance(first, QRect | QRectF):
        box, flags = QRectF(first), values[1]
        flags = flags if isinstance(flags, int) else int(getattr(flags, "value", 0))
        where = painter.boundingRect(box, flags, text)
        yield text, way.mapRect(where), way.mapRect(box)
        return
    x, y = (first.x(), first.y()) if isinstance(first, QPoint | QPointF) else values[:2]
    metrics = painter.fontMetrics()
    size = QSizeF(metrics.horizontalAdvance(text), metrics.ascent() * 0.8)
    yield text, way.mapRect(QRectF(QPointF(x, y - size.height()), size)), None


def paints_itself(widget: QWidget) -> bool:
    """Whether a class of ours paints what a widget shows, or a plot what lies on it."""
    return isinstance(widget.parent(), QGraphicsView) or any(
        "paintEvent" in vars(kind) and kind.__module__.startswith("explorer.")
        for kind in type(widget).__mro__
    )


def painted_faults(root: QWidget) -> list[tuple[str, ...]]:
    """Painted texts that their box or their widget cuts, or that lie on each other."""
    found: list[tuple[str, ...]] = []
    for widget in (root, *root.findChildren(QWidget)):
        if not (widget.isVisible() and paints_itself(widget)) or isinstance(widget, QLabel):
            continue
        ground = QPixmap(widget.size())
        with drawn_texts() as drawn:
            widget.render(ground, QPoint(), QRegion(), QWidget.RenderFlag.DrawWindowBackground)
        room = QRectF(widget.rect()).adjusted(-SLACK - 1, -SLACK - 1, SLACK + 1, SLACK + 1)
        name = type(widget).__name__
        seen = {(text, where.toRect().getRect()): (text, where, box) for text, where, box in drawn}
        for text, where, box in seen.values():
            if box is not None and where.width() > box.width() + SLACK + 1:
                found.append((name, text, "is wider than its box"))
            if not room.contains(where):
                found.append((name, text, "leaves its widget"))
        found += _on_each_other(name, list(seen.values()))
    return found


def _on_each_other(
    name: str, drawn: list[tuple[str, QRectF, QRectF | None]]
) -> Iterator[tuple[str, ...]]:
    for i, (one, here, _) in enumerate(drawn):
        for other, there, _ in drawn[i + 1 :]:
            both = here.intersected(there)
            if one != other and both.width() > 2.0 and both.height() > 3.0:
                yield name, one, other, "lie on each other"
