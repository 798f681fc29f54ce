"""Scenarios that visitors left behind: the last few are kept in one file for the operator."""

from __future__ import annotations

import json
import logging
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.scenario_json import ScenarioError, dump_scenario, parse_scenario
from explorer.scenario.model import Scenario
from explorer.text import altered, say

LOG = logging.getLogger(__name__)
MOST_KEPT = 20
LIMIT_BYTES = 5 * MEGABYTE
_FORMAT = "gloaming-parked"

Clock = Callable[[], datetime]


@dataclass(frozen=True, slots=True, kw_only=True)
class Parked:
    """One scenario that a visitor left."""

    saved_at: str
    """Local time with its offset, ISO 8601."""
    word: str
    """The verdict when it was left."""
    scenario: Scenario


def local_now() -> datetime:
    """The present moment with its offset from UTC."""
    return datetime.now().astimezone()


class ParkedScenarios:
    """The last `MOST_KEPT` scenarios of visitors, newest first, in one file.

    Parameters
    ----------
    path : pathlib.Path
        The file; its folder is made when first needed.
    now : callable
        Gives the time stamp.
    """

    def __init__(self, path: Path, now: Clock = local_now) -> None:
        self._path, self._now = path, now
        self.problems: list[str] = []
        """What could not be read or written, as sentences for the operator."""
        self.items: tuple[Parked, ...] = self._load()

    def park(self, scenario: Scenario, word: str) -> bool:
        """Keep a scenario, and say whether it is one that was not there yet.

        A disk that refuses is a message to the operator, no more.
        """
        if any(item.scenario == scenario for item in self.items):
            return False
        stamp = self._now().isoformat(timespec="seconds")
        new = Parked(saved_at=stamp, word=word, scenario=scenario)
        self.items = (new, *self.items)[:MOST_KEPT]
        self._save()
        return True

    def clear(self) -> None:
        """Forget all."""
        self.items = ()
        self._save()

    def _save(self) -> None:
        rows = [
            {
                "saved_at": item.saved_at,
                "word": item.word,
                "scenario": json.loads(dump_scenario(item.scenario)),
            }
            for item in self.items
        ]
        text = json.dumps({"format": _FORMAT, "version": 1, "parked": rows}, ensure_ascii=False)
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            write_text(self._path, text + "\n")
        except (OSError, FileError) as error:
            problem = say("Visitors' scenarios could not be kept: {error}", error=str(error))
            self._complain(problem)

    def _load(self) -> tuple[Parked, ...]:
        if not self._path.exists():
            return ()
        try:
            what = say("list of parked scenarios")
            text = read_text(self._path, limit_bytes=LIMIT_BYTES, what=what)
            data = json.loads(text)
            rows = data["parked"] if data["format"] == _FORMAT else None
        except (OSError, ValueError, KeyError, TypeError) as error:
            self._set_aside(str(error))
            return ()
        if not isinstance(rows, list):
            self._set_aside(say("it holds no list"))
            return ()
        found = []
        for place, row in enumerate(rows[:MOST_KEPT], start=1):
            try:
                name = say("Visitor scenario {place}", place=place)
                scenario = parse_scenario(json.dumps(row["scenario"]), name)
                found.append(
                    Parked(saved_at=str(row["saved_at"]), word=str(row["word"]), scenario=scenario)
                )
            except ScenarioError as error:
                self._complain(str(error))
            except (KeyError, TypeError):
                self._complain(
                    say("Visitor scenario {place} is not complete and was left out.", place=place)
                )
        return tuple(found)

    def _set_aside(self, reason: str) -> None:
        """Keep a file that cannot be read out of the way, so that the next save spares it."""
        aside = self._path.with_suffix(".unreadable.json")
        try:
            self._path.replace(aside)
            template = say("{name} cannot be read: {reason}. It was renamed to {aside}.")
        except OSError:
            template = say("{name} cannot be read: {reason}.")
        bare = altered(reason, lambda sentence: sentence.rstrip("."))
        self._complain(say(template, name=self._path.name, reason=bare, aside=aside.name))

    def _complain(self, sentence: str) -> None:
        LOG.warning("%s", sentence)
        if sentence not in self.problems:
            self.problems.append(sentence)
