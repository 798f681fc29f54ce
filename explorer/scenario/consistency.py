"""What contradicts itself between charger, store and load.

Only designs of which no course can be computed are refused; whatever is merely bad is judged.
"""

from __future__ import annotations

from explorer.physics.constants import thermal_voltage
from explorer.scenario import parts
from explorer.scenario.demand import Load
from explorer.scenario.storage import Store
from explorer.scenario.supply import Charger, Panels
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
    most = MOST_GAPS * parts.cell(panels.technology).band_gap_ev
    least = thermal_voltage(25.0)
    for number, point in enumerate(panels.data_sheet, start=1):
        each = point.open_circuit_V / panels.cells_in_series
        if not least <= each <= most:
            return say(
                "panels.data_sheet, point {number}: open_circuit_V ({volts} V) makes {each} V for "
                "each of the panels.cells_in_series ({n}); a cell of this technology has "
                "{least} to {most} V",
                number=number, volts=_volts(point.open_circuit_V), each=_volts(each),
                n=panels.cells_in_series, least=_volts(round(least, 3)), most=_volts(most),
            )
    return None


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
