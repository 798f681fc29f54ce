"""The document of the stand: it changes like any other, but keeps no way back."""

from __future__ import annotations

from explorer.scenario.model import Scenario
from explorer.state.document import Document


class StandDocument(Document):
    """Visitors cannot undo, so nothing is pushed: every command ever pushed stays in memory.

    PySide's `QUndoStack` keeps a reference to each command, also to those that were merged,
    cleared or pushed out by its limit, and each holds two scenarios; a day has many moves.
    """

    def _push(self, new: Scenario, where: tuple[str, int], text: str) -> str:
        if new != self.scenario:
            self._show(new)
        return ""
