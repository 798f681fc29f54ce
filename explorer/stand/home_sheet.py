"""A design on one page of paper, and on a stick: drawn once, for a printer and for a PDF."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QStorageInfo, Qt
from PySide6.QtGui import QPagedPaintDevice, QPageLayout, QPageSize, QPainter, QPdfWriter, QPixmap

from explorer.files.disk import FileError, write_bytes, write_text
from explorer.files.scenario_json import dump_scenario
from explorer.scenario.model import Scenario
from explorer.stand.fit_label import sized_font
from explorer.stand.home_veil import paint_code
from explorer.stand.take_home import Design, modules_of
from explorer.state.language import tr
from explorer.state.theme import LIGHT
from explorer.text import say

MARGIN_MM = 15.0
_MEDIA = ("/media/", "/run/media/", "/Volumes/")
"""Where sticks are mounted (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HomeSheet:
    """What stands on the page."""

    heading: str
    contact: str
    design: Design
    cautions: str
    content: str
    """Of the code."""
    trace: QPixmap
    """The picture of the course, in colours for paper."""


def paint_sheet(painter: QPainter, page: QRectF, sheet: HomeSheet) -> None:
    """The sheet on a page, in units of the painter.

    Parameters
    ----------
    painter : QPainter
        Where to.
    page : QRectF
        What may be painted on, upright.
    sheet : HomeSheet
        What to show.
    """
    ink, soft, px = LIGHT.color("ink"), LIGHT.color("soft"), page.width() / 42
    wraps = int((Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop).value)
    wraps |= int(Qt.TextFlag.TextWordWrap.value)
    y, design = page.top(), sheet.design

    def write(text: str, size: float, *, bold: bool = False, faint: bool = False) -> None:
        nonlocal y
        painter.setFont(sized_font(size, bold=bold))
        painter.setPen(soft if faint else ink)
        box = QRectF(page.left(), y, page.width(), page.bottom() - y)
        y = painter.boundingRect(box, wraps, text).bottom() + 0.45 * px
        painter.drawText(box, wraps, text)

    write(sheet.heading, px, faint=True)
    write(design.title, 2.0 * px, bold=True)
    if design.place:
        write(design.place, px, faint=True)
    y += 0.6 * px
    write(design.word, 2.8 * px, bold=True)
    write(design.reason, 1.15 * px)
    y += 0.6 * px
    if not sheet.trace.isNull():
        high = page.width() * sheet.trace.height() / sheet.trace.width()
        target = QRectF(page.left(), y, page.width(), high)
        painter.drawPixmap(target, sheet.trace, QRectF(sheet.trace.rect()))
        y += high + px
    top, side = y, 0.36 * page.width()
    for label, value in design.values:
        write(f"{label}: {value}", 1.25 * px)
    corner = QRectF(page.right() - side, top, side, side)
    paint_code(painter, corner, modules_of(sheet.content))
    y = max(y, corner.bottom()) + 0.6 * px
    if sheet.cautions:
        write(sheet.cautions, 0.95 * px)
    write(tr("An estimate for discussion, not a design approval."), 0.95 * px, faint=True)
    if sheet.contact:
        write(sheet.contact, 1.15 * px, bold=True)


def sheet_pdf(sheet: HomeSheet) -> bytes:
    """The sheet as a PDF of one page."""
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setTitle(sheet.design.title)
    _paint_on(writer, sheet)
    buffer.close()
    return bytes(data.data())


def print_sheet(sheet: HomeSheet) -> str:
    """Print without asking anything, on the printer of the system; what became of it.

    Returns
    -------
    str
        A sentence, as a `Text`.
    """
    try:
        from PySide6.QtPrintSupport import QPrinter, QPrinterInfo
    except ImportError:  # pragma: no cover
        return say("Printing is not available here.")
    if QPrinterInfo.defaultPrinter().isNull():
        return say("No printer is set up. Please ask.")
    printer = QPrinter(QPrinterInfo.defaultPrinter())
    printer.setDocName(sheet.design.title)
    if not _paint_on(printer, sheet):
        return say("The printer does not answer. Please ask.")
    return say("The sheet is on its way to the printer.")


def _paint_on(device: QPagedPaintDevice, sheet: HomeSheet) -> bool:
    device.setPageLayout(QPageLayout(
        QPageSize(QPageSize.PageSizeId.A4), QPageLayout.Orientation.Portrait,
        QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM),
        QPageLayout.Unit.Millimeter,
    ))  # fmt: skip
    painter = QPainter()
    if not painter.begin(device):
        return False
    paint_sheet(painter, QRectF(0, 0, device.width(), device.height()), sheet)
    return painter.end()


def sticks() -> list[Path]:
    """Folders of the sticks that are plugged in and can be written."""
    found = []
    for volume in QStorageInfo.mountedVolumes():
        root = volume.rootPath()
        away = root.startswith(_MEDIA) or (
            sys.platform == "win32" and not volume.isRoot() and root[:1].upper() not in "ABC"
        )
        if away and volume.isValid() and volume.isReady() and not volume.isReadOnly():
            found.append(Path(root))
    return found


def save_on_stick(folders: list[Path], scenario: Scenario, sheet: HomeSheet) -> str:
    """Write scenario and sheet to the first stick, under a name that is free.

    Returns
    -------
    str
        A sentence, as a `Text`.
    """
    if not folders:
        return say("Plug a USB stick in, and touch again.")
    stem = re.sub(r"[^\w-]+", "-", scenario.title.lower()).strip("-_")[:40] or "design"
    folder, name, number = folders[0], stem, 1
    while (folder / f"{name}.json").exists():
        number += 1
        name = f"{stem}-{number}"
    try:
        write_text(folder / f"{name}.json", dump_scenario(scenario))
        write_bytes(folder / f"{name}.pdf", sheet_pdf(sheet))
    except (FileError, OSError):
        return say("The stick cannot be written; is it full or locked?")
    return say("Saved as {name}. Wait a moment before you pull the stick out.", name=f"{name}.json")
