"""How a file of readings is understood, step by step, until nothing in it is left open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from explorer.files.disk import FileError
from explorer.files.look import Look
from explorer.files.table_reader.told import Question, Told, Undecided
from explorer.scenario.light import LogPattern, Pattern

Read = Callable[[Told], Look]
_CLOCKS = {"h:mm": "hours", "mm:ss": "minutes"}


class TableLook:
    """A file with what was told about it so far.

    Parameters
    ----------
    read : callable
        Gives the first rows as understood, or raises `Undecided` or another `FileError`.
    """

    def __init__(self, read: Read) -> None:
        self._read = read
        self.told = Told()
        self.asked: list[Question] = []
        """Questions that the file has raised; what was answered can be answered anew."""
        self.look: Look | None = None
        self.fault = ""
        """Why there is no look, as a sentence; empty where there is one."""
        self.refresh()

    def answer(self, question: Question, choice: str) -> None:
        """Take an answer and read again."""
        told: dict[str, Any] = {question.about: choice}
        self.told = replace(self.told, **told)
        self.refresh()

    def refresh(self) -> None:
        """Read the file under what was told."""
        self.look, self.fault = None, ""
        try:
            self.look = self._read(self.told)
        except Undecided as error:
            self.fault = str(error)
            self.asked.append(error.question)
        except FileError as error:
            self.fault = str(error)


def pattern_of(file: str, told: Told, before: Pattern) -> LogPattern:
    """The pattern of light that follows a log.

    Parameters
    ----------
    file : str
        As a scenario names it.
    told : Told
        What was said about the file.
    before : Pattern
        A log that was followed before keeps its rules for gaps.
    """
    kept = before if isinstance(before, LogPattern) else LogPattern()
    return kept.model_copy(
        update={
            "file": file,
            "offset_lx": 0.0,
            "dates": told.dates or "by_file",
            "decimal": told.decimal or "by_file",
            "clock": "by_file" if told.clock is None else _CLOCKS[told.clock],
            "column": told.column or "",
        }
    )


def log_name(path: Path, scenario_path: Path | None, shipped: Path) -> str:
    """How a scenario names a log: as short as leads to the same file.

    Parameters
    ----------
    path : pathlib.Path
        The log.
    scenario_path : pathlib.Path or None
        The scenario's file; None for one that was never saved.
    shipped : pathlib.Path
        Folder of the logs that come with the program.
    """
    path = path.resolve()
    if scenario_path is not None and path.is_relative_to(scenario_path.resolve().parent):
        return path.relative_to(scenario_path.resolve().parent).as_posix()
    if path.parent == shipped.resolve():
        return path.name
    return str(path)
