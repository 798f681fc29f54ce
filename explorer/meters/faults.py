"""What can go wrong with a meter."""

from __future__ import annotations

from typing import Literal

FaultKind = Literal[
    "no_library", "no_driver", "unreachable", "silent", "garbled", "comma"
]
FATAL: frozenset[FaultKind] = frozenset({"no_library", "no_driver", "comma"})
"""Faults that another attempt does not mend."""


class MeterFault(Exception):
    """A meter cannot be read, as a kind and what was found."""

    def __init__(self, kind: FaultKind, detail: str = "") -> None:
        super().__init__(kind, detail)
        self.kind: FaultKind = kind
        self.detail = " ".join(detail.split())[:120]
