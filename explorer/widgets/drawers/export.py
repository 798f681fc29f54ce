"""What leaves a drawer: its picture as PNG or SVG and its numbers as CSV."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QBuffer, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QPainter, QPalette, QRegion
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import QFileDialog, QMenu, QToolButton, QWidget

from explorer.files.disk import FileError, write_text
from explorer.files.tables import write_table
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import LIGHT
from explorer.text import Text, say
from explorer.widgets.buttons import PillButton

WIDTH_PX = 2000
"""Width of an exported PNG; at least 1600 pixels print well."""
ENDINGS = {"png": (".png",), "svg": (".svg",), "csv": (".csv", ".txt")}
"""How names of files of each kind end, the usual ending first."""
_EDGE, _HEAD = 20, 54
Paint = Callable[[QPainter], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What is drawn into a file: a size in logical pixels and how to fill it."""

    title: str
    subtitle: str
    size: QSize
    paint: Paint


def widget_picture(title: str, subtitle: str, widget: QWidget) -> Picture:
    """A widget as it stands, on light ground whatever the theme."""
    return Picture(
        title=title, subtitle=subtitle, size=widget.size(), paint=WidgetPaint(widget)
    )


class WidgetPaint:
    """Paints a widget in the light theme: paper is white."""

    def __init__(self, widget: QWidget) -> None:
        self._widget = widget

    def __call__(self, painter: QPainter) -> None:
        """Paint it at the origin."""
        widget = self._widget
        before = QPalette(widget.palette())
        own = widget.testAttribute(Qt.WidgetAttribute.WA_SetPalette)
        widget.setPalette(theme.palette_of(LIGHT))
        try:
            flags = QWidget.RenderFlag.DrawChildren
            # A plot has another way to paint itself by this name, onto a place in a scene.
            QWidget.render(widget, painter, QPoint(), QRegion(), flags)
        finally:
            widget.setPalette(before if own else QPalette())


def total_size(picture: Picture) -> QSize:
    """Size with title and edges. [px]"""
    return QSize(
        picture.size.width() + 2 * _EDGE, picture.size.height() + _HEAD + 2 * _EDGE
    )


def paint_sheet(painter: QPainter, picture: Picture) -> None:
    """Paint ground, title and the picture itself."""
    total = total_size(picture)
    painter.fillRect(QRect(0, 0, total.width(), total.height()), LIGHT.color("card"))
    width, left = total.width() - 2 * _EDGE, Qt.AlignmentFlag.AlignLeft
    painter.setPen(LIGHT.color("ink"))
    painter.setFont(theme.font("heading", bold=True))
    painter.drawText(QRectF(_EDGE, _EDGE - 4, width, 26), left, picture.title)
    painter.setPen(LIGHT.color("soft"))
    painter.setFont(theme.font("body"))
    painter.drawText(QRectF(_EDGE, _EDGE + 24, width, 20), left, picture.subtitle)
    painter.translate(_EDGE, _EDGE + _HEAD)
    picture.paint(painter)


def _require_ending(path: Path, kind: str) -> None:
    """Refuse a name that says another kind of file, perhaps one of somebody's own."""
    if path.suffix.lower() not in ENDINGS[kind]:
        raise FileError(say(
            "The name of a {kind} file ends in {ending}; {name} does not.",
            kind=kind.upper(), ending=ENDINGS[kind][0], name=path.name,
        ))  # fmt: skip


def written(path: Path) -> Text:
    """That a file was written, and where."""
    return say("The file was written: {path}", path=path)


def save_png(picture: Picture, path: Path) -> None:
    """Write a picture of `WIDTH_PX` pixels across.

    Raises
    ------
    FileError
        The place cannot be written, or the name ends otherwise.
    """
    _require_ending(path, "png")
    total = total_size(picture)
    ratio = max(WIDTH_PX / total.width(), 1.0)
    image = QImage(
        round(total.width() * ratio), round(total.height() * ratio), QImage.Format.Format_RGB32
    )
    image.setDevicePixelRatio(ratio)
    painter = QPainter(image)
    try:
        paint_sheet(painter, picture)
    finally:
        painter.end()
    if not image.save(str(path)):
        raise FileError(say("{name} cannot be written there.", name=path.name))


def save_svg(picture: Picture, path: Path) -> None:
    """Write a picture with its lines and texts as such.

    Raises
    ------
    FileError
        As for `save_png`.
    """
    _require_ending(path, "svg")
    total = total_size(picture)
    drawn = QBuffer()
    svg = QSvgGenerator()
    svg.setOutputDevice(drawn)
    svg.setSize(total)
    svg.setViewBox(QRect(0, 0, total.width(), total.height()))
    svg.setTitle(picture.title)
    painter = QPainter(svg)
    try:
        paint_sheet(painter, picture)
    finally:
        painter.end()
    write_text(path, bytes(drawn.data().data()).decode("utf-8"))


def save_csv(table: Mapping[str, Sequence[float | str]], path: Path) -> None:
    """Write columns of numbers.

    Raises
    ------
    FileError
        As for `save_png`.
    """
    _require_ending(path, "csv")
    write_table(path, table)


def pick_file(parent: QWidget, suggestion: str, kind: str) -> Path | None:
    """Ask where to save; the ending is added where it is missing."""
    filters = {
        "png": tr("Pictures (*.png)"),
        "svg": tr("Drawings (*.svg)"),
        "csv": tr("Tables (*.csv)"),
    }
    name, _ = QFileDialog.getSaveFileName(parent, tr("Export"), suggestion, filters[kind])
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(f".{kind}")


class ExportButton(PillButton):
    """One small menu: picture or numbers."""

    wanted = Signal(str, str)
    """Carries ``png``, ``svg`` or ``csv``, and which table."""

    def __init__(self, tables: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent=parent)
        self.setText(tr("Export…"))
        self.setToolTip(tr("Save this picture or its numbers"))
        self.setAccessibleName(tr("Export picture or numbers"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(self)
        menu.addAction(tr("Picture, &PNG…")).setData(("png", ""))
        menu.addAction(tr("Picture, &SVG…")).setData(("svg", ""))
        for name in tables:
            one = len(tables) == 1
            text = tr("Numbers, &CSV…") if one else tr("Numbers: {name}, &CSV…", name=name)
            menu.addAction(text).setData(("csv", name))
        menu.triggered.connect(self._on_triggered)
        self.setMenu(menu)

    def _on_triggered(self, action: object) -> None:
        kind, table = action.data()  # type: ignore[attr-defined]
        self.wanted.emit(kind, table)
