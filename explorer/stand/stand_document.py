"""The document of the stand: it changes like any other, but keeps no way back."""

from __future__ import annotations

from pathlib import Path

from explorer.files.study import Study
from explorer.scenario.localised import in_language
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.language import language


class StandDocument(Document):
    """Visitors cannot undo, so nothing is pushed: every command ever pushed stays in memory.

    PySide's `QUndoStack` keeps a reference to each command, also to those that were merged,
    cleared or pushed out by its limit, and each holds two scenarios; a day has many moves.
    """

    def _take(
        self, scenario: Scenario, path: Path | None, migrated_from: int | None,
        folder: Path | None = None, study: Study | None = None,
    ) -> None:
        """Begin with a scenario under its names in the language on show."""
        super()._take(in_language(scenario, language()), path, migrated_from, folder, study)

    def _push(self, new: Scenario, where: tuple[str, int], text: str) -> str:
        if new != self.scenario:
            self._show(new)
        return ""
