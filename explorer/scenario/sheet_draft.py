"""A panel's data sheet while it is being typed: judged line by line, whatever the order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from explorer.physics.panel_fit import (
    PanelFit,
    SheetFault,
    SheetValues,
    line_contradiction,
    sheet_contradiction,
)
from explorer.scenario.consistency import cells_contradiction
from explorer.scenario.data_sheet import misfit_fault, nearest_fit
from explorer.scenario.light import Source
from explorer.scenario.supply import Panels, SheetPoint

NUMBERS = ("illuminance_lx", "short_circuit_A", "open_circuit_V", "max_power_A", "max_power_V")
"""Keys of the numbers of a line, in the order of a data sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftLine:
    """One line as far as it has been typed."""

    source: Source
    illuminance_lx: float | None = None
    short_circuit_A: float | None = None
    open_circuit_V: float | None = None
    max_power_A: float | None = None
    max_power_V: float | None = None
    measured_V: tuple[float, ...] = ()
    measured_A: tuple[float, ...] = ()
    """Points of the curve that it was taken from."""

    def having(self, key: str, value: float | None) -> DraftLine:
        """The line with another number."""
        changed: dict[str, Any] = {key: value}
        return replace(self, **changed)

    @property
    def is_empty(self) -> bool:
        """Whether no number stands in it."""
        return all(getattr(self, key) is None for key in NUMBERS)

    @property
    def missing(self) -> tuple[str, ...]:
        """Keys of what still has to be typed before the line can be judged."""
        needed = ["illuminance_lx", "short_circuit_A"]
        if (self.max_power_A is None) != (self.max_power_V is None):
            needed += ["max_power_A", "max_power_V"]
        return tuple(key for key in needed if getattr(self, key) is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What can be said of a sheet as far as it has been typed."""

    panels: Panels
    """With the lines that are complete and sound."""
    lines: tuple[int, ...]
    """Of which draft lines those are."""
    fit: PanelFit | None
    """Through them; None while there are none."""
    faults: tuple[SheetFault, ...]
    """At most one for each draft line."""
    unfinished: tuple[int, ...]
    """Draft lines in which something stands and something is missing."""

    @property
    def is_ready(self) -> bool:
        """Whether the sheet can be used as it stands."""
        return not self.faults and not self.unfinished


def drafts_of(panels: Panels) -> tuple[DraftLine, ...]:
    """The lines of a data sheet, to be typed on."""
    return tuple(
        DraftLine(**{field.name: getattr(point, field.name) for field in fields(DraftLine)})
        for point in panels.data_sheet
    )


def judged(panels: Panels, drafts: Sequence[DraftLine]) -> Judged:
    """Judge what is complete; a line with a fault is left out of the fit.

    Parameters
    ----------
    panels : Panels
        Technology and cells; its own data sheet does not count.
    drafts : sequence of DraftLine
        In the order in which they stand; faults and lines are numbered by it.
    """
    faults: list[SheetFault] = []
    sound: dict[int, SheetValues] = {}
    for i, draft in enumerate(drafts):
        if draft.is_empty or draft.missing:
            continue
        values = _values(draft)
        fault = line_contradiction(values, i) or cells_contradiction(
            draft.open_circuit_V, i, panels.technology, panels.cells_in_series
        )
        if fault:
            faults.append(fault)
        else:
            sound[i] = values
    while sound and (fault := sheet_contradiction(tuple(sound.values()), tuple(sound))):
        faults.append(fault)
        del sound[fault.line]
    lines = tuple(sound)
    with_sheet = panels.model_copy(
        update={"data_sheet": tuple(_point(drafts[i]) for i in lines)}
    )
    fit = nearest_fit(with_sheet) if lines else None
    if fit is not None and (missed := misfit_fault(fit)):
        faults.append(
            SheetFault(line=lines[missed.line], quantity=missed.quantity, text=missed.text)
        )
    return Judged(
        panels=with_sheet,
        lines=lines,
        fit=fit,
        faults=tuple(faults),
        unfinished=tuple(i for i, d in enumerate(drafts) if not d.is_empty and d.missing),
    )


def _values(draft: DraftLine) -> SheetValues:
    assert draft.illuminance_lx is not None
    assert draft.short_circuit_A is not None
    return SheetValues(
        illuminance_lx=draft.illuminance_lx,
        source=draft.source,
        short_circuit_a=draft.short_circuit_A,
        open_circuit_v=draft.open_circuit_V,
        max_power_a=draft.max_power_A,
        max_power_v=draft.max_power_V,
    )


def _point(draft: DraftLine) -> SheetPoint:
    return SheetPoint(**{field.name: getattr(draft, field.name) for field in fields(draft)})
