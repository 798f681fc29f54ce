"""A language in which every translated letter is a Cyrillic one: what stays Latin was forgotten."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from PySide6.QtCore import QAbstractItemModel, QObject, Qt
from PySide6.QtGui import QAction, QPainter
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QComboBox,
    QGraphicsScene,
    QGraphicsView,
    QGroupBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QMenu,
    QTableView,
    QTabWidget,
    QTextBrowser,
    QWidget,
)

from explorer.state import language
from tests.make_translations import Message, gathered

_KEPT = re.compile(r"(<[^>]*>|\{[^}]*\}|&[a-z]+;)")
_WORD = re.compile(r"[A-Za-z]{3,}")
UNITS = frozenset({"lux", "mAh", "min", "kWh", "ppm", "mol", "week", "weeks"})
NAMES = frozenset({"Gloaming", "JSON", "CSV", "PNG", "SVG", "Ctrl", "Shift", "Alt", "Esc"})


@cache
def _known() -> frozenset[Message]:
    return frozenset(gathered())


def disguise(template: str, meaning: str) -> str:
    """The text in letters that nobody types here; values and tags keep theirs.

    A text that no translator gets to see keeps all of its letters.
    """
    if (template, meaning) not in _known():
        return template
    parts = _KEPT.split(re.sub(r"(?<=\d)\.(?=\d)", ",", template))
    return "".join(p if _KEPT.fullmatch(p) else re.sub("[A-Za-z]", "ж", p) for p in parts)


def use(monkeypatch) -> None:
    """Show everything in the disguise, with a decimal comma."""
    monkeypatch.setattr(language, "_translate", disguise)
    monkeypatch.setattr(language._Shown, "code", "de")


def painted(monkeypatch) -> list[str]:
    """A list that from now on takes every text that a widget of ours or a plot paints."""
    found: list[str] = []
    paint = QPainter.drawText

    def note(painter: QPainter, *values: object) -> object:
        found.extend(value for value in values if isinstance(value, str))
        return paint(painter, *values)

    monkeypatch.setattr(QPainter, "drawText", note)
    return found


def forgotten(root: QWidget, own: frozenset[str] = frozenset()) -> list[str]:
    """Texts below a widget that hold an English word or a decimal point.

    `own` are words that the user or the language's neutral names bring: titles, file names.
    """
    return [f"{where}: {text}" for where, text in _texts(root) if is_forgotten(text, own)]


def is_forgotten(text: str, own: frozenset[str] = frozenset()) -> bool:
    """Whether a text holds an English word or a decimal point."""
    allowed = UNITS | NAMES | own
    plain = re.sub(r"<[^>]*>|&[a-z]+;|https?://\S+", " ", text).replace("&", "")
    words = [word for word in _WORD.findall(plain) if word not in allowed]
    return bool(words) or re.search(r"\d\.\d", plain) is not None


def _texts(root: QWidget) -> Iterator[tuple[str, str]]:
    for part in (root, *root.findChildren(QObject)):
        if part.objectName().startswith("qt_") or _is_of_plot_library(part):
            continue
        where = f"{type(part).__name__}"
        for text in _own_texts(part):
            if text:
                yield where, text


def _is_of_plot_library(part: QObject) -> bool:
    """Whether a text lies in a menu that the plots are born with and that nothing opens."""
    inside: QObject | None = part
    while inside is not None:
        outside = inside.parent()
        if isinstance(outside, QGraphicsView) and isinstance(inside, (QGraphicsScene, QMenu)):
            return True
        inside = outside
    return False


def _own_texts(part: QObject) -> Iterator[str]:
    if isinstance(part, QAction):
        yield from (part.text(), part.toolTip(), part.statusTip(), part.whatsThis())
    if not isinstance(part, QWidget):
        return
    yield from (part.toolTip(), part.accessibleName(), part.accessibleDescription())
    yield part.windowTitle()
    if isinstance(part, (QLabel, QAbstractButton, QLineEdit)):
        yield part.text()
    if isinstance(part, QLineEdit):
        yield part.placeholderText()
    if isinstance(part, QAbstractSpinBox):
        yield part.text()
    if isinstance(part, (QGroupBox, QMenu)):
        yield part.title()
    if isinstance(part, QTextBrowser):
        yield part.toPlainText()
    if isinstance(part, (QComboBox, QTabWidget)):
        read = part.itemText if isinstance(part, QComboBox) else part.tabText
        yield from (read(index) for index in range(part.count()))
    if isinstance(part, QListWidget):
        yield from (part.item(row).text() for row in range(part.count()))
    if isinstance(part, QTableView) and part.model() is not None:
        yield from _table_texts(part.model())


def _table_texts(model: QAbstractItemModel) -> Iterator[str]:
    """What cells and headings show, explain and let speak."""
    roles = Qt.ItemDataRole
    for role in (roles.DisplayRole, roles.ToolTipRole, roles.AccessibleTextRole):
        for column in range(model.columnCount()):
            yield str(model.headerData(column, Qt.Orientation.Horizontal, role) or "")
            for row in range(model.rowCount()):
                yield str(model.index(row, column).data(role) or "")
