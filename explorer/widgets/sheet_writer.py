"""Writes the sheet of the open scenario: asks where, works aside, and says what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from explorer.advice.case import Case
from explorer.files.disk import write_bytes, write_text
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.language import Code, language, tr
from explorer.state.settings import SettingsStore
from explorer.text import say

JOB = "sheet"
_ENDINGS = (".pdf", ".html", ".htm")


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetJob:
    """All that the work needs, taken when it was asked for."""

    case: Case
    file: Path | None
    target: Path
    program: str
    language: Code
    written: datetime

    def __call__(self) -> Path:
        """Write the sheet; runs off the interface thread.

        Raises
        ------
        FileError
            The place cannot be written, or the light log has gone.
        """
        from explorer.files.report import findings, sheet
        from explorer.files.report_html import sheet_html
        from explorer.files.report_limits import model_limits
        from explorer.files.report_source import source_of

        source = source_of(self.case.scenario, self.file, self.program, self.written)
        made = sheet(findings(self.case), source, model_limits(self.language, tr))
        if self.target.suffix.lower() == ".pdf":
            from explorer.state.paper import usual_paper
            from explorer.state.report_pdf import sheet_pdf

            write_bytes(self.target, sheet_pdf(made, tr, usual_paper()))
        else:
            write_text(self.target, sheet_html(made, self.language, tr))
        return self.target


class SheetWriter(QObject):
    """Writes the sheet of one window's document.

    Parameters
    ----------
    window : QWidget
        Over which the question is asked.
    document, jobs, settings : Document, JobRunner and SettingsStore
        What is written, what works aside, and where files were kept last.
    version : str
        Of the program, for the foot of the sheet.
    """

    said = Signal(object, bool)
    """A sentence, and whether it tells of a fault."""

    def __init__(
        self,
        window: QWidget,
        *,
        document: Document,
        jobs: JobRunner,
        settings: SettingsStore,
        version: str,
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._jobs = window, document, jobs
        self._settings, self._version = settings, version
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)

    def on_wanted(self) -> None:
        """Ask for a name and begin."""
        document = self._document
        folder = Path(self._settings.settings.folder or Path.home())
        start = folder / f"{document.scenario.title}.json"
        suggestion = (document.path or start).with_suffix(".pdf")
        target = pick_target(self._window, str(suggestion))
        if target is None:
            return
        job = SheetJob(
            case=document.case,
            file=document.path,
            target=target,
            program=self._version,
            language=language(),
            written=datetime.now().astimezone(),
        )
        self.said.emit(say("The report is being written."), False)
        self._jobs.submit(JOB, job, to_the_end=True)

    def _on_done(self, key: str, result: object) -> None:
        if key == JOB:
            self.said.emit(say("The report was written: {path}", path=result), False)

    def _on_failed(self, key: str, why: str) -> None:
        if key == JOB:
            self.said.emit(say("The report was not written. {why}", why=why), True)


def pick_target(parent: QWidget, suggestion: str) -> Path | None:
    """Ask where to write; the ending of the chosen kind is added where there is none."""
    pdf, page = tr("PDF (*.pdf)"), tr("Web page (*.html)")
    name, kind = QFileDialog.getSaveFileName(
        parent, tr("Write a report"), suggestion, f"{pdf};;{page}"
    )
    if not name:
        return None
    path = Path(name)
    if path.suffix.lower() in _ENDINGS:
        return path
    return path.with_name(path.name + (".html" if kind == page else ".pdf"))
