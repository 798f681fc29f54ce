"""A heading that opens and closes the details below it; they are built when first opened."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.slim_scroll import scroll_to
from explorer.widgets.tab_order import splice_tabs

_BEGINNING = 240
"""Height that comes into sight of what is opened. [px]"""


class Fold(QWidget):
    """Starts closed."""

    def __init__(
        self,
        title: str,
        build: Callable[[], QWidget],
        parent: QWidget | None = None,
        glance: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._build, self._glance = build, glance
        self.content: QWidget | None = None
        self.button = PillButton(outlined=False, fills=False)
        self.button.setText(title)
        self.button.setAccessibleName(title.replace("&", ""))
        self.button.setAccessibleDescription(
            tr("Opens the details of this part: every value that has no slider.")
        )
        self.button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.button.setCheckable(True)
        self.button.setIconSize(QSize(12, 12))
        self.button.setMinimumHeight(24)
        self.button.align_left()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        self._layout.addWidget(self.button)
        if glance is not None:
            self._layout.addWidget(glance)
            self._layout.setSpacing(0)
        self.button.toggled.connect(self.set_open)
        self.button.clicked.connect(self._on_clicked)
        self._draw_icon()

    def set_open(self, is_open: bool) -> None:
        """Open or close."""
        if is_open and self.content is None:
            self.content = self._build()
            self._layout.addWidget(self.content)
            splice_tabs(self.content)
        if self.content is not None:
            self.content.setVisible(is_open)
        if self._glance is not None:
            self._glance.setVisible(not is_open)
        self.button.setChecked(is_open)
        self._draw_icon()

    def refit(self) -> None:
        """What it tells while it is closed has another height."""
        self._layout.invalidate()
        self.updateGeometry()

    def _on_clicked(self, is_open: bool) -> None:
        """What somebody opens begins to show; its layout takes a turn of the loop."""
        if is_open:
            QTimer.singleShot(0, self, self._come_into_sight)

    def _come_into_sight(self) -> None:
        scroll_to(self, _BEGINNING)

    def _draw_icon(self) -> None:
        self.button.show_icon("fold" if self.button.isChecked() else "unfold")
