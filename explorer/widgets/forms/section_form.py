"""A form for any section of the scenario, generated from the model."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, QSize, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from explorer.scenario.daylight import SkyMonth
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.fields import Section, describe
from explorer.scenario.idle import idle_keys
from explorer.scenario.supply import EfficiencyPoint, SheetPoint
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.knobs import PATTERN_PATH, pattern_values
from explorer.state.language import tr
from explorer.state.shape import (
    Shape,
    default_item,
    is_written_by_hand,
    kind_of,
    shape_of,
)
from explorer.text import texts
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.forms.efficiency_row import EfficiencyRow
from explorer.widgets.forms.file_row import FileRow
from explorer.widgets.forms.months_row import MonthsRow
from explorer.widgets.forms.rows import (
    AMOUNT_KEYS,
    AmountRow,
    NumberRow,
    OptionRow,
    TextRow,
    WeekdaysRow,
)
from explorer.widgets.forms.sheet_row import SheetRow
from explorer.widgets.tab_order import splice_tabs, tab_stops
from explorer.words.options import option


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
        self._rows: dict[tuple[type[Section], str], QWidget] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self._kind_box: CalmComboBox | None = None
        if kinds:
            self._add_kind_box()
        self._above = self._layout.count()
        self.refresh()

    def connect_to_document(self) -> SectionForm:
        """Follow the document; only the outermost form does, the inner ones are told."""
        self._document.changed.connect(self._on_changed)
        return self

    def refresh(self) -> None:
        """Show what the document holds.

        A row that still has its field stays as it is, with its focus and what is typed there.
        """
        wanted = self._wanted()
        if tuple(self._rows) != wanted:
            self._arrange(wanted)
        self._show_kind()
        for row in self._rows.values():
            row.refresh()  # type: ignore[attr-defined]

    def _on_changed(self, _: object) -> None:
        self.refresh()

    def _wanted(self) -> tuple[tuple[type[Section], str], ...]:
        """Owner and key of each row; a field without effect has none."""
        section = self._document.section(self._path)
        owner, idle = type(section), idle_keys(section)
        return tuple(
            (owner, "amount" if key in AMOUNT_KEYS and owner is Phase else key)
            for key in self._keys or tuple(owner.model_fields)
            if key not in self._hidden
            and key not in idle
            and is_written_by_hand(owner, key)
            and (owner is not Phase or key not in AMOUNT_KEYS or key == AMOUNT_KEYS[0])
        )

    def _arrange(self, wanted: tuple[tuple[type[Section], str], ...]) -> None:
        for name in tuple(self._rows):
            if name not in wanted:
                gone = self._rows.pop(name)
                self._layout.removeWidget(gone)
                gone.hide()
                gone.deleteLater()
        rows, fresh = {}, []
        for place, name in enumerate(wanted):
            row = self._rows.get(name)
            if row is None:
                row = self._row(*name)
                fresh.append(row)
                self._layout.insertWidget(self._above + place, row)
                row.show()
            rows[name] = row
        self._rows = rows
        for row in fresh:
            splice_tabs(row)

    def _add_kind_box(self) -> None:
        self._layout.addWidget(QLabel(self._title))
        self._kind_box = CalmComboBox()
        self._kind_box.setObjectName(f"{self._path}.kind")
        self._kind_box.setAccessibleName(tr("{title}, kind", title=self._title))
        for section in self._kinds:
            self._kind_box.addItem(tr(option(kind_of(section))), kind_of(section))
        self._kind_box.activated.connect(self._on_kind)
        self._layout.addWidget(self._kind_box)
        self._fault = FaultLine()
        self._layout.addWidget(self._fault)

    def _show_kind(self) -> None:
        if self._kind_box is not None:
            kind = kind_of(type(self._document.section(self._path)))
            self._fault.say("")
            with QSignalBlocker(self._kind_box):
                self._kind_box.setCurrentIndex(self._kind_box.findData(kind))

    def _on_kind(self, index: int) -> None:
        chosen = self._kinds[index]
        if not isinstance(self._document.section(self._path), chosen):
            self._document.begin_gesture()
            if self._path == PATTERN_PATH:
                values = pattern_values(self._document.case, chosen())
                if not self._document.edit_together(values, "change of light"):
                    self._show_kind()
            elif fault := self._document.attempt(self._path, chosen()):
                self._show_kind()
                self._fault.say(fault)

    def _row(self, owner: type[Section], key: str) -> QWidget:
        if key == "amount":
            return AmountRow(self._document, self._path)
        path = f"{self._path}.{key}" if self._path else key
        field = describe(owner, key)
        shape = shape_of(owner, key)
        match shape.kind:
            case "number" | "whole":
                return NumberRow(
                    self._document,
                    path,
                    field,
                    whole=shape.kind == "whole",
                    optional=shape.optional,
                )
            case "option":
                return OptionRow(self._document, path, field, shape.options)
            case "weekdays":
                return WeekdaysRow(self._document, path, field)
            case "section":
                return Headed(tr(field.label), SectionForm(self._document, path))
            case "union":
                return SectionForm(
                    self._document, path, kinds=shape.sections, title=tr(field.label)
                )
            case "list" if shape.sections == (SheetPoint,):
                return Headed(tr(field.label), SheetRow(self._document, path))
            case "list" if shape.sections == (EfficiencyPoint,):
                return Headed(tr(field.label), EfficiencyRow(self._document, path))
            case "list" if shape.sections == (SkyMonth,):
                return Headed(tr(field.label), MonthsRow(self._document, path))
            case "text" if key == "weather_file":
                return FileRow(self._document, path, field)
            case "list":
                return Headed(tr(field.label), ListForm(self._document, path, shape))
            case _:
                return TextRow(self._document, path, field)


class ListForm(QWidget):
    """The items of the list at one path; told by the form above when they change."""

    def __init__(
        self, document: Document, path: str, shape: Shape, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._path, self._item = document, path, shape.sections[0]
        self.items: list[_Item] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self._add = PillButton()
        self._add.setText(tr(_ITEM_WORDS[self._item.__name__]["add"]))
        self._add.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self._add.setIconSize(QSize(12, 12))
        self._add.setObjectName(f"{path}.add")
        self._add.setToolTip(tr("Adds one more below the last; undo takes it back"))
        self._add.show_icon("add")
        self._add.setMinimumHeight(26)
        self._add.clicked.connect(self._on_add)
        self._fault = FaultLine()
        buttons = QVBoxLayout()  # beside each other they would not fit in other languages
        buttons.setSpacing(6)
        buttons.addWidget(self._add, 0, Qt.AlignmentFlag.AlignLeft)
        if self._item is Operation:
            capture = pill(
                tr("From a capture…"), tr("Make an operation of a captured load current")
            )
            capture.setObjectName(f"{path}.capture")
            capture.setMinimumHeight(26)
            capture.clicked.connect(self._on_capture)
            buttons.addWidget(capture, 0, Qt.AlignmentFlag.AlignLeft)
        self._layout.addLayout(buttons)
        self._layout.addWidget(self._fault)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds; items that stay keep their forms."""
        count = len(self._document.get(self._path))
        self._fault.say("")
        while len(self.items) > count:
            gone = self.items.pop()
            self._layout.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        for item in self.items:
            item.form.refresh()
        while len(self.items) < count:
            item = _Item(self._document, self._path, len(self.items), self._item)
            item.remove.clicked.connect(self._on_remove)
            self._layout.insertWidget(len(self.items), item)
            self.items.append(item)
            item.show()
            splice_tabs(item)

    def _on_add(self) -> None:
        items = self._document.get(self._path)
        new = (*items, default_item(self._item, len(items)))
        if self._put(new) and (stops := tab_stops(self.items[-1].form)):
            stops[0].setFocus(Qt.FocusReason.TabFocusReason)
            _scroll_to(self.items[-1])

    def _on_capture(self) -> None:
        """The window's own command, as its menu has it."""
        command = self.window().findChild(QAction, "capture")
        if isinstance(command, QAction):
            command.trigger()

    def _on_remove(self) -> None:
        index = int(self.sender().objectName().split(".")[-2])
        items = self._document.get(self._path)
        if self._put((*items[:index], *items[index + 1 :])):
            after = self.items[index].remove if index < len(self.items) else self._add
            after.setFocus(Qt.FocusReason.OtherFocusReason)

    def _put(self, items: tuple[Section, ...]) -> bool:
        self._document.begin_gesture()
        fault = self._document.attempt(self._path, items)
        self._fault.say(fault)
        return not fault


class _Item(QWidget):
    """One item: its name with a button that removes it, and its form."""

    def __init__(
        self, document: Document, path: str, index: int, section: type[Section]
    ) -> None:
        super().__init__()
        words = _ITEM_WORDS[section.__name__]
        name = QLabel(tr(words["name"]).format(n=index + 1))
        name.setForegroundRole(name.palette().ColorRole.PlaceholderText)
        self.remove = PillButton(outlined=False)
        self.remove.setObjectName(f"{path}.{index}.remove")
        self.remove.show_icon("delete")
        self.remove.setMinimumSize(26, 26)
        removal = tr(words["remove"]).format(n=index + 1)
        self.remove.setAccessibleName(removal)
        self.remove.setToolTip(removal)
        self.form = SectionForm(document, f"{path}.{index}")
        head = QHBoxLayout()
        head.addWidget(name, 1)
        head.addWidget(self.remove)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addLayout(head)
        layout.addWidget(self.form)


def _scroll_to(part: QWidget) -> None:
    """Bring a part into sight where it stands in a column that scrolls."""
    node: QWidget | None = part
    while node is not None and not isinstance(node, QScrollArea):
        node = node.parentWidget()
    if node is not None:
        if (inner := node.widget()) is not None and (layout := inner.layout()) is not None:
            layout.activate()
        node.ensureWidgetVisible(part, 0, 16)


_ITEM_WORDS = texts({
    "LitBlock": {
        "name": "Lit period {n}", "add": "Add lit period", "remove": "Remove lit period {n}",
    },
    "LampHours": {"name": "Lamps {n}", "add": "Add lamps", "remove": "Remove lamps {n}"},
    "Holidays": {
        "name": "Holidays {n}", "add": "Add holidays", "remove": "Remove holidays {n}",
    },
    "Operation": {
        "name": "Operation {n}", "add": "Add operation", "remove": "Remove operation {n}",
    },
    "Elsewhere": {"name": "Place {n}", "add": "Add place", "remove": "Remove place {n}"},
    "Phase": {"name": "Phase {n}", "add": "Add phase", "remove": "Remove phase {n}"},
})  # fmt: skip
"""What is said about the items of a list, by the class of the item."""


class Headed(QWidget):
    """A form with a small heading above it."""

    def __init__(self, title: str, form: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._form = form
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(heading(title))
        layout.addWidget(form)

    def refresh(self) -> None:
        """Show what the document holds."""
        self._form.refresh()  # type: ignore[attr-defined]


def heading(text: str) -> QLabel:
    """A small heading inside a form."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setFont(theme.font("body", bold=True))
    label.setWordWrap(True)
    label.setContentsMargins(0, 8, 0, 0)
    return label
