"""Keeps a stand running: a crash starts it anew, its keeper ends it."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable, Sequence

BAD_INPUT = 3
PAUSE_S = 2.0
"""Between a crash and the next start. [s]"""
MOST_CRASHES = 5
WITHIN_S = 120.0
"""So many crashes within this time end it: something else is wrong. [s]"""


def keep(
    start: Callable[[], int],
    tell: Callable[[str], None],
    *,
    clock: Callable[[], float] = time.monotonic,
    wait: Callable[[float], None] = time.sleep,
) -> int:
    """Start again and again until a run ends as it should.

    Parameters
    ----------
    start : callable
        Runs the stand, and gives its exit status.
    tell : callable
        Takes a sentence for the log of the machine.
    clock, wait : callable
        Tell the time, and let it pass. [s]

    Returns
    -------
    int
        Exit status of the last run.
    """
    crashes: list[float] = []
    while True:
        status = start()
        if status in (0, BAD_INPUT):
            return status
        now = clock()
        crashes = [at for at in crashes if now - at < WITHIN_S] + [now]
        if len(crashes) >= MOST_CRASHES:
            tell(
                f"The stand has ended {MOST_CRASHES} times within {WITHIN_S:g} s, the last time "
                f"with status {status}; it is not started again."
            )
            return status
        tell(f"The stand has ended with status {status}; it is started again.")
        wait(PAUSE_S)


def in_process(words: Sequence[str]) -> int:
    """Run the program with other words, in a process of its own."""
    return subprocess.run([sys.executable, "-m", "explorer", *words], check=False).returncode
