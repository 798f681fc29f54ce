"""Every dialog of the program; nothing else in it waits for an answer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QObject, Slot
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from explorer.files.trust import TRUST, OutsideFile
from explorer.state.language import tr
from explorer.text import visible
from explorer.widgets.message_box import MessageBox

SaveAnswer = Literal["save", "discard", "cancel"]
RestoreAnswer = Literal["restore", "discard", "later"]
OverwriteAnswer = Literal["write", "reload", "save_as", "cancel"]
_MOST_LINES = 8


def tell(parent: QWidget | None, title: str, text: str) -> None:
    """Say something that needs no choice; title and text may be `Text`."""
    close = QMessageBox.StandardButton.Close
    box = MessageBox(QMessageBox.Icon.Warning, tr(title), tr(text), close, parent)
    box.exec()


def tell_fault(parent: QWidget | None, text: str, details: str, log_file: Path | None) -> None:
    """Say that something unforeseen happened; its details can be copied."""
    close = QMessageBox.StandardButton.Close
    box = MessageBox(
        QMessageBox.Icon.Warning, tr("Something went wrong"), text, close, parent
    )
    if log_file is not None:
        box.setInformativeText(tr("It is written down in {file}.", file=log_file))
    box.setDetailedText(visible(details))
    copy = box.addButton(tr("Copy details"), QMessageBox.ButtonRole.ActionRole)
    copy.clicked.disconnect()  # it would close the box
    copier = _Copier(box, details)
    copy.clicked.connect(copier.copy)
    box.setDefaultButton(close)
    box.exec()


class _Copier(QObject):
    """Puts a text on the clipboard."""

    def __init__(self, parent: QObject, text: str) -> None:
        super().__init__(parent)
        self._text = text

    @Slot()
    def copy(self) -> None:
        QGuiApplication.clipboard().setText(self._text)


def ask_save(parent: QWidget | None, name: str) -> SaveAnswer:
    """Ask what becomes of unsaved changes; Esc cancels."""
    buttons = QMessageBox.StandardButton
    box = MessageBox(
        QMessageBox.Icon.Question,
        tr("Unsaved changes"),
        tr("“{name}” has changes that are not saved.", name=name),
        buttons.Save | buttons.Discard | buttons.Cancel,
        parent,
    )
    box.setInformativeText(tr("Without saving, the changes are lost."))
    box.setDefaultButton(buttons.Save)
    box.setEscapeButton(buttons.Cancel)
    answer = box.exec()
    if answer == buttons.Save:
        return "save"
    return "discard" if answer == buttons.Discard else "cancel"


def ask_restore(parent: QWidget | None, lines: Sequence[str]) -> RestoreAnswer:
    """Ask what becomes of work that was not saved before a crash; Esc leaves it for later."""
    box = MessageBox(
        QMessageBox.Icon.Question,
        tr("Unsaved work found"),
        tr("The program ended before this was saved:"),
        QMessageBox.StandardButton.NoButton,
        parent,
    )
    more = len(lines) - _MOST_LINES
    shown = [*lines[:_MOST_LINES], *([tr("and {n} more", n=more)] if more > 0 else [])]
    box.setInformativeText("\n".join(shown))
    restore = box.addButton(tr("Restore"), QMessageBox.ButtonRole.AcceptRole)
    discard = box.addButton(tr("Discard"), QMessageBox.ButtonRole.DestructiveRole)
    later = box.addButton(tr("Later"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(restore)
    box.setEscapeButton(later)
    box.exec()
    if box.clickedButton() is restore:
        return "restore"
    return "discard" if box.clickedButton() is discard else "later"


def ask_replace_older(parent: QWidget | None, path: Path, version: int) -> bool:
    """Ask whether a file of an older version may be overwritten."""
    box = MessageBox(
        QMessageBox.Icon.Question,
        tr("Older scenario file"),
        tr(
            "{file} was written by an older version (format {version}).",
            file=path.name,
            version=version,
        ),
        QMessageBox.StandardButton.Cancel,
        parent,
    )
    box.setInformativeText(
        tr("Saving it brings it to the present format; older programs then fail.")
    )
    replace = box.addButton(tr("Replace it"), QMessageBox.ButtonRole.AcceptRole)
    box.exec()
    return box.clickedButton() is replace


def allows_file(parent: QWidget | None, scenario: str, outside: OutsideFile) -> bool:
    """Ask whether a scenario may read a file from outside its own folder; Esc refuses."""
    cancel = QMessageBox.StandardButton.Cancel
    box = MessageBox(
        QMessageBox.Icon.Question,
        tr("A file from elsewhere"),
        tr(
            "{scenario} wants to read {file}, which lies outside its own folder.",
            scenario=scenario,
            file=outside.path,
        ),
        cancel,
        parent,
    )
    box.setInformativeText(tr("Agree only if you know where the scenario comes from."))
    read = box.addButton(tr("Read it"), QMessageBox.ButtonRole.AcceptRole)
    box.setDefaultButton(cancel)
    box.setEscapeButton(cancel)
    box.exec()
    if box.clickedButton() is not read:
        return False
    TRUST.allow(outside.path)
    return True


def ask_overwrite(parent: QWidget | None, path: Path, *, gone: bool) -> OverwriteAnswer:
    """Ask what becomes of a file that is no longer what was opened; Esc cancels."""
    if gone:
        title = tr("The file is gone")
        text = tr("{file} was deleted, moved or renamed since it was opened.", file=path.name)
    else:
        title = tr("The file has changed")
        text = tr("{file} was changed elsewhere since it was opened here.", file=path.name)
    none = QMessageBox.StandardButton.NoButton
    box = MessageBox(QMessageBox.Icon.Question, title, text, none, parent)
    roles = QMessageBox.ButtonRole
    write = box.addButton(tr("Save anew") if gone else tr("Keep mine"), roles.AcceptRole)
    reload = None if gone else box.addButton(tr("Read it again"), roles.DestructiveRole)
    save_as = box.addButton(tr("Save as…"), roles.ActionRole)
    cancel = box.addButton(QMessageBox.StandardButton.Cancel)
    if not gone:
        box.setInformativeText(
            tr("Keeping yours writes over what is there; reading it again drops your changes.")
        )
    box.setDefaultButton(save_as)
    box.setEscapeButton(cancel)
    box.exec()
    answers: dict[object, OverwriteAnswer] = {write: "write", save_as: "save_as"}
    if reload is not None:
        answers[reload] = "reload"
    return answers.get(box.clickedButton(), "cancel")


def pick_open(parent: QWidget | None, folder: str) -> Path | None:
    """Ask for a scenario file to open."""
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a scenario"), folder, _filter())
    return Path(name) if name else None


def pick_save(parent: QWidget | None, suggestion: str) -> Path | None:
    """Ask for a file to save to; the ending is added where it is missing."""
    name, _ = QFileDialog.getSaveFileName(
        parent, tr("Save the scenario"), suggestion, _filter()
    )
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(".json")


def pick_study(parent: QWidget | None, suggestion: str) -> Path | None:
    """Ask for the name of a new folder."""
    name, _ = QFileDialog.getSaveFileName(
        parent, tr("Keep as a study: name of the folder"), suggestion
    )
    return Path(name) if name else None


def ask_delete(parent: QWidget | None, name: str) -> bool:
    """Ask whether a part may go for good; Esc keeps it."""
    box = MessageBox(
        QMessageBox.Icon.Question,
        tr("Delete a part"),
        tr("“{name}” will be deleted from the shelf.", name=name),
        QMessageBox.StandardButton.Cancel,
        parent,
    )
    box.setInformativeText(tr("Designs that took it keep their copy."))
    delete = box.addButton(tr("Delete"), QMessageBox.ButtonRole.DestructiveRole)
    box.exec()
    return box.clickedButton() is delete


def pick_part(parent: QWidget | None) -> Path | None:
    """Ask for a part file to import."""
    name, _ = QFileDialog.getOpenFileName(parent, tr("Import a part"), "", _part_filter())
    return Path(name) if name else None


def pick_part_target(parent: QWidget | None, suggestion: str) -> Path | None:
    """Ask where to write a copy of a part."""
    name, _ = QFileDialog.getSaveFileName(parent, tr("Export the part"), suggestion, _part_filter())
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(".json")


def _part_filter() -> str:
    return f"{tr('Parts')} (*.json);;{tr('All files')} (*)"


def _filter() -> str:
    """Kinds of files as Qt's file dialogs want them."""
    return f"{tr('Scenarios')} (*.json);;{tr('All files')} (*)"
