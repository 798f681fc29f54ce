"""How far the reading of a large file is, for whoever waits."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[float], None]
"""Is told the share of a file that was read; whatever it raises ends the reading."""


def no_progress(_: float) -> None:
    """Nobody waits to see how far it is."""
