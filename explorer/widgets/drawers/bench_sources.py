"""Where a logged run comes from: a file, or what a person writes down."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QToolButton, QWidget

from explorer.state.language import tr
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.drawers.hand_dialog import HandDialog


def pick_log(parent: QWidget) -> Path | None:
    """Ask for a logged run."""
    filters = tr("Tables (*.csv *.tsv *.txt)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a logged run"), "", filters)
    return Path(name) if name else None


class BenchSources(QObject):
    """Opens what asks for a run, and says which run is to be compared.

    Parameters
    ----------
    runs : pathlib.Path
        Folder for what the program itself logs.
    parent : QWidget
        Over which dialogs stand.
    """

    chosen = Signal(object)
    """Carries the path of a run, again whenever it has grown."""

    def __init__(self, runs: Path, parent: QWidget) -> None:
        super().__init__(parent)
        self._runs, self._over = runs, parent
        self.hand: HandDialog | None = None

    def menu_button(self) -> PillButton:
        """A button that offers every source."""
        button = pill(tr("Another…"), tr("Another run: from a file or by hand"))
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(button)
        menu.addAction(tr("&Open log…")).triggered.connect(self.open_file)
        menu.addAction(tr("&Write down…")).triggered.connect(self.write_down)
        button.setMenu(menu)
        return button

    def open_file(self) -> None:
        """Ask for a file."""
        path = pick_log(self._over)
        if path is not None:
            self.chosen.emit(path)

    def write_down(self) -> None:
        """Show the table for readings by hand; it may stay open beside the drawer."""
        if self.hand is None:
            self.hand = HandDialog(self._runs, self._over)
            self.hand.kept.connect(self.chosen)
            self.hand.finished.connect(self._on_hand_closed)
        self.hand.show()
        self.hand.raise_()
        self.hand.activateWindow()

    def _on_hand_closed(self) -> None:
        """The next table is a new run."""
        if self.hand is not None:
            self.hand.deleteLater()
            self.hand = None
