"""The runs behind a verdict, on designs small enough for a pencil."""

from datetime import datetime
from math import inf, sqrt

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.readings import dark, times
from explorer.advice.readings.balance import wanted_runs
from explorer.advice.readings.dark import InTheDark, one_charge, worst_dark
from explorer.advice.readings.one import readings, study
from explorer.advice.readings.starts import full_charge_time
from explorer.engine.course import Standing
from explorer.engine.pulses import lowest_begins
from explorer.scenario.build import build
from explorer.scenario.demand import Every, Load, Operation, Phase, WhenReady
from explorer.scenario.light import Light, LitBlock, LogPattern, SteadyPattern, WeekPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Margins, Scenario, with_value
from explorer.scenario.storage import CapacitorStore, CellStore
from explorer.scenario.supply import ConverterCharger
from tests.depth import some

DAY_S, WEEK_S = 86_400.0, 604_800.0
BRIGHT = Light(illuminance_lx=1000.0, pattern=SteadyPattern())
DIM = Light(illuminance_lx=60.0, pattern=SteadyPattern())
DIMMEST = Light(illuminance_lx=1.0, pattern=SteadyPattern())
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
    case = Case(design())
    found = study(case)
    time_s, runs = one_charge(found.engine)
    assert time_s == pytest.approx(1.0 * (5.0 - 2.0) / 1e-3, rel=1e-6)
    assert runs == 0.0
    assert answers(case)["dark_time_s"] == pytest.approx(3000.0, rel=1e-6)


def test_operations_per_charge_are_the_charge_over_what_one_takes():
    load = sleeper(sleep_A=0.0, operations=(beep(Every(interval_s=10.0)),))
    found = answers(Case(design(load=load)))
    # 3 C between full and the cut-off, 10 mC a run: the last may be the one that cuts it off.
    assert found["operations_per_charge"] == pytest.approx(300.0, abs=1.0)
    assert found["dark_time_s"] == pytest.approx(3000.0, abs=11.0)


def test_a_reserve_that_is_kept_ends_the_charge_as_it_ends_the_dark_check():
    # 2.5 J above the cut-off at 2 V are there down to 3 V: two thirds of the three volts.
    found = answers(Case(design(load=sleeper(reserve_J=2.5, operations=()))))
    assert found["dark_time_s"] == pytest.approx(2000.0, rel=1e-3)


@pytest.mark.parametrize("reserve_j", [0.0, 2.5])
def test_what_is_too_long_to_follow_in_the_dark_goes_on_as_it_went(reserve_j, monkeypatch):
    by_day = beep(Every(interval_s=1800.0, from_h=6.0, to_h=18.0))
    load = sleeper(sleep_A=1e-6, operations=(by_day,), reserve_J=reserve_j)
    engine = study(Case(design(load=load))).engine
    full_c = engine.field.full_c
    whole = (*one_charge(engine), dark.InTheDark(engine).lasts(full_c, 0.0, inf))
    assert whole[0] > 5.0 * DAY_S
    monkeypatch.setattr(dark, "MOST_DARK_LEGS", 12)
    full = Standing(charge_c=full_c, connected=True)
    assert engine.dark().march(whole[0], full, most_legs=12).span_s < 0.8 * whole[0]
    short = (*one_charge(engine), dark.InTheDark(engine).lasts(full_c, 0.0, inf))
    assert short == pytest.approx(whole, rel=0.15)
    assert short != whole


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


def test_an_operation_that_waits_for_weeks_is_done_after_weeks():
    """From 0 to 4.9 V takes (4.9 / 5)² of the time to 5 V, at one power and without losses."""
    week = full_charge_time(study(Case(design())).engine) / WEEK_S
    store = ONE_FARAD.model_copy(update={"capacitance_F": 4.0 / week})
    load = sleeper(sleep_A=0.0, operations=(beep(WhenReady(ready_V=4.9), current_a=1e-3),))
    found = answers(Case(design(store=store, load=load)))
    assert found["first_operation_s"] == pytest.approx(4.0 * WEEK_S * (4.9 / 5.0) ** 2, rel=0.01)


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
    case = Case(design(light=light))
    found = study(case)
    assert found.first.seconds == inf
    assert found.first.stuck_v == 0.0
    assert float(readings(case).brought_w[0]) == 0.0
    assert answers(case)["full_charge_s"] == inf
    assert answers(case)["recovery_s"] == inf


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
    assert [float(w) for w in wanted_runs(system, WEEK_S)] == [10.0, 10_080.0, 21.0]


def test_a_window_holds_whole_runs_also_for_many_designs():
    """Five starts in 8 to 12:30 at one an hour, three at one in two hours."""
    schedule = Every(interval_s=3600.0, days=("mon",), from_h=8.0, to_h=12.5)
    scenario = design(load=sleeper(operations=(beep(schedule),)))
    path = "load.operations.0.schedule.interval_s"
    system = Case(scenario).varied({path: [3600.0, 7200.0]}).system
    assert np.ravel(wanted_runs(system, WEEK_S)[0]).tolist() == [5.0, 3.0]


def test_a_window_shorter_than_the_interval_sees_a_run_only_when_one_is_due():
    """Every 40 h within 9 to 10 on Monday to Wednesday: Monday, and Wednesday, not Tuesday."""
    schedule = Every(
        interval_s=144_000.0, days=("mon", "tue", "wed"), from_h=9.0, to_h=10.0
    )
    system = build(design(load=sleeper(operations=(beep(schedule),))))
    assert wanted_runs(system, WEEK_S) == [2.0]


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
    case = Case(design(light=light, load=load), log)
    assert readings(case).wanted.tolist() == [[runs]]
    assert study(case).course.run.span_s == pytest.approx(2 * DAY_S)


def test_the_dark_saturday_of_a_log_is_paid_for_at_saturdays_rate():
    load = sleeper(sleep_A=0.0, operations=(beep(on_days("sat")),))
    light = Light(illuminance_lx=None, pattern=LogPattern())
    dark = readings(Case(design(light=light, load=load), weekend())).dark
    assert dark.begin_v[0] == pytest.approx(5.0, abs=0.06)
    # 10 mA for 1 s in 10 s: 1 mA from 5 V down to 2 V.
    assert dark.lasts_s[0] == pytest.approx((dark.begin_v[0] - 2.0) / 1e-3, rel=0.01)
    assert dark.needed_s[0] == pytest.approx(DAY_S)


def test_the_mean_draw_adds_up_everything_that_is_wanted():
    store = CapacitorStore(capacitance_F=1.0, esr_ohm=0.0, leakage_A=2e-6, rated_V=6.0)
    charger = ConverterCharger(quiescent_A=3e-6, full_V=5.0)
    load = sleeper(sleep_A=1e-6, operations=(beep(Every(interval_s=100.0)),))
    found = readings(Case(design(store=store, charger=charger, load=load)))
    # Everything falls with the voltage here: it is least at the cut-off.
    expected = 1e-6 + 3e-6 + 2e-6 * 2.0 / 6.0 + 0.01 * 1.0 / 100.0
    assert found.level_v[0] == pytest.approx(2.0)
    assert found.taken_w[0] == pytest.approx(2.0 * expected, rel=1e-3)


# -- dark stretches -------------------------------------------------------------------------------


def test_nights_between_lit_days_are_the_dark_stretches():
    case = Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-6)))
    gaps = study(case).gaps
    assert [g.length_s for g in gaps] == pytest.approx([14 * 3600.0] * 7)
    assert {g.begin_s % DAY_S for g in gaps} == {18 * 3600.0}
    assert readings(case).dark.needed_s[0] == 14 * 3600.0
    assert answers(case)["longest_dark_s"] == 14 * 3600.0


def test_a_device_that_is_off_whenever_the_dark_begins_is_told_so():
    """A sleep current of an ampere: it cuts off within seconds of each connect, and waits."""
    dark = next(
        check for check in assess(Case(with_value(Scenario(), "load.sleep_A", 1.0))).verdict.checks
        if check.name == "dark"
    )
    assert (dark.value, dark.margin) == (0.0, 0.0)
    assert dark.sentence == (
        "Whenever the dark begins, the device is off already; the dark stretch lasts 2.58 d."
    )


@pytest.mark.parametrize("days", [1e-30, 1e-15, 1e-9])
def test_a_closure_shorter_than_any_moment_is_survived(days):
    """A file may ask for a closure of no time at all."""
    light = Light(illuminance_lx=1000.0, pattern=SteadyPattern())
    scenario = with_value(Scenario(light=light), "margins.closure_days", days)
    dark = next(c for c in assess(Case(scenario)).verdict.checks if c.name == "dark")
    assert dark.state == "runs"
    assert dark.limit == pytest.approx(days * DAY_S)
    batch = fleet(Case(scenario), {"panels.count": np.array([1.0, 2.0])})
    assert np.isfinite(batch.codes).all()


NO_HOURS = Light(illuminance_lx=1000.0, pattern=WeekPattern(blocks=()))


@pytest.mark.parametrize("light", [DIMMEST, NO_HOURS], ids=["too dim", "no lit hours"])
def test_where_light_never_brings_anything_the_dark_has_no_end(light):
    """Steady or by the clock; no store lasts that long, so a design fails it, alone or of many."""
    case = Case(design(light=light, load=sleeper(sleep_A=1e-6)))
    assert study(case).gaps == (dark.Gap(begin_s=0.0, length_s=inf, stretch=0),)
    assert answers(case)["longest_dark_s"] == inf
    found = {check.name: check for check in judge(case).checks}["dark"]
    assert (found.limit, found.margin, found.state) == (inf, 0.0, "falls_short")
    assert found.sentence.endswith("the light never brings it anything.")
    capacitance = {"store.capacitance_F": np.array([0.5, 1.0])}
    many = fleet(case, capacitance, with_answers=True)
    assert many.margins["dark"].tolist() == [0.0, 0.0]
    assert many.answers["longest_dark_s"].tolist() == [inf, inf]


def test_a_device_that_takes_nothing_lasts_through_a_dark_without_end():
    case = Case(design(light=NO_HOURS, load=sleeper(sleep_A=0.0)))
    found = study(case)
    read = worst_dark(found.repeating, [dark.Gap(begin_s=0.0, length_s=inf, stretch=0)], 0.0,
                      InTheDark(found.engine))
    assert times(read.lasts_s, read.needed_s)[0] == inf


@pytest.mark.parametrize("light", [BRIGHT, DIM], ids=["ample", "too little"])
def test_steady_light_leaves_no_dark_stretch_whatever_the_balance(light):
    case = Case(design(light=light, load=sleeper(sleep_A=1e-6)))
    assert study(case).gaps == ()
    assert readings(case).dark.needed_s[0] == 0.0
    assert answers(case)["longest_dark_s"] == 0.0


def test_dim_light_that_brings_something_is_no_darkness():
    """At night 5 % of the day's light still charges, though far less than the device takes."""
    night = LitBlock(from_h=0.0, to_h=24.0, relative_level=0.05)
    lit = LitBlock(from_h=8.0, to_h=18.0, relative_level=0.95)
    light = Light(illuminance_lx=1000.0, pattern=WeekPattern(blocks=(night, lit)))
    case = Case(design(light=light))
    assert {g.length_s for g in study(case).gaps} == {2 * DAY_S}


def test_a_declared_closure_is_no_dark_stretch_of_the_light():
    case = Case(design(light=EVERY_DAY, margins=Margins(closure_days=9.0)))
    assert readings(case).dark.needed_s[0] == 9 * DAY_S
    assert answers(case)["longest_dark_s"] == 14 * 3600.0


def test_a_closure_is_survived_from_the_lowest_evening():
    margins = Margins(closure_days=2.0)
    case = Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-5), margins=margins))
    dark = readings(case).dark
    assert dark.closure[0]
    assert dark.needed_s[0] == 2 * DAY_S
    assert dark.lasts_s[0] == pytest.approx((dark.begin_v[0] - 2.0) / 1e-5, rel=0.01)


def test_another_closure_changes_no_run_and_is_answered_as_if_it_were_alone():
    load = sleeper(sleep_A=1e-4, operations=(beep(Every(interval_s=7.0)),))
    case = Case(design(light=EVERY_DAY, load=load))
    found = study(case)
    readings(case)
    for days in some((9.0, 0.01, 0.3, 0.02, 2.0), 2):
        other = case.with_value("margins.closure_days", days)
        assert study(other) is found
        alone = readings(Case(other.scenario)).dark
        assert repr(readings(other).dark) == repr(alone)
    assert study(case.with_value("load.sleep_A", 2e-4)) is not found


def test_a_reserve_lifts_the_floor_by_its_energy():
    # One farad cut off at 2 V: 2.5 J more stand at sqrt(2^2 + 2 x 2.5) = 3 V.
    assert sqrt(2.0**2 + 2 * 2.5) == 3.0
    load = sleeper(sleep_A=1e-5, reserve_J=2.5)
    kept = readings(Case(design(light=EVERY_DAY, load=load))).dark
    spent = readings(Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-5)))).dark
    assert spent.lasts_s[0] - kept.lasts_s[0] == pytest.approx((3.0 - 2.0) / 1e-5, rel=0.01)


def test_a_reserve_that_is_gone_before_the_end_of_the_search_is_seen():
    """Cut off later than the search goes, but down to its reserve within it."""
    load = sleeper(sleep_A=5e-8, reserve_J=12.0 - 0.5)
    found = readings(Case(design(light=EVERY_DAY, load=load)))
    # 10.5 J lie above 2 V at full.
    assert found.dark.lasts_s[0] < 1.0


# -- pulses and service ---------------------------------------------------------------------------


def test_a_device_that_waits_for_a_voltage_begins_there():
    load = sleeper(
        sleep_A=1e-6,
        operations=(beep(WhenReady(ready_V=4.5), current_a=0.5, duration_s=1.0),),
    )
    found = study(Case(design(load=load)))
    begin_v = lowest_begins(found.engine, found.course.run)[0]
    assert begin_v == pytest.approx(4.5, abs=1e-6)
    assert found.extremes.lowest_store_v == pytest.approx(4.0, abs=0.01)


def test_the_lowest_beginning_of_a_clocked_pulse_is_before_its_ramp():
    load = sleeper(
        sleep_A=0.0,
        operations=(beep(Every(interval_s=43_200.0), current_a=0.5, duration_s=1.0),),
    )
    found = study(Case(design(light=EVERY_DAY, load=load)))
    # Two runs a day of half a volt each; the course begins and ends each day full.
    begin_v = lowest_begins(found.engine, found.course.run)[0]
    assert begin_v == pytest.approx(found.extremes.lowest_store_v + 0.5, abs=0.01)


def test_every_run_is_served_where_the_light_is_ample():
    load = sleeper(sleep_A=1e-6, operations=(beep(Every(interval_s=600.0), current_a=1e-3),))
    found = readings(Case(design(load=load)))
    assert found.served[0, 0] == pytest.approx(found.wanted[0, 0], abs=1.5)
    assert found.wanted[0, 0] == pytest.approx(1008.0)


def test_a_cell_outside_its_temperature_gets_no_charge():
    cold = Light(illuminance_lx=1000.0, pattern=SteadyPattern(), ambient_C=-5.0)
    charger = ConverterCharger(full_V=4.1)
    load = Load(connect_V=3.5, disconnect_V=3.1, minimum_V=3.0)
    case = Case(Scenario(light=cold, charger=charger, store=CellStore(), load=load))
    assert readings(case).brought_w[0] == 0.0
    assert study(case).first.seconds == inf


def test_a_log_that_is_missing_is_named():
    light = Light(illuminance_lx=None, pattern=LogPattern())
    with pytest.raises(ValueError, match="no log was read"):
        study(Case(design(light=light)))


def test_a_reserve_that_a_pulse_passes_is_gone_with_that_pulse():
    """A run takes 0.8 V: the third falls through the reserve at 3 V, before the cut-off at 2 V."""
    load = sleeper(
        sleep_A=1e-7, reserve_J=2.5,
        operations=(beep(Every(interval_s=10_000.0), current_a=0.8, duration_s=1.0),),
    )
    found = answers(Case(design(load=load)))
    # From 5 V: 4.2, 3.4, and 2.6 within the third run, after half of it.
    assert found["dark_time_s"] == pytest.approx(20_000.5, abs=0.1)
    assert found["operations_per_charge"] == pytest.approx(2.0)


@pytest.mark.parametrize(("reserve_j", "lasts_s"), [(2.503, 30_000.9985), (2.497, 40_000.0015)])
def test_a_reserve_lies_within_the_run_that_passes_it(reserve_j, lasts_s):
    """Each run takes 2 J: v² falls from 25 by 4, to 9 in the fourth run; 4 + 2 E are kept."""
    run = Operation(
        name="beep", schedule=Every(interval_s=10_000.0),
        phases=(Phase(power_W=2.0, duration_s=1.0),),
    )
    load = sleeper(sleep_A=0.0, reserve_J=reserve_j, operations=(run,))
    found = answers(Case(design(load=load)))
    assert found["dark_time_s"] == pytest.approx(lasts_s, abs=1e-3)


def test_a_closure_shorter_than_the_nights_lasts_what_is_declared():
    """It is judged beside the nights: 14 h are the worse of the two."""
    margins = Margins(closure_days=0.1)
    case = Case(design(light=EVERY_DAY, load=sleeper(sleep_A=1e-5), margins=margins))
    dark = readings(case).dark
    assert not dark.closure[0]
    assert dark.needed_s[0] == 14 * 3600.0


def test_an_operation_that_cuts_off_as_it_begins_begins_there():
    """By night 2 C of 0.5 F: each hour 0.5 V across the resistance, below the cut-off at last."""
    store = CapacitorStore(capacitance_F=0.5, esr_ohm=10.0, leakage_A=0.0, rated_V=6.3)
    load = sleeper(
        sleep_A=4e-5, operations=(beep(Every(interval_s=3600.0), current_a=0.05, duration_s=0.01),),
    )
    found = study(Case(design(light=EVERY_DAY, store=store, load=load)))
    assert found.course.run.tally.cut_offs > 0
    begin_v = lowest_begins(found.engine, found.course.run)[0]
    assert 2.0 < begin_v < 2.0 + 0.5


@pytest.mark.parametrize("days", [
    ("mon", "tue", "wed", "thu", "fri", "sat", "sun"), ("mon", "tue", "thu", "sat"),
])
def test_of_nights_with_the_same_hours_open_the_hardest_alone_is_followed(days, monkeypatch):
    """The verdict on the dark is that of following every night, with far fewer marches."""
    every = Every(interval_s=600.0, days=days, from_h=19.0, to_h=23.0)
    load = sleeper(sleep_A=2e-5, operations=(beep(every, current_a=0.02),))
    lasts, followed = dark.InTheDark.lasts, []
    monkeypatch.setattr(
        dark.InTheDark, "lasts", lambda *given: followed.append(1) or lasts(*given)
    )
    few = readings(Case(design(light=EVERY_DAY, load=load))).dark
    count = len(followed)
    monkeypatch.setattr(dark, "_hardest", lambda _, levels: levels)
    followed.clear()
    every_one = readings(Case(design(light=EVERY_DAY, load=load))).dark
    assert (few.lasts_s[0], few.needed_s[0]) == (every_one.lasts_s[0], every_one.needed_s[0])
    assert len(followed) >= 7
    assert count <= 3 if len(days) == 7 else count <= len(followed)


def test_hours_of_the_week_are_those_of_every_day_or_not():
    day = ((0.0, 3600.0), (7200.0, 9000.0))
    every = tuple((n * DAY_S + a, n * DAY_S + b) for n in range(7) for a, b in day)
    assert dark._daily(every)
    assert not dark._daily(every[:-1])
    assert not dark._daily((*every[:-1], (every[-1][0], every[-1][1] + 60.0)))
    assert not dark._daily((*every[:-1], (every[-1][0] - 60.0, every[-1][1] - 60.0)))
