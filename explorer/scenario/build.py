"""From a scenario to the system that the engine runs."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from explorer.engine import system as es
from explorer.physics import ageing
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv
from explorer.physics import store as st
from explorer.physics.arrays import Number
from explorer.physics.constants import thermal_voltage
from explorer.scenario import demand, parts
from explorer.scenario.course import HOUR_S, light_course
from explorer.scenario.data_sheet import REFERENCE_C, current_scale, one_panel
from explorer.scenario.light import WEEKDAYS
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CapacitorStore, CellStore, Store, SupercapacitorStore
from explorer.scenario.supply import Charger, DirectCharger, Panels

REFERENCE_PHOTOCURRENT_A_PER_M2 = 0.3
"""Photocurrent density at which the voltage's temperature coefficient holds: about what an
indoor cell has at 1000 lx."""
MONTH_S = 30.4375 * 86_400.0


def plain(value: Any) -> Any:
    """A float where there is one number, the array itself where there are many.

    Scenarios are built one at a time for the exact engine and with arrays in their numeric
    fields for a batch; the same code serves both.
    """
    numbers = np.asarray(value, float)
    return float(numbers) if numbers.ndim == 0 else numbers


def build(scenario: Scenario, log: LightLog | None = None) -> es.System:
    """The engine's view of a scenario.

    Parameters
    ----------
    scenario : Scenario
        Validated scenario.
    log : LightLog, optional
        The measured light, needed where the scenario's pattern is a log.

    Raises
    ------
    ValueError
        The pattern is a log and none was given.
    """
    store = build_store(scenario.store, scenario.light.ambient_C, scenario.charger.full_V)
    load = _protected(build_load(scenario.load), plain(store.empty_v))
    return es.System(
        light=light_course(scenario.light, scenario.panels, log),
        panel=build_panel(scenario.panels, scenario.light.ambient_C),
        charger=build_charger(scenario.charger, scenario.light.ambient_C),
        full_v=scenario.charger.full_V,
        full_hysteresis_v=scenario.charger.full_hysteresis_V,
        quiescent_a=scenario.charger.quiescent_A,
        store=store,
        initial_charge_c=initial_charge(scenario.store, store),
        load=load,
    )


def build_panel(panels: Panels, ambient_c: float) -> pv.Panel:
    """Single-diode parameters of the array at a temperature.

    The saturation current follows from the cell's voltage coefficient at a fixed photocurrent;
    the thermal voltage follows temperature itself.
    """
    cell = parts.cell(panels.technology)
    panel = one_panel(panels)
    slope = plain(panel.slope_v)
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    reference_a = REFERENCE_PHOTOCURRENT_A_PER_M2 * area * current_scale(panels)
    warm_slope = slope * thermal_voltage(ambient_c) / thermal_voltage(REFERENCE_C)
    volts = slope * np.log(reference_a / np.asarray(panel.saturation_a, float))
    shift = cell.voc_temperature_v_per_k * panels.cells_in_series * (ambient_c - REFERENCE_C)
    return pv.array_of(
        replace(
            panel,
            saturation_a=plain(reference_a * np.exp(-(volts + shift) / warm_slope)),
            slope_v=warm_slope,
        ),
        in_series=panels.in_series,
        in_parallel=panels.count,
    )


def build_charger(charger: Charger, ambient_c: float) -> ch.DirectCharger | ch.Converter:
    """Charger parameters."""
    if isinstance(charger, DirectCharger):
        return ch.DirectCharger(
            diode_saturation_a=charger.diode_saturation_A,
            diode_slope_v=charger.diode_ideality * thermal_voltage(ambient_c),
        )
    return ch.Converter(
        voc_fraction=charger.voc_fraction if charger.tracking == "fraction" else None,
        efficiency=charger.efficiency,
        fixed_loss_w=charger.fixed_loss_W,
        loss_ohm=charger.loss_resistance_ohm,
        output_limit_a=charger.output_limit_A,
        minimum_panel_v=charger.minimum_panel_V,
        minimum_panel_w=charger.minimum_panel_W,
        cold_below_v=charger.cold_start_below_V,
        cold_efficiency=charger.cold_start_efficiency,
        cold_panel_v=charger.cold_start_panel_V,
        cold_panel_w=charger.cold_start_panel_W,
    )


def build_store(store: Store, ambient_c: float, held_v: float | None = None) -> st.Store:
    """Store parameters at a temperature and age.

    Parameters
    ----------
    store : Store
        Section of the scenario.
    ambient_c : float
        Temperature. [degC]
    held_v : float, optional
        Voltage at which the store is held while it ages, its rated voltage when left out; the
        charger's full voltage is on the safe side. [V]
    """
    if isinstance(store, CellStore):
        return _build_cell(store, ambient_c)
    extra: dict[str, float] = {}
    leakage = counted_leakage(store)
    if isinstance(store, SupercapacitorStore):
        if store.balancing != "none":
            several = np.asarray(store.units_in_series) > 1
            leakage = leakage + plain(np.where(several, store.balancing_A, 0.0))
        extra = {
            "slope": store.capacitance_slope,
            "bend": store.capacitance_bend,
            "lowest_v": store.lowest_V * store.units_in_series,
        }
    rated_v = store.rated_V * store.units_in_series
    bank = st.CapacitorBank(
        capacitance_f=store.capacitance_F,
        rated_v=rated_v,
        esr_ohm=store.esr_ohm * plain(st.cold_resistance_factor(ambient_c, store.cold_esr_factor)),
        leakage_a=leakage,
        **extra,
    )
    return ageing.aged(
        bank,
        capacitor_life(store),
        years=store.years_in_service,
        temperature_c=ambient_c,
        voltage_share=1.0 if held_v is None else held_v / rated_v,
    )


def counted_leakage(store: CapacitorStore | SupercapacitorStore) -> Number:
    """Leakage of a bank at rated voltage, settled or over its first days, balancing aside. [A]"""
    if isinstance(store, SupercapacitorStore) and store.condition == "first_days":
        leakage: Number = plain(
            st.first_days_leakage(
                store.leakage_A, store.fresh_leakage_factor, store.settling_h * HOUR_S
            )
        )
        return leakage
    return store.leakage_A


def _build_cell(store: CellStore, ambient_c: float) -> st.Cell:
    table = parts.chemistry(store.chemistry)
    rated_c = store.capacity_mAh * 3.6
    share = plain(
        st.charge_current_share(
            ambient_c,
            above_c=store.charge_above_C,
            below_c=store.charge_below_C,
            cool_below_c=store.cool_below_C,
            cool_share=store.cool_charge_share,
        )
    )
    cold = plain(st.cold_capacity_share(ambient_c, store.cold_capacity_share))
    cell = st.Cell(
        capacity_c=rated_c * cold,
        state_of_charge=table.state_of_charge,
        open_circuit_v=table.open_circuit_v * store.cells_in_series,
        resistance_ohm=store.resistance_ohm
        * plain(st.cold_resistance_factor(ambient_c, store.cold_resistance_factor)),
        self_discharge_a=rated_c * store.self_discharge_per_month / MONTH_S,
        charge_limit_a=store.charge_limit_A * share,
        may_charge=bool(np.any(np.asarray(share) > 0.0)),
    )
    return ageing.aged_cell(
        cell,
        cell_life(store),
        years=store.years_in_service,
        temperature_c=ambient_c,
    )


def capacitor_life(store: CapacitorStore | SupercapacitorStore) -> ageing.CapacitorLife:
    """What the maker promises of a bank's life."""
    return ageing.CapacitorLife(
        rated_life_h=store.rated_life_h,
        rated_c=store.rated_C,
        unit_rated_v=store.rated_V,
        life_per_tenth_volt=store.life_per_tenth_volt,
        capacitance_loss=store.end_of_life_loss,
        esr_rise=store.end_of_life_esr_rise,
    )


def cell_life(store: CellStore) -> ageing.CellLife:
    """What the maker promises of a cell's life."""
    return ageing.CellLife(
        cycles_to_end=store.cycles_to_end,
        cycles_per_year=store.cycles_per_year,
        fade_per_year=store.fade_per_year,
    )


def years_to_end_of_life(store: Store, ambient_c: float, held_v: float) -> Number:
    """Years until a new store counts as worn out, held at a temperature and a voltage. [a]

    Parameters
    ----------
    store : Store
        Section of the scenario.
    ambient_c : float
        Mean temperature. [degC]
    held_v : float
        Voltage of the whole bank; does not count for a cell. [V]
    """
    if isinstance(store, CellStore):
        return ageing.years_to_end_of_life(cell_life(store), temperature_c=ambient_c)
    share = held_v / (store.rated_V * store.units_in_series)
    return ageing.years_to_end_of_life(
        capacitor_life(store), temperature_c=ambient_c, voltage_share=share
    )


def initial_charge(settings: Store, store: st.Store) -> Any:
    """Charge at the beginning of the scenario. [C]"""
    if isinstance(settings, CellStore):
        assert isinstance(store, st.Cell)
        return plain(settings.initial_charge * store.capacity_c)
    assert isinstance(store, st.CapacitorBank)
    return plain(st.bank_charge(store, np.maximum(settings.initial_V, store.lowest_v)))


def build_load(load: demand.Load) -> es.Load:
    """Load as the store's terminals see it."""
    regulator: ld.Regulator = None
    need = load.minimum_V
    if load.regulator.kind == "linear":
        regulator = ld.LinearRegulator(
            output_v=load.regulator.output_V, ground_a=load.regulator.ground_A
        )
        need = plain(np.maximum(need, load.regulator.output_V + load.regulator.dropout_V))
    elif load.regulator.kind == "switching":
        regulator = ld.SwitchingRegulator(
            output_v=load.regulator.output_V,
            efficiency=load.regulator.efficiency,
            quiescent_a=load.regulator.ground_A,
        )
        need = plain(np.maximum(need, load.regulator.minimum_input_V))
    own = ld.regulator_draw(regulator)
    sleep = ld.through_regulator(ld.Draw(current_a=load.sleep_A), regulator) + own
    return es.Load(
        connect_v=load.connect_V,
        off_v=plain(np.maximum(load.disconnect_V, need)),
        minimum_v=need,
        bulk_f=load.bulk_capacitance_F,
        start_up=tuple(_phase(p, regulator, own) for p in load.start_up),
        sleep=sleep,
        operations=tuple(_operation(op, regulator) for op in load.operations),
        regulator=regulator,
        retry_delay_s=load.retry_delay_s,
        reserve_j=load.reserve_J,
    )


def _phase(phase: demand.Phase, regulator: ld.Regulator, beside: ld.Draw) -> es.Phase:
    if phase.current_A is not None:
        device = ld.Draw(current_a=phase.current_A)
    elif phase.power_W is not None:
        device = ld.Draw(power_w=phase.power_W)
    else:
        assert phase.resistance_ohm is not None
        device = ld.Draw(conductance_s=1.0 / phase.resistance_ohm)
    return es.Phase(
        draw=ld.through_regulator(device, regulator) + beside, duration_s=phase.duration_s
    )


def _operation(operation: demand.Operation, regulator: ld.Regulator) -> es.Operation:
    schedule: es.Periodic | es.WhenReady
    if isinstance(operation.schedule, demand.Every):
        schedule = es.Periodic(
            interval_s=operation.schedule.interval_s, windows_s=_windows(operation.schedule)
        )
    else:
        schedule = es.WhenReady(
            ready_v=operation.schedule.ready_V,
            wanted_per_s=operation.schedule.wanted_per_day / es.DAY_S,
        )
    return es.Operation(
        name=operation.name,
        schedule=schedule,
        phases=tuple(_phase(p, regulator, ld.Draw()) for p in operation.phases),
    )


def _windows(every: demand.Every) -> tuple[tuple[float, float], ...]:
    """Windows since Monday 00:00, joined where they touch."""
    joined: list[tuple[float, float]] = []
    for i, day in enumerate(WEEKDAYS):
        if day not in every.days:
            continue
        begin, end = i * es.DAY_S + every.from_h * HOUR_S, i * es.DAY_S + every.to_h * HOUR_S
        if joined and joined[-1][1] >= begin:
            joined[-1] = (joined[-1][0], end)
        else:
            joined.append((begin, end))
    return tuple(joined)


def _protected(load: es.Load, cut_off_v: float) -> es.Load:
    """A store's protection cuts off at the lower end of its window, whatever the load allows."""
    return replace(load, off_v=plain(np.maximum(load.off_v, cut_off_v)))
