"""The runs behind a verdict, on designs small enough for a pencil."""

from datetime import datetime
from math import inf, sqrt

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.readings.one import (
    dark_gaps,
    full_charge_time,
    mean_draw,
    one_charge,
    study,
    wanted_runs,
)
from explorer.scenario.build import build
from explorer.scenario.demand import Every, Load, Operation, Phase, WhenReady
from explorer.scenario.light import Light, LitBlock, LogPattern, SteadyPattern, WeekPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Margins, Scenario
from explorer.scenario.storage import CapacitorStore, CellStore
from explorer.scenario.supply import ConverterCharger

DAY_S, WEEK_S = 86_400.0, 604_800.0
BRIGHT = Light(illuminance_lx=1000.0, pattern=SteadyPattern())
DIM = Light(illuminance_lx=1.0, pattern=SteadyPattern())
EVERY_DAY = Light(
    illuminance_lx=1000.0,
    pattern=WeekPattern(
        blocks=(
            LitBlock(
                days=("mon", "tue", "wed", "thu", "fri", "sat", "sun"), from_h=8.0, to_h=18.0
            ),
        )
    ),
)
ONE_FARAD = CapacitorStore(capacitance_F=1.0, esr_ohm=0.0, leakage_A=0.0, rated_V=6.3)
IDEAL = ConverterCharger(quiescent_A=0.0, cold_start_below_V=0.0, full_V=5.0)


def sleeper(**changes):
    """A device that sleeps at 1 mA and is cut off at 2 V."""
    given = {
        "connect_V": 3.0, "disconnect_V": 2.0, "minimum_V": 1.5, "sleep_A": 1e-3,
        "start_up": (), "operations": (), "bulk_capacitance_F": 0.0,
    }
    return Load(**{**given, **changes})


def design(**changes):
    given = {"light": BRIGHT, "charger": IDEAL, "store": ONE_FARAD, "load": sleeper()}
    return Scenario(**{**given, **changes})


def beep(schedule, current_a=0.01, duration_s=1.0):
    return Operation(
        name="beep", schedule=schedule,
        phases=(Phase(current_A=current_a, duration_s=duration_s),),
    )


# -- one charge -----------------------------------------------------------------------------------


def test_a_full_farad_feeds_a_milliampere_for_c_times_delta_v_over_i():
    found = study(Case(design()))
    dark = one_charge(found.engine)
    assert dark.tally.cut_offs == 1
    assert dark.span_s == pytest.approx(1.0 * (5.0 - 2.0) / 1e-3, rel=1e-6)
    assert answers(found.case)["dark_time_s"] == pytest.approx(3000.0, rel=1e-6)


def test_operations_per_charge_are_the_charge_over_what_one_takes():
    load = sleeper(sleep_A=0.0, operations=(beep(Every(interval_s=10.0)),))
    found = answers(Case(design(load=load)))
    # 3 C between full and the cut-off, 10 mC a run: the last may be the one that cuts it off.
    assert found["operations_per_charge"] == pytest.approx(300.0, abs=1.0)
    assert found["dark_time_s"] == pytest.approx(3000.0, abs=11.0)


def test_a_device_that_takes_nothing_never_runs_flat():
    assert answers(Case(design(load=sleeper(sleep_A=0.0))))["dark_time_s"] == inf


# -- first charge ---------------------------------------------------------------------------------


def test_a_converter_without_losses_fills_half_c_v_squared():
    charger = ConverterCharger(
        tracking="maximum_power", efficiency=1.0, fixed_loss_W=0.0, loss_resistance_ohm=0.0,
        quiescent_A=0.0, cold_start_below_V=0.0, minimum_panel_W=0.0, full_V=5.0,
    )
    found = study(Case(design(charger=charger)))
    power_w = float(found.engine.field.supply(found.system.light.photocurrent_a[0]).given.panel_w)
    # To the connect voltage, at which an empty start-up makes it the first operation.
    assert found.first.seconds == pytest.approx(0.5 * 3.0**2 / power_w, rel=1e-3)
    assert full_charge_time(found.engine) == pytest.approx(0.5 * 5.0**2 / power_w, rel=1e-3)
    assert found.first.connects == 1


def test_the_first_charge_counts_from_the_first_light():
    found = study(Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-6))))
    always = study(Case(design(load=sleeper(sleep_A=1e-6))))
    assert always.first.seconds < 10 * 3600.0
    assert found.first.seconds == pytest.approx(always.first.seconds, rel=1e-6)
    assert found.first.end_s == pytest.approx(8 * 3600.0 + found.first.seconds)


def test_light_that_only_balances_the_leakage_below_the_connect_voltage_never_starts():
    store = CapacitorStore(capacitance_F=0.01, leakage_A=1e-3, rated_V=6.3)
    steady = Light(illuminance_lx=200.0, pattern=SteadyPattern())
    found = study(Case(design(light=steady, store=store)))
    assert found.first.seconds == inf
    assert found.first.connects == 0
    assert 0.0 < found.first.stuck_v < 3.0
    leaks_w = 1e-3 / 6.3 * found.first.stuck_v**2
    given = found.engine.field.supply(found.system.light.photocurrent_a[0]).given
    assert leaks_w == pytest.approx(float(given.warm_w), rel=1e-2)


def test_a_start_up_that_empties_the_store_is_recognised_as_a_hiccup():
    load = sleeper(sleep_A=1e-6, start_up=(Phase(current_A=0.02, duration_s=2.0),))
    store = CapacitorStore(capacitance_F=0.005, leakage_A=0.0, esr_ohm=0.0, rated_V=6.3)
    found = study(Case(design(light=EVERY_DAY, load=load, store=store)))
    assert found.first.seconds == inf
    # 40 mC are asked for; 5 mC lie between connect and disconnect.
    assert found.first.connects > 10
    assert found.course.run.tally.started == 0


def test_always_dark_is_an_answer_and_no_crash():
    light = Light(
        illuminance_lx=300.0,
        pattern=WeekPattern(
            blocks=(LitBlock(),), dark_days=("mon", "tue", "wed", "thu", "fri", "sat", "sun")
        ),
    )
    found = study(Case(design(light=light)))
    assert found.first.seconds == inf
    assert found.first.stuck_v == 0.0
    assert found.available_c == 0.0
    assert answers(found.case)["full_charge_s"] == inf
    assert answers(found.case)["recovery_s"] == inf


# -- what is wanted and what is taken -------------------------------------------------------------


def test_wanted_runs_count_the_starts_in_every_window():
    schedule = Every(interval_s=3600.0, days=("mon", "fri"), from_h=8.0, to_h=12.5)
    operations = (
        beep(schedule),
        beep(Every(interval_s=60.0)),
        beep(WhenReady(ready_V=4.0, wanted_per_day=3.0)),
    )
    system = build(design(load=sleeper(operations=operations)))
    # 8:00, 9:00 ... 12:00 on two days.
    assert wanted_runs(system, WEEK_S) == pytest.approx((10.0, 10_080.0, 21.0))


def weekend(lux=(0.0, 20_000.0)):
    """A log of a Saturday and a Sunday."""
    return LightLog(
        time_s=np.array([0.0, DAY_S, 2 * DAY_S]), illuminance_lx=np.array(lux),
        start=datetime(2024, 1, 6), step_s=DAY_S,
    )


def on_days(*days):
    return Every(interval_s=10.0, days=days)


@pytest.mark.parametrize(("days", "runs"), [(("sat",), 8640.0), (("mon", "tue"), 0.0)])
def test_a_weekends_log_wants_the_runs_of_a_weekend(days, runs):
    log = weekend()
    load = sleeper(sleep_A=1e-6, operations=(beep(on_days(*days)),))
    light = Light(illuminance_lx=None, pattern=LogPattern())
    found = study(Case(design(light=light, load=load), log))
    assert found.wanted == (runs,)
    assert found.course.run.span_s == pytest.approx(2 * DAY_S)


def test_the_dark_saturday_of_a_log_is_paid_for_at_saturdays_rate():
    load = sleeper(sleep_A=0.0, operations=(beep(on_days("sat")),))
    light = Light(illuminance_lx=None, pattern=LogPattern())
    found = study(Case(design(light=light, load=load), weekend()))
    (stretch,) = found.dark
    assert stretch.begin_v == pytest.approx(5.0, abs=0.06)
    # 10 mA for 1 s in 10 s: 1 mA from 5 V down to 2 V.
    assert stretch.available_s == pytest.approx((stretch.begin_v - 2.0) / 1e-3, rel=0.01)
    assert stretch.needed_s == pytest.approx(DAY_S)


def test_the_mean_draw_adds_up_everything_that_is_wanted():
    store = CapacitorStore(capacitance_F=1.0, esr_ohm=0.0, leakage_A=2e-6, rated_V=6.0)
    charger = ConverterCharger(quiescent_A=3e-6, full_V=5.0)
    load = sleeper(sleep_A=1e-6, operations=(beep(Every(interval_s=100.0)),))
    found = study(Case(design(store=store, charger=charger, load=load)))
    expected = 1e-6 + 3e-6 + 2e-6 * 3.0 / 6.0 + 0.01 * 1.0 / 100.0
    assert mean_draw(found.engine, 3.0) == pytest.approx(expected, rel=1e-3)
    assert found.needed_c == pytest.approx(expected * WEEK_S, rel=1e-3)


# -- dark stretches -------------------------------------------------------------------------------


def test_nights_between_lit_days_are_the_dark_stretches():
    found = study(Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-6))))
    gaps = dark_gaps(found.engine)
    assert [length for _, length in gaps] == pytest.approx([14 * 3600.0] * 7)
    assert {begin % DAY_S for begin, _ in gaps} == {18 * 3600.0}
    assert {s.needed_s for s in found.dark} == {14 * 3600.0}


def test_light_that_never_falls_below_the_draw_leaves_no_dark_stretch():
    assert study(Case(design(load=sleeper(sleep_A=1e-6)))).dark == ()


def test_light_that_never_suffices_is_dark_for_the_whole_period():
    found = study(Case(design(light=DIM)))
    assert [s.needed_s for s in found.dark] == [WEEK_S]


def test_a_closure_is_survived_from_the_lowest_evening():
    margins = Margins(closure_days=2.0)
    found = study(Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-5), margins=margins)))
    closure = next(s for s in found.dark if s.closure)
    assert closure.needed_s == 2 * DAY_S
    assert closure.available_s == pytest.approx((closure.begin_v - 2.0) / 1e-5, rel=0.01)


def test_a_reserve_lifts_the_floor_by_its_energy():
    # One farad cut off at 2 V: 2.5 J more stand at sqrt(2^2 + 2 x 2.5) = 3 V.
    assert sqrt(2.0**2 + 2 * 2.5) == 3.0
    load = sleeper(sleep_A=1e-5, reserve_J=2.5)
    kept = study(Case(design(light=EVERY_DAY, load=load))).dark[0]
    spent = study(Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-5)))).dark[0]
    assert spent.available_s - kept.available_s == pytest.approx((3.0 - 2.0) / 1e-5, rel=0.01)


# -- pulses and service ---------------------------------------------------------------------------


def test_a_device_that_waits_for_a_voltage_begins_there():
    load = sleeper(
        sleep_A=1e-6,
        operations=(beep(WhenReady(ready_V=4.5), current_a=0.5, duration_s=1.0),),
    )
    found = study(Case(design(load=load)))
    assert found.lowest_between_v == pytest.approx(4.5, abs=1e-6)
    assert found.extremes.lowest_store_v == pytest.approx(4.0, abs=0.01)


def test_the_lowest_beginning_of_a_clocked_pulse_is_before_its_ramp():
    load = sleeper(
        sleep_A=0.0,
        operations=(beep(Every(interval_s=43_200.0), current_a=0.5, duration_s=1.0),),
    )
    found = study(Case(design(light=EVERY_DAY, load=load)))
    # Two runs a day of half a volt each; the course begins and ends each day full.
    assert found.lowest_between_v == pytest.approx(found.extremes.lowest_store_v + 0.5, abs=0.01)


def test_every_run_is_served_where_the_light_is_ample():
    load = sleeper(sleep_A=1e-6, operations=(beep(Every(interval_s=600.0), current_a=1e-3),))
    found = study(Case(design(load=load)))
    assert found.served[0] == pytest.approx(found.wanted[0], abs=1.0)
    assert found.wanted == (1008.0,)


def test_a_cell_outside_its_temperature_gets_no_charge():
    cold = Light(illuminance_lx=1000.0, pattern=SteadyPattern(), ambient_C=-5.0)
    charger = ConverterCharger(full_V=4.1)
    load = Load(connect_V=3.5, disconnect_V=3.1, minimum_V=3.0)
    found = study(Case(Scenario(light=cold, charger=charger, store=CellStore(), load=load)))
    assert found.available_c == 0.0
    assert found.first.seconds == inf


def test_a_log_that_is_missing_is_named():
    light = Light(illuminance_lx=None, pattern=LogPattern())
    with pytest.raises(ValueError, match="no log was read"):
        study(Case(design(light=light)))
