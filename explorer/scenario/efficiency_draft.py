"""A converter's efficiency table while it is being typed: judged when its rows are complete."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from explorer.scenario.supply import EfficiencyPoint, table_fault

NUMBERS = ("input_W", "efficiency", "store_V")
"""Keys of the numbers of a row, in the order of a table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftRow:
    """One row as far as it has been typed."""

    input_W: float | None = None
    efficiency: float | None = None
    store_V: float | None = None

    def having(self, key: str, value: float | None) -> DraftRow:
        """The row with another number."""
        changed: dict[str, float | None] = {key: value}
        return replace(self, **changed)

    @property
    def is_empty(self) -> bool:
        """Whether no number stands in it."""
        return all(getattr(self, key) is None for key in NUMBERS)

    @property
    def missing(self) -> tuple[str, ...]:
        """Keys of what still has to be typed."""
        return tuple(key for key in NUMBERS[:2] if getattr(self, key) is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedTable:
    """What can be said of a table as far as it has been typed."""

    rows: tuple[EfficiencyPoint, ...]
    """Complete ones, by store voltage and input power; none where they contradict each other."""
    fault: str
    """What contradicts what, as the end of a sentence; empty where nothing does."""
    unfinished: tuple[int, ...]
    """Rows in which something stands and something is missing."""

    @property
    def is_ready(self) -> bool:
        """Whether the table can be used as it stands."""
        return not self.fault and not self.unfinished


def drafts_of(rows: Sequence[EfficiencyPoint]) -> tuple[DraftRow, ...]:
    """Rows of a table, to be typed on."""
    return tuple(DraftRow(**{key: getattr(row, key) for key in NUMBERS}) for row in rows)


def judged_table(drafts: Sequence[DraftRow]) -> JudgedTable:
    """Judge what is complete.

    Examples
    --------
    >>> judged_table([DraftRow(input_W=1e-4)]).unfinished
    (0,)
    """
    rows = [
        EfficiencyPoint(input_W=d.input_W, efficiency=d.efficiency, store_V=d.store_V)
        for d in drafts
        if d.input_W is not None and d.efficiency is not None
    ]
    fault = table_fault(rows)
    return JudgedTable(
        rows=() if fault else tuple(sorted(rows, key=lambda r: (r.store_V or 0.0, r.input_W))),
        fault=fault,
        unfinished=tuple(i for i, d in enumerate(drafts) if not d.is_empty and d.missing),
    )
