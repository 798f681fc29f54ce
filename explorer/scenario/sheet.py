"""The single-diode parameters of one panel: from its technology, or from its data sheet."""

from __future__ import annotations

from functools import lru_cache

from explorer.physics import panel as pv
from explorer.physics.constants import thermal_voltage
from explorer.physics.panel_fit import PanelFit, fit_panel
from explorer.scenario import parts
from explorer.scenario.supply import Panels, SheetPoint, Technology

REFERENCE_C = 25.0
"""Temperature of cell parameters and of data sheets."""


def one_panel(panels: Panels) -> pv.Panel:
    """Parameters of one panel at 25 °C."""
    if panels.data_sheet:
        return sheet_fit(panels).panel
    return _from_technology(
        panels.technology, panels.active_area_cm2, panels.cells_in_series
    )


def current_scale(panels: Panels) -> float:
    """Photocurrent by the data sheet over that by technology and area; 1 without a sheet."""
    return sheet_fit(panels).current_scale if panels.data_sheet else 1.0


def sheet_fit(panels: Panels) -> PanelFit:
    """The fit to the data sheet, kept for as long as sheet, technology, area and cells stay.

    Raises
    ------
    ValueError
        There is no data sheet, or its lines contradict each other.
    """
    return _fit(
        panels.data_sheet, panels.technology, panels.active_area_cm2, panels.cells_in_series
    )


@lru_cache(maxsize=64)
def _fit(
    sheet: tuple[SheetPoint, ...], technology: Technology, area_cm2: float, cells: int
) -> PanelFit:
    area = area_cm2 * 1e-4 / cells
    points = [
        point.values(
            point.illuminance_lx * area * parts.photocurrent_per_lux(point.source, technology)
        )
        for point in sheet
    ]
    return fit_panel(points, _from_technology(technology, area_cm2, cells))


def _from_technology(technology: Technology, area_cm2: float, cells: int) -> pv.Panel:
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
