"""The first rows of a file as they were understood, with what must be told, before it is used."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from explorer.files.look import ROWS
from explorer.files.table_reader.told import Question
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.table_look import Read, TableLook
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.plain import plain_tip

_ROW_PX = 24


class TableDialog(QDialog):
    """Shows how a file is read and asks what it leaves open.

    Parameters
    ----------
    path : pathlib.Path
        The file.
    read : callable
        Gives its first rows under what was told.
    """

    taken = Signal(object, object)
    """Carries the path and what was told, once a person uses the file."""

    def __init__(self, path: Path, read: Read, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.path = path
        self.found = TableLook(read)
        self.setWindowTitle(tr("How {file} is read", file=path.name))
        self.said, self.columns, self.notes = QLabel(), QLabel(), QLabel()
        for label in (self.said, self.columns, self.notes):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.notes.setForegroundRole(self.notes.palette().ColorRole.PlaceholderText)
        for label in (self.columns, self.notes):
            label.setFont(theme.font("small"))
        self.choices: list[tuple[Question, str, PillButton]] = []
        self._answers = QVBoxLayout()
        self._answers.setSpacing(6)
        self.table = QTableWidget(0, 0)
        self.table.setAccessibleName(tr("First readings as understood"))
        self.table.verticalHeader().setVisible(False)
        self.table.verticalHeader().setDefaultSectionSize(_ROW_PX)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.table.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.table.setFixedHeight((ROWS + 1) * _ROW_PX + 12)
        header = self.table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setHighlightSections(False)
        self.use_button = pill(tr("Use it"), tr("Take the file as it is read here"))
        self.cancel_button = pill(tr("Cancel"), tr("Leave everything as it is"))
        self.use_button.clicked.connect(self._on_use)
        self.cancel_button.clicked.connect(self.reject)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.use_button)
        buttons.addWidget(self.cancel_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(8)
        layout.addWidget(self.said)
        layout.addLayout(self._answers)
        layout.addWidget(self.table)
        layout.addWidget(self.columns)
        layout.addWidget(self.notes)
        layout.addStretch(1)
        layout.addLayout(buttons)
        self._show()

    def sizeHint(self) -> QSize:
        """Room for the rows and some notes."""
        return QSize(560, 420)

    def _show(self) -> None:
        for question in self.found.asked:
            if not any(question is asked for asked, _, _ in self.choices):
                self._add_question(question)
        for question, choice, button in self.choices:
            button.setChecked(getattr(self.found.told, question.about) == choice)
        look = self.found.look
        self.use_button.setEnabled(look is not None)
        self.table.setVisible(look is not None)
        if look is None:
            self.said.setText(tr(self.found.fault))
            self.columns.setText("")
            self.notes.setText("")
            return
        self.said.setText(tr(look.sentence))
        self.columns.setText(" ".join(tr(text) for text in look.columns))
        self.notes.setText("\n".join(tr(text) for text in look.notes))
        self.table.setColumnCount(len(look.heads))
        self.table.setHorizontalHeaderLabels([tr(text) for text in look.heads])
        self.table.setRowCount(len(look.rows))
        for at, row in enumerate(look.rows):
            for column, text in enumerate(row):
                self.table.setItem(at, column, QTableWidgetItem(tr(text)))

    def _add_question(self, question: Question) -> None:
        row = QHBoxLayout()
        row.setSpacing(6)
        for choice, meaning in question.choices:
            named = tr("{choice}: {meaning}", choice=choice, meaning=tr(meaning))
            button = PillButton()
            button.setText(named if question.about == "column" else tr(meaning))
            button.setToolTip(plain_tip(named))
            button.setCheckable(True)
            button.clicked.connect(self._on_answer)
            row.addWidget(button)
            self.choices.append((question, choice, button))
        row.addStretch(1)
        self._answers.addLayout(row)

    def _on_answer(self) -> None:
        for question, choice, button in self.choices:
            if button is self.sender():
                self.found.answer(question, choice)
                break
        self._show()

    def _on_use(self) -> None:
        if self.found.look is not None:
            self.taken.emit(self.path, self.found.told)
            self.accept()
