"""Measures texts in a window: whether each has its room, and whether any two lie on each other."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QAbstractScrollArea, QLabel, QLineEdit, QWidget

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
