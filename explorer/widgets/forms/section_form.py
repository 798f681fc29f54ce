"""A form for any section of the scenario, generated from the model."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.scenario.demand import Phase
from explorer.scenario.fields import Section, describe
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.shape import Shape, default_item, kind_of, shape_of, signature
from explorer.text import texts
from explorer.widgets.buttons import PillButton
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.forms.rows import (
    AMOUNT_KEYS,
    AmountRow,
    NumberRow,
    OptionRow,
    TextRow,
    WeekdaysRow,
)
from explorer.widgets.icons import icon
from explorer.words.options import option

_ALWAYS_HIDDEN = frozenset({"kind", "format", "version"})


class SectionForm(QWidget):
    """Rows for the fields of the section at one path; follows the document.

    Parameters
    ----------
    document : Document
        What is shown and edited.
    path : str
        Path of the section; empty for the scenario itself.
    hidden : frozenset of str
        Keys that are edited elsewhere.
    keys : tuple of str
        When given, only these keys, in this order.
    title : str
        Label of the choice of kind, where the section is one of several kinds.
    """

    def __init__(
        self,
        document: Document,
        path: str,
        *,
        hidden: frozenset[str] = frozenset(),
        keys: tuple[str, ...] = (),
        kinds: tuple[type[Section], ...] = (),
        title: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._path = document, path
        self._hidden, self._keys, self._kinds, self._title = hidden, keys, kinds, title
        self._rows: list[QWidget] = []
        self._body: QWidget | None = None
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._kind_box: CalmComboBox | None = None
        self._signature: object = None
        self._build()

    def connect_to_document(self) -> SectionForm:
        """Follow the document; only the outermost form does, the inner ones are told."""
        self._document.changed.connect(self._on_changed)
        return self

    def refresh(self) -> None:
        """Show what the document holds; rows are built anew only where its shape changed."""
        if signature(self._document.section(self._path)) != self._signature:
            self._build()
            return
        self._show_kind()
        for row in self._rows:
            row.refresh()  # type: ignore[attr-defined]

    def _on_changed(self, _: object) -> None:
        self.refresh()

    def _build(self) -> None:
        focused = self.focusWidget()
        focus_name = focused.objectName() if focused is not None and focused.hasFocus() else ""
        old = self._body
        section = self._document.section(self._path)
        self._signature = signature(section)
        self._body = QWidget()
        self._rows = []
        body = QVBoxLayout(self._body)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(6)
        if self._kinds:
            self._add_kind_box(body)
        for key in self._keys or tuple(type(section).model_fields):
            if key in _ALWAYS_HIDDEN or key in self._hidden:
                continue
            if isinstance(section, Phase) and key in AMOUNT_KEYS:
                if key == section.amount_key:
                    self._rows.append(AmountRow(self._document, self._path))
                    body.addWidget(self._rows[-1])
                continue
            self._add(body, type(section), key)
        self._layout.addWidget(self._body)
        self._body.show()
        if old is not None:
            self._layout.removeWidget(old)
            old.hide()
            old.deleteLater()
        if focus_name and (again := self._body.findChild(QWidget, focus_name)) is not None:
            again.setFocus()

    def _add_kind_box(self, body: QVBoxLayout) -> None:
        if self._title:
            body.addWidget(QLabel(self._title))
        self._kind_box = CalmComboBox()
        self._kind_box.setObjectName(f"{self._path}.kind")
        self._kind_box.setAccessibleName(tr("{title}, kind", title=self._title))
        for section in self._kinds:
            self._kind_box.addItem(tr(option(kind_of(section))), kind_of(section))
        self._kind_box.activated.connect(self._on_kind)
        body.addWidget(self._kind_box)
        self._show_kind()

    def _show_kind(self) -> None:
        if self._kind_box is not None:
            kind = kind_of(type(self._document.section(self._path)))
            with QSignalBlocker(self._kind_box):
                self._kind_box.setCurrentIndex(self._kind_box.findData(kind))

    def _on_kind(self, index: int) -> None:
        chosen = self._kinds[index]
        if not isinstance(self._document.section(self._path), chosen):
            self._document.begin_gesture()
            if not self._document.edit(self._path, chosen()):
                self._show_kind()

    def _add(self, body: QVBoxLayout, owner: type[Section], key: str) -> None:
        path = f"{self._path}.{key}" if self._path else key
        field = describe(owner, key)
        shape = shape_of(owner, key)
        row: QWidget
        match shape.kind:
            case "number" | "whole":
                row = NumberRow(
                    self._document,
                    path,
                    field,
                    whole=shape.kind == "whole",
                    optional=shape.optional,
                )
            case "option":
                row = OptionRow(self._document, path, field, shape.options)
            case "weekdays":
                row = WeekdaysRow(self._document, path, field)
            case "section":
                body.addWidget(heading(tr(field.label)))
                row = SectionForm(self._document, path)
            case "union":
                row = SectionForm(
                    self._document, path, kinds=shape.sections, title=tr(field.label)
                )
            case "list":
                body.addWidget(heading(tr(field.label)))
                row = ListForm(self._document, path, shape)
            case _:
                row = TextRow(self._document, path, field)
        self._rows.append(row)
        body.addWidget(row)


class ListForm(QWidget):
    """The items of a list, each with its own form, with Add and Remove."""

    def __init__(
        self, document: Document, path: str, shape: Shape, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._path, self._item = document, path, shape.sections[0]
        self._forms: list[SectionForm] = []
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        words = _ITEM_WORDS[self._item.__name__]
        for index in range(len(document.get(path))):
            head = QHBoxLayout()
            name = QLabel(tr(words["name"]).format(n=index + 1))
            name.setForegroundRole(name.palette().ColorRole.PlaceholderText)
            remove = PillButton(outlined=False)
            remove.setObjectName(f"{path}.{index}.remove")
            remove.setIcon(icon("delete", self.palette()))
            remove.setMinimumSize(26, 26)
            removal = tr(words["remove"]).format(n=index + 1)
            remove.setAccessibleName(removal)
            remove.setToolTip(removal)
            remove.clicked.connect(self._on_remove)
            head.addWidget(name, 1)
            head.addWidget(remove)
            layout.addLayout(head)
            form = SectionForm(document, f"{path}.{index}")
            self._forms.append(form)
            layout.addWidget(form)
        add = PillButton()
        add.setText(tr(words["add"]))
        add.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        add.setIconSize(QSize(12, 12))
        add.setObjectName(f"{path}.add")
        add.setIcon(icon("add", self.palette()))
        add.setMinimumHeight(26)
        add.clicked.connect(self._on_add)
        layout.addWidget(add, 0, Qt.AlignmentFlag.AlignLeft)

    def refresh(self) -> None:
        """Show what the document holds."""
        for form in self._forms:
            form.refresh()

    def _on_add(self) -> None:
        self._document.begin_gesture()
        items = self._document.get(self._path)
        self._document.edit(self._path, (*items, default_item(self._item, len(items))))

    def _on_remove(self) -> None:
        index = int(self.sender().objectName().split(".")[-2])
        items = self._document.get(self._path)
        self._document.begin_gesture()
        self._document.edit(self._path, (*items[:index], *items[index + 1 :]))


_ITEM_WORDS = texts({
    "LitBlock": {
        "name": "Lit block {n}", "add": "Add lit block", "remove": "Remove lit block {n}",
    },
    "Operation": {
        "name": "Operation {n}", "add": "Add operation", "remove": "Remove operation {n}",
    },
    "Phase": {"name": "Phase {n}", "add": "Add phase", "remove": "Remove phase {n}"},
    "SheetPoint": {
        "name": "Data-sheet line {n}",
        "add": "Add data-sheet line",
        "remove": "Remove data-sheet line {n}",
    },
})  # fmt: skip
"""What is said about the items of a list, by the class of the item."""


def heading(text: str) -> QLabel:
    """A small heading inside a form."""
    label = QLabel(text)
    label.setFont(theme.font("body", bold=True))
    label.setContentsMargins(0, 8, 0, 0)
    return label
