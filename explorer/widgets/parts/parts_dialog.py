"""The shelf of parts of one's own: take one, keep the present one, edit, share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from explorer.files.disk import FileError
from explorer.files.shelf import Kept, Shelf
from explorer.scenario.part import SECTION_OF, Part, PartKind, part_from, taken
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import joined, say
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.card import Card
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.outlined_list import OutlinedList
from explorer.widgets.parts.part_fields import PartFields
from explorer.words.part import KIND_NAMES, KIND_TITLES, part_summary
from explorer.words.price import price_text

_EMPTY = say(
    "Nothing of this kind is kept yet. “Keep the present one” makes a part of what the design has "
    "now; its values are edited there."
)


class PartsDialog(QDialog):
    """Shows the parts of one kind; every change goes to the disk at once."""

    def __init__(self, document: Document, shelf: Shelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self.shelf = document, shelf
        self.kind: PartKind = "panel"
        self.setWindowTitle(tr("Parts of your own – Gloaming"))
        self.setSizeGripEnabled(True)
        self.list = OutlinedList()
        self.list.setAccessibleName(tr("Parts on the shelf"))
        self.list.setAlternatingRowColors(False)
        self.list.setFrameShape(OutlinedList.Shape.NoFrame)
        self.list.setSpacing(2)
        self.empty = QLabel(tr(_EMPTY))
        self.empty.setWordWrap(True)
        self.empty.setForegroundRole(self.empty.palette().ColorRole.PlaceholderText)
        self.fields = PartFields()
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.fault = FaultLine()
        self.buttons: dict[str, PillButton] = {}
        self._build()
        self.list.currentRowChanged.connect(self._on_row)
        self.list.itemDoubleClicked.connect(self._on_double)
        self.fields.edited.connect(self._on_edited)

    def begin(self, kind: PartKind) -> None:
        """Show the parts of a kind."""
        self.kind = kind
        for button in self.kinds.buttons():
            button.setChecked(button.objectName() == kind)
        self.list.setAccessibleName(tr(KIND_TITLES[kind]))
        self.fault.say("")
        self._fill()
        self.show()
        self.raise_()
        self.activateWindow()
        (self.list if self.list.count() else self.buttons["keep"]).setFocus()

    def _build(self) -> None:
        self.kinds = QButtonGroup(self)
        head = QHBoxLayout()
        for kind, title in KIND_TITLES.items():
            button = PillButton(outlined=False)
            button.setText(tr(title))
            button.setCheckable(True)
            button.setObjectName(kind)
            self.kinds.addButton(button)
            head.addWidget(button)
        head.addStretch(1)
        self.kinds.buttonClicked.connect(self._on_kind)
        halves = QHBoxLayout()
        halves.setSpacing(12)
        halves.addWidget(self._shelf_half(), 1)
        halves.addWidget(self._part_half(), 1)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.fault, 100)
        foot.addStretch(1)
        foot.addWidget(self._button("close", say("Close"), say("Close the shelf"), self.reject))
        foot.addWidget(
            self._button(
                "take", say("Take this part"),
                say("Put a copy of it into the design (undo takes it back)"), self.on_take,
            )
        )  # fmt: skip
        self.buttons["take"].setCheckable(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(10)
        layout.addLayout(head)
        layout.addLayout(halves, 1)
        layout.addLayout(foot)
        self.setMinimumSize(760, 440)
        self.setMaximumSize(1180, 720)  # beyond it would be half empty
        fit_screen(self, QSize(900, 540))

    def _shelf_half(self) -> QWidget:
        card = Card()
        layout = QVBoxLayout(card)
        layout.setContentsMargins(10, 10, 10, 10)
        layout.addWidget(self.empty)
        layout.addWidget(self.list, 1)
        row = QHBoxLayout()
        row.addWidget(
            self._button(
                "keep", say("Keep the present one"),
                say("Make a part of what the design has now"), self.on_keep,
            )
        )  # fmt: skip
        row.addWidget(
            self._button("import", say("Import…"), say("Copy a part file to the shelf"),
                         self.on_import)
        )  # fmt: skip
        row.addStretch(1)
        layout.addLayout(row)
        return card

    def _part_half(self) -> QWidget:
        card = Card()
        layout = QVBoxLayout(card)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(10)
        self.said.setFont(theme.font("small"))
        layout.addWidget(self.fields)
        layout.addWidget(self.said)
        layout.addStretch(1)
        row = QHBoxLayout()
        for key, text, tip, handler in (
            ("update", say("Renew"), say("Put the design's present values into this part"),
             self.on_update),
            ("duplicate", say("Duplicate"), say("A second part like this one"),
             self.on_duplicate),
            ("export", say("Export…"), say("Write a copy of its file elsewhere"), self.on_export),
            ("delete", say("Delete…"), say("Take it off the shelf for good"), self.on_delete),
        ):  # fmt: skip
            row.addWidget(self._button(key, text, tip, handler))
        row.addStretch(1)
        layout.addLayout(row)
        return card

    def _button(self, key: str, text: str, tip: str, handler: Callable[[], None]) -> PillButton:
        button = pill(tr(text), tr(tip))
        button.setMinimumHeight(30)
        button.setObjectName(key)
        button.clicked.connect(handler)
        self.buttons[key] = button
        return button

    # --- what it shows ---

    def _fill(self, chosen: Path | None = None) -> None:
        """Read the shelf; choose one part, or the first."""
        self.list.clear()
        kept = [
            one for one in self.shelf.kept() if one.part is None or one.part.kind == self.kind
        ]
        kept.sort(key=_order)
        for one in kept:
            item = QListWidgetItem(_line(one))
            item.setData(Qt.ItemDataRole.UserRole, one)
            self.list.addItem(item)
        self.empty.setVisible(not kept)
        self.list.setVisible(bool(kept))
        rows = [row for row, one in enumerate(kept) if one.path == chosen]
        self.list.setCurrentRow(rows[0] if rows else 0 if kept else -1)
        self._show()

    def _show(self) -> None:
        one = self.chosen
        part = one.part if one is not None else None
        self.fields.set_part(part)
        if part is not None:
            self.said.setText(tr(part_summary(part)))
        else:
            self.said.setText(tr(one.fault) if one is not None else "")
        for key in ("take", "update", "duplicate", "export"):
            self.buttons[key].setEnabled(part is not None)
        self.buttons["take"].setChecked(part is not None)
        self.buttons["delete"].setEnabled(one is not None)

    @property
    def chosen(self) -> Kept | None:
        """What is chosen in the list."""
        item: QListWidgetItem | None = self.list.currentItem()
        if item is None:
            return None
        one = item.data(Qt.ItemDataRole.UserRole)
        assert isinstance(one, Kept)
        return one

    # --- what a person does ---

    def on_take(self) -> None:
        """Put a copy of the chosen part into the design."""
        one = self.chosen
        if one is None or one.part is None:
            return
        key = SECTION_OF[one.part.kind]
        section = taken(one.part, self._document.section(key))
        self._document.begin_gesture()
        fault = self._document.attempt(key, section)
        self.fault.say(fault)
        self.buttons["take"].setChecked(True)
        if not fault:
            self.accept()

    def on_keep(self) -> None:
        """Make a part of what the design has now."""
        section = self._document.section(SECTION_OF[self.kind])
        title = tr(KIND_NAMES[self.kind])
        name = joined(" ", (title, tr(say("of {design}", design=self._document.scenario.title))))
        part = part_from(self.kind, section, title=name)
        if self._try(self.shelf.add, part):
            title_field = self.fields.entries["title"]
            title_field.setFocus()
            title_field.selectAll()

    def on_update(self) -> None:
        """Put the design's present values into the chosen part."""
        one = self.chosen
        if one is None or one.part is None:
            return
        known = one.part.model_dump(
            exclude={"format", "version", "kind", "measured", SECTION_OF[one.part.kind]}
        )
        part = part_from(self.kind, self._document.section(SECTION_OF[self.kind]), **known)
        self._try(self.shelf.replace, one.path, part, chosen=one.path)

    def on_duplicate(self) -> None:
        """A second part like the chosen one."""
        if (one := self.chosen) is not None:
            self._try(self.shelf.duplicate, one.path)

    def on_delete(self) -> None:
        """Take the chosen part off the shelf, once somebody said so."""
        one = self.chosen
        if one is None:
            return
        name = one.part.title if one.part is not None else one.path.name
        if messages.ask_delete(self, name):
            self._try(self.shelf.delete, one.path)

    def on_import(self) -> None:
        """Copy a part file to the shelf."""
        if (path := messages.pick_part(self)) is not None:
            self.take_in(path)

    def take_in(self, path: Path) -> None:
        """Copy a part file to the shelf and show it."""
        try:
            new = self.shelf.take_in(path)
        except FileError as error:
            self.fault.say(str(error))
            return
        found = next(one for one in self.shelf.kept() if one.path == new)
        assert found.part is not None
        self.begin(found.part.kind)
        self._fill(new)

    def on_export(self) -> None:
        """Write a copy of the chosen part elsewhere."""
        one = self.chosen
        if one is None:
            return
        target = messages.pick_part_target(self, one.path.name)
        if target is not None:
            self._try(self.shelf.give_out, one.path, target, chosen=one.path)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes from the list, and takes over what is typed elsewhere."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self.focusWidget() is self.list:
                self.on_take()
        else:
            super().keyPressEvent(event)

    def _try(self, act: Callable[..., object], *given: object, chosen: Path | None = None) -> bool:
        """Do something to the shelf, and show it anew or say why it was not done."""
        try:
            done = act(*given)
        except FileError as error:
            self.fault.say(str(error))
            return False
        self.fault.say("")
        self._fill(done if isinstance(done, Path) else chosen)
        return True

    def _on_kind(self, button: QWidget) -> None:
        kind: PartKind = next(k for k in KIND_TITLES if k == button.objectName())
        self.begin(kind)

    def _on_row(self, _: int) -> None:
        self._show()

    def _on_double(self, _: QListWidgetItem) -> None:
        self.on_take()

    def _on_edited(self, part: Part) -> None:
        one = self.chosen
        assert one is not None
        try:
            self.shelf.replace(one.path, part)
        except FileError as error:
            self.fault.say(str(error))
            return
        item = self.list.currentItem()
        kept = Kept(path=one.path, part=part)
        item.setData(Qt.ItemDataRole.UserRole, kept)
        item.setText(_line(kept))
        self.said.setText(tr(part_summary(part)))


def _order(one: Kept) -> tuple[bool, str]:
    return one.part is None, one.part.title.casefold() if one.part is not None else one.path.name


def _line(one: Kept) -> str:
    """Title and values of one part, as the list shows it."""
    if one.part is None:
        return f"{one.path.name}\n{tr('This file is no part.')}"
    told = tr(part_summary(one.part))
    if one.part.price is not None:
        told += f", {tr(price_text(one.part.price, one.part.currency))}"
    return f"{one.part.title}\n{told}"
