"""What every drawer has: its answer as a heading, a state of work, an export menu, a body."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from explorer.files.disk import FileError
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets import messages
from explorer.widgets.drawers import export
from explorer.widgets.drawers.export import ExportButton, Picture, widget_picture
from explorer.widgets.pending import PendingLabel, Veil
from explorer.widgets.slim_scroll import SlimBar
from explorer.words.drawers import Table
from explorer.words.readout import bind_units

_BETWEEN, _SLACK = 10, 2
"""Between the parts of the heading, and what a frame takes. [px]"""


def folder_of(document: Document) -> Path | None:
    """Where the open scenario lies, and parts beside it; None before it was saved."""
    return None if document.path is None else document.path.parent


class Drawer(QWidget):
    """Base of the drawers.

    Parameters
    ----------
    question : str
        What the drawer answers; in English it names exported files.
    document : Document
        What the question is about.
    feed : Feed
        Answers it; open exactly while the drawer is.
    tables : tuple of str
        Names of the tables that it can export.
    """

    wants_field = Signal(str)
    """Carries the path of a field that a person wants to change."""
    needs_changed = Signal()
    """What is on show needs another height."""
    reports = Signal(object, bool)
    """Carries a `Text` for the window to show, and whether it tells of a fault."""

    def __init__(
        self,
        question: str,
        document: Document,
        feed: Feed,
        tables: tuple[str, ...] = ("",),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.question, self.document, self.feed = question, document, feed
        feed.setParent(self)
        self.setAccessibleName(tr(question))
        self.answer = PendingLabel()
        self.answer.setFont(theme.font("body", bold=True))
        self.answer.setWordWrap(True)
        self.answer.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.status = QLabel()
        self.status.setFont(theme.font("small"))
        self.status.setForegroundRole(self.status.palette().ColorRole.PlaceholderText)
        self.export = ExportButton(tables)
        self.export.wanted.connect(self._on_export)
        head = QHBoxLayout()
        head.setSpacing(_BETWEEN)
        head.addWidget(self.answer, 1)
        head.addWidget(self.status)
        head.addWidget(self.export, 0, Qt.AlignmentFlag.AlignTop)
        self.nothing = QLabel()
        self.nothing.setWordWrap(True)
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.nothing.setForegroundRole(self.nothing.palette().ColorRole.PlaceholderText)
        self.body = QWidget()
        self._room = QScrollArea()
        self._room.setFrameShape(QFrame.Shape.NoFrame)
        self._room.setWidgetResizable(True)
        self._room.setHorizontalScrollBar(SlimBar(Qt.Orientation.Horizontal))
        self._room.setVerticalScrollBar(SlimBar())
        self._room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._room.setCornerWidget(QWidget())
        self._room.setMinimumSize(0, 0)
        self._room.setWidget(self.body)
        self._room.viewport().setAutoFillBackground(False)
        self.body.setAutoFillBackground(False)
        self.veil = Veil(self._room)
        self.body.installEventFilter(self)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.nothing)
        self.pages.addWidget(self._room)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 12, 10)
        layout.setSpacing(6)
        layout.addLayout(head)
        layout.addWidget(self.pages, 1)
        self.say_nothing(tr("Working it out…"))
        feed.outdated.connect(self._on_outdated)
        feed.arrived.connect(self._on_arrived)
        feed.finished.connect(self._on_finished)
        feed.failed.connect(self._on_failed)

    # --- for the drawers themselves ---

    def set_open(self, is_open: bool) -> None:
        """Begin to answer, or stop."""
        self.feed.set_open(is_open)

    def show_step(self, step: object) -> None:
        """Show one step of the answer."""
        raise NotImplementedError

    def show_done(self) -> None:
        """Called when the last step has arrived."""

    def show_outdated(self) -> None:
        """Called when what is on show belongs to an earlier design."""

    def table(self, name: str) -> Table:
        """The numbers for a file."""
        raise NotImplementedError

    def picture(self) -> Picture:
        """The picture for a file."""
        return widget_picture(tr(self.question), self.subtitle(), self.body)

    def subtitle(self) -> str:
        """Which scenario, and its answer."""
        title = self.document.scenario.title or tr("Untitled")
        return f"{title}: {self.answer.text()}" if self.answer.text() else title

    def focus_body(self) -> None:
        """Give the keyboard to what the drawer is about."""
        self.export.setFocus()

    def say_answer(self, text: str) -> None:
        """Show the answer in words."""
        text = tr(bind_units(text))
        other = text != self.answer.text()
        self.answer.show_text(text)
        if other:
            self.needs_changed.emit()
        self.answer.setAccessibleName(text)

    def say_nothing(self, why: str) -> None:
        """Show a sentence in the place of the body."""
        self.nothing.setText(why)
        self._show_page(self.nothing)
        self.export.setEnabled(False)

    def show_body(self) -> None:
        """Show the body."""
        self._show_page(self._room)
        self.export.setEnabled(True)

    def _show_page(self, page: QWidget) -> None:
        other = page is not self.pages.currentWidget()
        self.pages.setCurrentWidget(page)
        if other:
            self._keep_keys()
            self.needs_changed.emit()

    def _keep_keys(self) -> None:
        """A part that is no longer on show passes the keyboard on to what is."""
        focused = self.window().focusWidget()
        if focused is not None and self.isAncestorOf(focused) and not focused.isVisible():
            self.focus_body()

    @property
    def has_body(self) -> bool:
        """Whether the body is on show."""
        return self.pages.currentWidget() is self._room

    # --- room ---

    def least_height(self, width: int) -> int:
        """Height at which nothing in it has to scroll, in a drawer of this width. [px]"""
        layout = self.layout()
        assert layout is not None
        around = layout.contentsMargins()
        width -= around.left() + around.right()
        beside = self.export.sizeHint().width() + _BETWEEN
        if self.status.text():
            beside += self.status.sizeHint().width() + _BETWEEN
        head = max(self.answer.heightForWidth(width - beside), self.export.sizeHint().height())
        inner = self.body.layout()
        if not self.has_body:
            below = self.nothing.heightForWidth(width)
        elif inner is not None and inner.hasHeightForWidth():
            below = inner.minimumHeightForWidth(width)
        else:
            below = self.body.minimumSizeHint().height()
        return around.top() + head + layout.spacing() + below + around.bottom() + _SLACK

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Notice when the body needs other room."""
        if event.type() == QEvent.Type.LayoutRequest and watched is self.body:
            self.needs_changed.emit()
        return False

    # --- what the feed says ---

    def _on_outdated(self) -> None:
        self.status.setText(tr("working…") if self.has_body else "")
        self.veil.set_drawn(True)
        self.answer.set_pending()
        self.show_outdated()

    def _on_arrived(self, step: object) -> None:
        self.veil.set_drawn(False)
        self.show_step(step)

    def _on_finished(self) -> None:
        self.status.setText("")
        self.veil.set_drawn(False)
        self.show_done()
        if self.isVisible() and self.answer.text():
            QAccessible.updateAccessibility(
                QAccessibleAnnouncementEvent(self, self.answer.text())
            )

    def _on_failed(self, sentence: str) -> None:
        self.status.setText("")
        self.say_answer("")
        self.say_nothing(
            tr("{sentence}\nChange the design or open the drawer again.", sentence=sentence)
        )

    # --- export ---

    def _on_export(self, kind: str, name: str) -> None:
        stem = "-".join(self.question.lower().rstrip("?").split())
        if name:
            stem = f"{stem}-{'-'.join(name.split())}"
        path = export.pick_file(self, f"{stem}.{kind}", kind)
        if path is not None:
            self.save(kind, name, path)

    def save(self, kind: str, name: str, path: Path) -> bool:
        """Write picture or numbers, and tell where that fails."""
        try:
            if kind == "csv":
                export.save_csv(self.table(name), path)
            elif kind == "svg":
                export.save_svg(self.picture(), path)
            else:
                export.save_png(self.picture(), path)
        except FileError as error:
            messages.tell(self, say("Nothing was exported"), str(error))
            return False
        self.reports.emit(export.written(path), False)
        return True
