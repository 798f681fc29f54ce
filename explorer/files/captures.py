"""Captures of a load current: CSV with a time and a current, from an analyser or a scope."""

from __future__ import annotations

from pathlib import Path

from explorer.advice.capture.record import Capture, captured
from explorer.files.progress import Progress, no_progress
from explorer.files.table_reader.layout import Wanted, layout_of
from explorer.files.table_reader.reader import LIMIT_BYTES, read_readings
from explorer.files.table_reader.told import LogError, Told, Undecided
from explorer.text import say

MOST_READINGS = 10_000_000
"""Longest capture that is taken; beyond it memory runs out on a small machine (own judgement)."""
MOST_A = 1000.0
"""Largest current taken, either way; a phase of a scenario takes no more. [A]"""
CURRENT = Wanted(quantity="current", lowest=-MOST_A, highest=MOST_A)


def is_capture(path: Path) -> bool:
    """Whether a file looks like a capture: a table with times and currents."""
    try:
        layout_of(path, (CURRENT,), Told(), timed=True, limit_bytes=LIMIT_BYTES, what="")
    except Undecided:
        return True
    except LogError:
        return False
    return True


def read_capture(
    path: Path | str, told: Told | None = None, progress: Progress = no_progress
) -> Capture:
    """A captured current.

    Parameters
    ----------
    path : path-like
        Table with a column of times and one of currents, in any units that their headings name.
    told : Told, optional
        What a person said about a file that leaves something open.
    progress : callable
        Is told the share of the file that was read; what it raises ends the reading.

    Raises
    ------
    Undecided
        The file can be read in two ways; its `question` says what to tell.
    LogError
        The file cannot be used; the sentence names line and column.
    """
    found = read_readings(
        Path(path), (CURRENT,), told, what=say("capture of a current"), progress=progress
    )
    readings = len(found.time_s)
    if readings < 2:
        raise LogError(
            say("{file} holds {n} readings; a capture has at least 2.", file=found.name, n=readings)
        )
    if readings > MOST_READINGS:
        raise LogError(
            say(
                "{file} holds {n} readings; at most {most} are taken. Cut one cycle out of it, or "
                "let the instrument average.",
                file=found.name, n=readings, most=MOST_READINGS,
            )
        )  # fmt: skip
    return captured(found.name, found.time_s, found.values["current"], found.notes)
