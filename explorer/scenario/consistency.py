"""What contradicts itself between charger, store and load.

Only designs of which no course can be computed are refused; whatever is merely bad is judged.
"""

from __future__ import annotations

from explorer.physics.constants import thermal_voltage
from explorer.physics.panel_fit import SheetFault
from explorer.scenario import parts
from explorer.scenario.demand import Load
from explorer.scenario.storage import Store
from explorer.scenario.supply import Charger, Panels, Technology
from explorer.text import Text, figure, say

MOST_GAPS = 3.0
"""Open-circuit voltage of a cell, over its band gap, from which a data sheet is refused. No cell
reaches its band gap; up to threefold the number of cells may have been left as it was, which
hardly matters where the sheet sets the curve (own judgement)."""


def contradiction(charger: Charger, store: Store, load: Load) -> Text | None:
    """The first contradiction between the voltages of a design, None where they fit together."""
    full, empty = charger.full_V, store.empty_v
    if load.connect_V >= full:
        return say(
            "load.connect_V ({connect} V) must be lower than "
            "charger.full_V ({full} V), or the device never connects",
            connect=_volts(load.connect_V), full=_volts(full),
        )
    if full <= empty:
        return _empty_above_full(charger, store)
    lowest = max(load.disconnect_V, empty)
    if charger.full_hysteresis_V >= full - lowest:
        return _resumes_too_low(charger, lowest, of_store=empty > load.disconnect_V)
    if full > store.reach_v:
        return say(
            "charger.full_V ({full} V) lies above {reach} V, where the capacitance of the store "
            "is known no more; its units are rated {rated} V together",
            full=_volts(full), reach=_volts(store.reach_v),
            rated=_volts(store.unit_rated_v * store.in_series),
        )
    begins = float(store.highest_v(0.0))
    if begins > store.reach_v:
        return say(
            "store.initial_V ({begins} V) lies above {reach} V, where the capacitance of the "
            "store is known no more; its units are rated {rated} V together",
            begins=_volts(begins), reach=_volts(store.reach_v),
            rated=_volts(store.unit_rated_v * store.in_series),
        )
    return None


def sheet_contradiction(panels: Panels) -> Text | None:
    """A data-sheet voltage that no such cells can have, None where there is none."""
    for number, point in enumerate(panels.data_sheet):
        if fault := cells_contradiction(
            point.open_circuit_V, number, panels.technology, panels.cells_in_series
        ):
            return say(
                "panels.data_sheet, point {number}: {fault}", number=number + 1, fault=fault.text
            )
    return None


def cells_contradiction(
    open_circuit_v: float | None, line: int, technology: Technology, cells: int
) -> SheetFault | None:
    """What speaks against one line of a data sheet being of so many cells in series."""
    if open_circuit_v is None:
        return None
    most, least = MOST_GAPS * parts.cell(technology).band_gap_ev, thermal_voltage(25.0)
    each = open_circuit_v / cells
    if least <= each <= most:
        return None
    return SheetFault(line=line, quantity="open_circuit_V", text=say(
        "open_circuit_V ({volts} V) makes {each} V for each of the panels.cells_in_series ({n}); "
        "a cell of this technology has {least} to {most} V",
        volts=_volts(open_circuit_v), each=_volts(each), n=cells,
        least=_volts(round(least, 3)), most=_volts(most),
    ))  # fmt: skip


def _empty_above_full(charger: Charger, store: Store) -> Text:
    if store.kind == "cell":
        return say(
            "charger.full_V ({full} V) must be higher than {lowest} V, the voltage of an empty "
            "store (store.cells_in_series: {n}, {each} V each)",
            full=_volts(charger.full_V), lowest=_volts(store.empty_v), n=store.in_series,
            each=_volts(store.empty_v / store.in_series),
        )
    return say(
        "charger.full_V ({full} V) must be higher than the bank's lowest voltage "
        "({lowest} V: store.lowest_V times store.units_in_series)",
        full=_volts(charger.full_V), lowest=_volts(store.empty_v),
    )


def _resumes_too_low(charger: Charger, lowest: float, *, of_store: bool) -> Text:
    room = _volts(charger.full_V - lowest)
    hysteresis = _volts(charger.full_hysteresis_V)
    if of_store:
        return say(
            "charger.full_hysteresis_V ({hysteresis} V) must be less than the {room} V "
            "between charger.full_V and an empty store ({lowest} V), or charging resumes only "
            "when it is empty",
            hysteresis=hysteresis, room=room, lowest=_volts(lowest),
        )
    return say(
        "charger.full_hysteresis_V ({hysteresis} V) must be less than the {room} V "
        "between charger.full_V and load.disconnect_V, or charging resumes only "
        "after the device is cut off",
        hysteresis=hysteresis, room=room,
    )


def _volts(volts: float) -> Text:
    return figure(f"{volts:.4g}")
