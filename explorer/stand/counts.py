"""How often visitors did what, by day and exhibit: numbers alone, nothing about persons."""

from __future__ import annotations

import csv
import io
import json
import logging
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import get_args

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.tables import inert
from explorer.state.stand_plan import BUNDLED, KnobKey
from explorer.text import say

LOG = logging.getLogger(__name__)
WHAT = ("visits", "designs", "challenges", "won", "taken_home", *get_args(KnobKey))
"""What is counted. The knobs count gestures: one drag, one tap of a button."""
LIMIT_BYTES = 5 * MEGABYTE
_FORMAT = "gloaming-counts"


class Counts:
    """Counts in one file, written when somebody asks, at resets and at the end.

    Parameters
    ----------
    path : pathlib.Path or None
        The file; None keeps nothing.
    today : callable
        Gives the day.
    """

    def __init__(self, path: Path | None, today: Callable[[], date] = date.today) -> None:
        self._path, self._today = path, today
        self._table: dict[str, dict[str, dict[str, int]]] = self._load()
        self._is_saved = True

    def add(self, exhibit: str, what: str) -> None:
        """One more, today."""
        name = exhibit.removeprefix(BUNDLED) if exhibit.startswith(BUNDLED) else Path(exhibit).stem
        day = self._table.setdefault(self._today().isoformat(), {})
        row = day.setdefault(name, {})
        row[what] = row.get(what, 0) + 1
        self._is_saved = False

    def save(self) -> None:
        """Write what was counted since; a disk that refuses is logged and tried again."""
        if self._path is None or self._is_saved:
            return
        text = json.dumps({"format": _FORMAT, "version": 1, "days": self._table})
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            write_text(self._path, text + "\n")
            self._is_saved = True
        except (OSError, FileError) as error:
            LOG.warning("the counts could not be kept: %s", error)

    def csv(self) -> str:
        """All counts as CSV, a row for each day and exhibit."""
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(["day", "exhibit", *WHAT])
        for day, rows in sorted(self._table.items()):
            for exhibit, row in sorted(rows.items()):
                writer.writerow([day, inert(exhibit), *(row.get(what, 0) for what in WHAT)])
        return out.getvalue()

    @property
    def sentence(self) -> str:
        """What was counted so far, in one line for the operator."""
        total = dict.fromkeys(WHAT, 0)
        for day in self._table.values():
            for row in day.values():
                for what in WHAT:
                    total[what] += row.get(what, 0)
        return say(
            "visits: {visits}, designs: {designs}, challenges won: {won}, taken home: {home}",
            visits=total["visits"], designs=total["designs"], won=total["won"],
            home=total["taken_home"],
        )  # fmt: skip

    def _load(self) -> dict[str, dict[str, dict[str, int]]]:
        if self._path is None or not self._path.exists():
            return {}
        try:
            data = json.loads(read_text(self._path, limit_bytes=LIMIT_BYTES, what=say("counts")))
            if data["format"] != _FORMAT:
                raise ValueError("it is of another format")
            return {
                str(date.fromisoformat(day)): {
                    str(name): {k: int(n) for k, n in row.items() if k in WHAT}
                    for name, row in rows.items()
                }
                for day, rows in data["days"].items()
            }
        except (OSError, ValueError, KeyError, TypeError, AttributeError, FileError) as error:
            LOG.warning("the counts cannot be read, counting begins anew: %s", error)
            aside = self._path.with_suffix(".unreadable.json")
            with suppress(OSError):
                self._path.replace(aside)
            return {}
