"""Keeps a study: asks where, writes it, and has its results worked out aside."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from explorer.files.disk import FileError
from explorer.files.study_place import NAME, study_folder
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.settings import SettingsStore
from explorer.text import say
from explorer.widgets import messages

JOB = "study results"


def listed_file(path: Path) -> Path:
    """How a scenario or a study stands in the list of recent files."""
    folder = study_folder(path)
    return path if folder is None else folder / NAME


class StudyKeeper(QObject):
    """Keeps the document of one window as a study.

    Parameters
    ----------
    window : QWidget
        Over which the question is asked.
    document, jobs, settings : Document, JobRunner and SettingsStore
        What is kept, what works aside, and where files were kept last.
    """

    said = Signal(object, bool)
    """A sentence, and whether it tells of a fault."""

    def __init__(
        self, window: QWidget, *, document: Document, jobs: JobRunner, settings: SettingsStore
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._jobs = window, document, jobs
        self._settings = settings
        self._tells = False
        jobs.arrived.connect(self._on_arrived)
        jobs.failed.connect(self._on_failed)

    def on_wanted(self) -> None:
        """Ask for the name of a folder and keep everything there."""
        start = Path(self._settings.settings.folder or Path.home())
        if self._document.folder is not None:
            start = self._document.folder.parent
        title = self._document.scenario.title.replace("/", "-") or "study"
        folder = messages.pick_study(self._window, str(start / title))
        if folder is not None:
            self.keep(folder)

    def keep(self, folder: Path) -> bool:
        """Keep everything in a folder; say why where that fails."""
        try:
            self._document.keep(folder)
        except FileError as error:
            messages.tell(self._window, say("The study was not kept"), str(error))
            return False
        self._settings.remember_file(folder / NAME)
        self.said.emit(
            say(
                "Kept in {folder}: the design, its logged runs, the designs beside it. The results "
                "follow; Save keeps what changes.",
                folder=folder,
            ),
            False,
        )
        self.renew()
        self._tells = True
        return True

    def renew(self) -> None:
        """Work out the results of a study that was just written; said only of a new one."""
        self._tells = False
        if self._document.folder is not None:
            from explorer.files.study_results import results_steps

            self._jobs.ask(JOB, partial(results_steps, self._document.folder.absolute()))

    def _on_arrived(self, key: str, name: object) -> None:
        if key == JOB and self._tells:
            self.said.emit(say("The results of {study} are written.", study=name), False)

    def _on_failed(self, key: str, reason: object) -> None:
        if key == JOB:
            self.said.emit(say("The results were not written: {reason}", reason=reason), True)
