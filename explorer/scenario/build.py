"""From a scenario to the system that the engine runs."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce

import numpy as np

from explorer.engine import system as es
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv
from explorer.physics.constants import thermal_voltage
from explorer.physics.efficiency import EfficiencyCurve, EfficiencyTable
from explorer.scenario import demand, parts
from explorer.scenario.course import light_course
from explorer.scenario.cut_off import needs
from explorer.scenario.data_sheet import REFERENCE_C, current_scale, one_panel
from explorer.scenario.fields import plain
from explorer.scenario.hours import seconds
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.supply import Charger, ConverterCharger, Panels
from explorer.scenario.weather import WeatherYear
from explorer.scenario.weekdays import WEEKDAYS

FULL_SUN_LX = 109_454.0
"""Illuminance of ASTM G173-03 sunlight of 1000 W/m², in which data sheets state the voltage's
temperature coefficient. In dim light a cell's voltage falls faster with temperature."""


def build(
    scenario: Scenario, log: LightLog | None = None, weather: WeatherYear | None = None
) -> es.System:
    """The engine's view of a scenario.

    Parameters
    ----------
    scenario : Scenario
        Validated scenario.
    log : LightLog, optional
        The measured light, needed where the scenario's pattern is a log.
    weather : WeatherYear, optional
        Needed where the pattern is daylight and names a weather file.

    Raises
    ------
    ValueError
        The pattern is a log, or names a weather file, and none was given.
    """
    return built(scenario, light_course(scenario.light, scenario.panels, log, weather))


def built(
    scenario: Scenario, course: es.LightCourse, wear: float | None = None
) -> es.System:
    """The engine's view of a scenario under some course of light.

    Parameters
    ----------
    scenario : Scenario
        Validated scenario.
    course : LightCourse
        Its light.
    wear : float, optional
        Wear of the store, of which 1 is its end of life; by its years in service when left out.
    """
    if wear is not None:
        young = scenario.store.model_copy(update={"years_in_service": 0.0})
        system = built(scenario.model_copy(update={"store": young}), course)
        worn = young.worn(system.store, wear)
        return replace(system, store=worn, initial_charge_c=young.initial_charge_c(worn))
    store = scenario.store.built(scenario.light.ambient_C, scenario.charger.full_V)
    load = _protected(build_load(scenario.load), plain(store.empty_v))
    return es.System(
        light=course,
        panel=build_panel(scenario.panels, scenario.light.ambient_C),
        charger=build_charger(scenario.charger, scenario.light.ambient_C),
        full_v=scenario.charger.full_V,
        full_hysteresis_v=scenario.charger.full_hysteresis_V,
        quiescent_a=scenario.charger.quiescent_A,
        store=store,
        initial_charge_c=scenario.store.initial_charge_c(store),
        load=load,
    )


def build_panel(panels: Panels, ambient_c: float) -> pv.Panel:
    """Single-diode parameters of the array at a temperature.

    The saturation current follows from the cell's voltage coefficient in full sun; the thermal
    voltage follows temperature itself.
    """
    cell = parts.cell(panels.technology)
    panel = one_panel(panels)
    slope = plain(panel.slope_v)
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    sun_a_per_m2 = FULL_SUN_LX * parts.photocurrent_per_lux("daylight_open", panels.technology)
    reference_a = sun_a_per_m2 * area * current_scale(panels)
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
    if charger.kind == "direct":
        return ch.DirectCharger(
            diode_saturation_a=charger.diode_saturation_A,
            diode_slope_v=charger.diode_ideality * thermal_voltage(ambient_c),
        )
    table = efficiency_table(charger)
    return ch.Converter(
        voc_fraction=charger.voc_fraction if charger.tracking == "fraction" else None,
        # A table is of the whole converter, its output path included.
        efficiency=charger.efficiency if table is None else 1.0,
        fixed_loss_w=charger.fixed_loss_W if table is None else 0.0,
        loss_ohm=charger.loss_resistance_ohm if table is None else 0.0,
        output_limit_a=charger.output_limit_A,
        minimum_panel_v=charger.minimum_panel_V,
        minimum_panel_w=charger.minimum_panel_W,
        cold_below_v=charger.cold_start_below_V,
        cold_efficiency=charger.cold_start_efficiency,
        cold_panel_v=charger.cold_start_panel_V,
        cold_panel_w=charger.cold_start_panel_W,
        table=table,
    )


def efficiency_table(charger: ConverterCharger) -> EfficiencyTable | None:
    """Curves of the charger's efficiency table; None where it has none."""
    rows = charger.efficiency_table
    if not rows:
        return None
    volts = sorted({row.store_V or 0.0 for row in rows})
    curves = []
    for v in volts:
        own = sorted((r.input_W, r.efficiency) for r in rows if (r.store_V or 0.0) == v)
        power, share = zip(*own, strict=True)
        curves.append(EfficiencyCurve(power_w=power, share=share))
    return EfficiencyTable(
        volts=tuple(volts), curves=tuple(curves), scale=charger.table_scale
    )


def build_load(load: demand.Load) -> es.Load:
    """Load as the store's terminals see it."""
    regulator: ld.Regulator = None
    need = plain(reduce(np.maximum, needs(load).values()))
    if load.regulator.kind == "linear":
        regulator = ld.LinearRegulator(
            output_v=load.regulator.output_V, ground_a=load.regulator.ground_A
        )
    elif load.regulator.kind == "switching":
        regulator = ld.SwitchingRegulator(
            output_v=load.regulator.output_V,
            efficiency=load.regulator.efficiency,
            quiescent_a=load.regulator.ground_A,
        )
    own = ld.regulator_draw(regulator)
    sleep = ld.through_regulator(ld.Draw(current_a=load.sleep_A), regulator) + own
    start_up = tuple(_phase(p, regulator, own) for p in load.start_up)
    operations = tuple(_operation(op, regulator) for op in load.operations)
    until = None
    if load.runs_until_empty:
        (run,), operations = operations, ()
        sleep = sleep + run.phases[0].draw
        phase = replace(run.phases[0], draw=sleep)
        assert isinstance(run.schedule, es.WhenReady)
        ready = replace(run.schedule, ready_v=load.connect_V)
        until = replace(run, schedule=ready, phases=(*start_up, phase))
    return es.Load(
        connect_v=load.connect_V,
        off_v=plain(np.maximum(load.disconnect_V, need)),
        minimum_v=need,
        bulk_f=load.bulk_capacitance_F,
        start_up=start_up,
        sleep=sleep,
        operations=operations,
        until_empty=until,
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
    asked = operation.schedule
    if asked.kind == "every":
        schedule = es.Periodic(interval_s=asked.interval_s, windows_s=_windows(asked))
    else:
        schedule = es.WhenReady(
            ready_v=asked.ready_V if asked.kind == "when_ready" else 0.0,
            wanted_per_s=asked.wanted_per_day / es.DAY_S,
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
        begin, end = i * es.DAY_S + seconds(every.from_h), i * es.DAY_S + seconds(every.to_h)
        if joined and joined[-1][1] >= begin:
            joined[-1] = (joined[-1][0], end)
        else:
            joined.append((begin, end))
    return tuple(joined)


def _protected(load: es.Load, cut_off_v: float) -> es.Load:
    """A store's protection cuts off at the lower end of its window, whatever the load allows."""
    return replace(load, off_v=plain(np.maximum(load.off_v, cut_off_v)))
