"""The single-diode parameters of one panel: from its technology, or from its data sheet."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from explorer.physics import panel as pv
from explorer.physics.arrays import Number
from explorer.physics.constants import thermal_voltage
from explorer.physics.panel_fit import PanelFit, SheetFault, fit_panel, numbered
from explorer.scenario import parts
from explorer.scenario.supply import Panels, SheetPoint, Technology
from explorer.text import figure, say

REFERENCE_C = 25.0
"""Temperature of cell parameters and of data sheets."""
MOST_MISSED = 0.5
"""Misfit from which a data sheet is no panel's (own judgement: rounding makes some per cent, lines
under different lamps a third)."""


def one_panel(panels: Panels) -> pv.Panel:
    """Parameters of one panel at 25 °C."""
    if panels.data_sheet:
        return sheet_fit(panels).panel
    return _from_technology(panels.technology, panels.active_area_cm2, panels.cells_in_series)


def current_scale(panels: Panels) -> Number:
    """Photocurrent by the data sheet over that by technology and area; 1 without a sheet."""
    if not panels.data_sheet:
        return 1.0
    cells = _one_count(panels)
    area_cm2 = _equivalent_area(panels.data_sheet, panels.technology, cells)
    return sheet_fit(panels).current_scale * area_cm2 / panels.active_area_cm2


def sheet_fit(panels: Panels) -> PanelFit:
    """The fit to the data sheet, kept for as long as sheet, technology and cells stay.

    Its ``current_scale`` refers to the area at which the technology gives the sheet's currents.
    The scenario's area plays no part.

    Raises
    ------
    ValueError
        There is no data sheet, its lines contradict each other, no panel comes near them, or the
        number of cells varies within a batch.
    """
    found = nearest_fit(panels)
    if fault := misfit_fault(found):
        raise ValueError(say("panels.data_sheet, {fault}", fault=numbered(fault)))
    return found


def nearest_fit(panels: Panels) -> PanelFit:
    """The panel that comes nearest to the data sheet, however far it is off.

    Raises
    ------
    ValueError
        As for `sheet_fit`, but for the distance.
    """
    return _fit(panels.data_sheet, panels.technology, _one_count(panels))


def misfit_fault(found: PanelFit) -> SheetFault | None:
    """Where even the nearest panel is too far off; None where the sheet is a panel's."""
    line, quantity, missed = found.worst
    if abs(missed) <= MOST_MISSED:
        return None
    return SheetFault(line=line, quantity=quantity, text=say(
        "no panel has these points; the nearest one misses {quantity} by {percent} %",
        quantity=quantity, percent=figure(f"{100.0 * abs(missed):.0f}"),
    ))  # fmt: skip


def _one_count(panels: Panels) -> int:
    counts = np.unique(np.asarray(panels.cells_in_series))
    if counts.size != 1:
        raise ValueError(
            say("panels.cells_in_series must be one number where a data sheet is given")
        )
    return int(counts[0])


@lru_cache(maxsize=64)
def _fit(sheet: tuple[SheetPoint, ...], technology: Technology, cells: int) -> PanelFit:
    area_cm2 = _equivalent_area(sheet, technology, cells)
    points = [
        point.values(
            area_cm2 * 1e-4 / cells * point.illuminance_lx
            * parts.photocurrent_per_lux(point.source, technology)
        )
        for point in sheet
    ]  # fmt: skip
    return fit_panel(points, _from_technology(technology, area_cm2, cells))


def _equivalent_area(
    sheet: tuple[SheetPoint, ...], technology: Technology, cells: int
) -> float:
    """Area at which the technology gives the sheet's currents, geometric mean. [cm²]"""
    per_cell = [
        point.short_circuit_A
        / (point.illuminance_lx * parts.photocurrent_per_lux(point.source, technology))
        for point in sheet
    ]
    return float(np.exp(np.mean(np.log(per_cell)))) * cells * 1e4 if per_cell else 1.0


def _from_technology(technology: Technology, area_cm2: Number, cells: Number) -> pv.Panel:
    cell = parts.cell(technology)
    area = area_cm2 * 1e-4 / cells
    one_cell = pv.Panel(
        saturation_a=cell.saturation_current_a_per_m2 * area,
        slope_v=cell.ideality * thermal_voltage(REFERENCE_C),
        series_ohm=cell.series_resistance_ohm_m2 / area,
        shunt_s=cell.shunt_conductance_s_per_m2 * area,
        photo_shunt_per_v=cell.photo_shunt_per_v,
    )
    return pv.array_of(one_cell, in_series=cells, in_parallel=1)
