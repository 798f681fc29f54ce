"""What a store is rated for, and what it meets: one rule for one design and for many at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from explorer.engine.system import System
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray, Number
from explorer.scenario import parts
from explorer.scenario.build import FULL_SUN_LX, build_panel
from explorer.scenario.course import current_per_lux
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore

RatingKey = Literal[
    "charging_voltage", "standing_voltage", "cell_voltage",
    "charging_current", "discharging_current", "output_current", "too_cold", "too_hot",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """One limit of a store and what comes up against it.

    For one design the values have no axis; for a batch they have those of the scenario's numbers
    and broadcast against each other.
    """

    key: RatingKey
    seen: FloatArray
    rated: FloatArray
    unit: str

    @property
    def margin(self) -> FloatArray:
        """Rated over seen; a temperature is kept or not, so its margin is infinite or 0."""
        if self.key == "too_cold":
            return np.where(self.seen > self.rated, np.inf, 0.0)
        if self.key == "too_hot":
            return np.where(self.seen <= self.rated, np.inf, 0.0)
        return np.asarray(self.rated / np.maximum(self.seen, 1e-12))


def ratings(scenario: Scenario, system: System) -> tuple[Rating, ...]:
    """Every limit of a scenario's store, with what it meets at worst.

    *charging_voltage*, *standing_voltage*: volts on the worst unit of a bank that is full, right
    after a quick charge and after standing (`physics.store.worst_unit_voltage`); *cell_voltage* the
    same of a cell, which counts as balanced. *charging_current*: what the charger passes into a
    cell with its panel left in full sun. *discharging_current*: the largest draw out of a cell,
    start-up included. *output_current*: the same through the load output of the board, where it has
    one, without what its charger takes; the inrush of the bulk capacitance has no number.
    *too_cold*, *too_hot*: the place's temperature.

    Both kinds of charger stop at the full threshold however bright it is, and a capacitor takes
    what current comes: full sun can hurt a cell alone.

    Parameters
    ----------
    scenario : Scenario
        One design, or many as `explorer.advice.variants.varied` gives them.
    system : System
        What `build` made of it.
    """
    return (*_of_store(scenario, system), *_of_output(scenario, system))


def _of_output(scenario: Scenario, system: System) -> tuple[Rating, ...]:
    limit_a = scenario.load.output_limit_A
    if limit_a is None:
        return ()
    through = largest_draw(system) - np.asarray(system.quiescent_a, float)
    return (_rating("output_current", through, limit_a, "A"),)


def _of_store(scenario: Scenario, system: System) -> tuple[Rating, ...]:
    store, ambient = scenario.store, scenario.light.ambient_C
    volts = store.unit_voltage(store.highest_v(scenario.charger.full_V))
    if store.kind == "cell":
        return (
            _rating("cell_voltage", volts.worst_v, store.unit_rated_v, "V"),
            _rating("charging_current", full_sun_current(scenario, system),
                    _allowed_charge(store, system), "A"),
            _rating("discharging_current", largest_draw(system), store.discharge_limit_A, "A"),
            _rating("too_cold", ambient, store.charge_above_C, "°C"),
            _rating("too_hot", ambient, store.charge_below_C, "°C"),
        )  # fmt: skip
    return (
        _rating("charging_voltage", volts.charging_v, store.unit_rated_v, "V"),
        _rating("standing_voltage", volts.standing_v, store.unit_rated_v, "V"),
        _rating("too_hot", ambient, store.rated_C, "°C"),
    )


def _rating(key: RatingKey, seen: Number, rated: Number, unit: str) -> Rating:
    return Rating(key=key, seen=np.asarray(seen, float), rated=np.asarray(rated, float), unit=unit)


def full_sun_current(scenario: Scenario, system: System) -> FloatArray:
    """Largest current that the charger passes into the store with the panel left in full sun. [A]

    Charging current falls with the store's voltage in normal running and in a cold start alike,
    so it is largest where either begins, or at a voltage for which an efficiency is given.
    """
    amps = full_sun_photocurrent(scenario)
    empty = np.asarray(system.store.empty_v, float)
    charger = system.charger
    if isinstance(charger, ch.DirectCharger):
        return ch.direct_current(charger, system.panel, amps, empty, 0.0)
    given = ch.converter_input(charger, system.panel, amps)
    warm = np.minimum(np.maximum(empty, charger.cold_below_v), system.full_v)
    volts = [empty, warm]
    if charger.table is not None and len(charger.table.volts) > 1:
        volts += [np.clip(v, warm, system.full_v) for v in charger.table.volts]
    currents = [ch.converter_current(charger, given, v, v, 0.0) for v in volts]
    most: FloatArray = np.maximum.reduce(np.broadcast_arrays(*currents))
    return most


def full_sun_photocurrent(scenario: Scenario) -> FloatArray:
    """Photocurrent of the array left in full sun. [A]

    The sun's own spectrum falls on the clean and uncovered panel, which without a data sheet may
    be the best one on sale.
    """
    light = scenario.light.model_copy(update={
        "source": "daylight_open", "daylight_share": 0.0,
        "orientation_factor": 1.0, "cover_factor": 1.0, "soiling_factor": 1.0,
    })  # fmt: skip
    amps = scenario.margins.full_sun_lx * current_per_lux(light, scenario.panels)
    if not scenario.panels.data_sheet:
        amps = amps * parts.sold_share(scenario.panels.technology, FULL_SUN_LX)[1]
    return np.asarray(amps)


def full_sun_voltage(scenario: Scenario) -> float:
    """Open-circuit voltage of the array of one design left in full sun. [V]

    Raises
    ------
    ValueError
        The panel's data sheet is that of no panel.
    """
    panel = build_panel(scenario.panels, scenario.light.ambient_C)
    return float(pv.open_circuit_voltage(panel, full_sun_photocurrent(scenario)))


def largest_draw(system: System) -> FloatArray:
    """Largest current out of the store, start-up included. [A]

    A draw ``i_0 + p/v + g v`` is largest at one end of the voltages at which the device runs.
    """
    load = system.load
    draws = [load.sleep, *(p.draw for p in load.start_up)]
    draws += [load.sleep + p.draw for op in load.operations for p in op.phases]
    largest: Number = 0.0
    for volts in (load.off_v, system.full_v):
        for draw in draws:
            largest = np.maximum(largest, ld.drawn_current(draw, volts))
    return np.asarray(largest + system.quiescent_a)


def _allowed_charge(store: CellStore, system: System) -> FloatArray:
    """Charging limit at the place's temperature; where none is allowed, that of a warm cell. [A]"""
    now = np.asarray(system.store.charge_limit_a, float)  # type: ignore[union-attr]
    return np.where(now > 0.0, now, store.charge_limit_A)

