"""From a scenario to the system that the engine runs."""

from __future__ import annotations

import numpy as np

from explorer.engine import system as es
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv
from explorer.physics import store as st
from explorer.physics.constants import thermal_voltage
from explorer.scenario import demand, parts
from explorer.scenario.course import HOUR_S, light_course
from explorer.scenario.light import WEEKDAYS
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore, Store, SupercapacitorStore
from explorer.scenario.supply import Charger, DirectCharger, Panels

REFERENCE_C = 25.0
REFERENCE_PHOTOCURRENT_A_PER_M2 = 0.3
"""Photocurrent density at which the voltage's temperature coefficient holds: about what an
indoor cell has at 1000 lx."""
MONTH_S = 30.4375 * 86_400.0


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
    store = build_store(scenario.store, scenario.light.ambient_C)
    load = build_load(scenario.load)
    if isinstance(store, st.Cell):
        load = _protected(load, float(store.open_circuit_v[0]))
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
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    warm, cool = thermal_voltage(ambient_c), thermal_voltage(REFERENCE_C)
    load_voltage = cell.ideality * cool * np.log(
        REFERENCE_PHOTOCURRENT_A_PER_M2 / cell.saturation_current_a_per_m2
    )
    shifted = load_voltage + cell.voc_temperature_v_per_k * (ambient_c - REFERENCE_C)
    density = REFERENCE_PHOTOCURRENT_A_PER_M2 * np.exp(-shifted / (cell.ideality * warm))
    one_cell = pv.Panel(
        saturation_a=density * area,
        slope_v=cell.ideality * warm,
        series_ohm=cell.series_resistance_ohm_m2 / area,
        shunt_s=cell.shunt_conductance_s_per_m2 * area,
        photo_shunt_per_v=cell.photo_shunt_per_v,
    )
    return pv.array_of(
        one_cell,
        in_series=panels.cells_in_series * panels.in_series,
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


def build_store(store: Store, ambient_c: float) -> st.Store:
    """Store parameters."""
    if isinstance(store, CellStore):
        table = parts.chemistry(store.chemistry)
        capacity = store.capacity_mAh * 3.6
        return st.Cell(
            capacity_c=capacity,
            state_of_charge=table.state_of_charge,
            open_circuit_v=table.open_circuit_v * store.cells_in_series,
            resistance_ohm=store.resistance_ohm,
            self_discharge_a=capacity * store.self_discharge_per_month / MONTH_S,
            charge_limit_a=store.charge_limit_A,
            may_charge=store.charge_above_C < ambient_c <= store.charge_below_C,
        )
    balancing = store.balancing_A if isinstance(store, SupercapacitorStore) else 0.0
    if isinstance(store, SupercapacitorStore) and (
        store.balancing == "none" or store.units_in_series == 1
    ):
        balancing = 0.0
    return st.CapacitorBank(
        capacitance_f=store.capacitance_F,
        rated_v=store.rated_V * store.units_in_series,
        esr_ohm=store.esr_ohm,
        leakage_a=store.leakage_A + balancing,
        slope=store.capacitance_slope if isinstance(store, SupercapacitorStore) else 0.0,
        bend=store.capacitance_bend if isinstance(store, SupercapacitorStore) else 0.0,
    )


def initial_charge(settings: Store, store: st.Store) -> float:
    """Charge at the beginning of the scenario. [C]"""
    if isinstance(settings, CellStore):
        return float(settings.initial_charge * store.capacity_c)  # type: ignore[union-attr]
    return float(st.bank_charge(store, settings.initial_V))  # type: ignore[arg-type]


def build_load(load: demand.Load) -> es.Load:
    """Load as the store's terminals see it."""
    regulator: ld.Regulator = None
    need = load.minimum_V
    if load.regulator.kind == "linear":
        regulator = ld.LinearRegulator(
            output_v=load.regulator.output_V, ground_a=load.regulator.ground_A
        )
        need = max(need, load.regulator.output_V + load.regulator.dropout_V)
    elif load.regulator.kind == "switching":
        regulator = ld.SwitchingRegulator(
            output_v=load.regulator.output_V,
            efficiency=load.regulator.efficiency,
            quiescent_a=load.regulator.ground_A,
        )
        need = max(need, load.regulator.minimum_input_V)
    own = ld.regulator_draw(regulator)
    sleep = ld.through_regulator(ld.Draw(current_a=load.sleep_A), regulator) + own
    return es.Load(
        connect_v=load.connect_V,
        off_v=max(load.disconnect_V, need),
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
    """A cell's protection cuts off at the lower end of its window, whatever the load allows."""
    return es.Load(
        **{
            **{name: getattr(load, name) for name in es.Load.__dataclass_fields__},
            "off_v": max(load.off_v, cut_off_v),
        }
    )
