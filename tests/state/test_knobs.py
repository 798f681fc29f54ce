import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.advice.case import Case
from explorer.advice.stops import (
    CAPACITANCE_STOPS,
    LIGHT_STOPS,
    decades,
    largest_phase_path,
)
from explorer.scenario.demand import Load, Operation, Phase
from explorer.scenario.light import Light, LogPattern
from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.storage import CellStore
from explorer.state.document import Document
from explorer.state.knobs import knob_value, knobs_for

POWER = Scenario(
    load=Load(operations=(Operation(phases=(Phase(power_W=0.05, duration_s=0.1),)),))
)
RESISTANCE = Scenario(
    load=Load(operations=(Operation(phases=(Phase(resistance_ohm=47.0, duration_s=0.1),)),))
)
CELL = Scenario(store=CellStore())
ALL_KNOBS = list(
    dict.fromkeys(k for s in (Scenario(), POWER, RESISTANCE, CELL) for k in knobs_for(s))
)
"""Each once: most are the same in all of these."""
EVERY = pytest.mark.parametrize("knob", ALL_KNOBS, ids=lambda k: k.path)


@EVERY
@given(data=st.data())
def test_a_stop_is_found_at_its_own_place(knob, data):
    position = data.draw(st.integers(0, len(knob.stops) - 1))
    assert knob.position(knob.value(position)) == position


@EVERY
@given(data=st.data())
def test_the_nearest_stop_by_ratio_is_chosen(knob, data):
    value = data.draw(st.floats(knob.stops[0], knob.stops[-1]))
    chosen = knob.stops[knob.position(value)]
    distance = [max(s / value, value / s) for s in knob.stops]
    assert max(chosen / value, value / chosen) == pytest.approx(min(distance))


@EVERY
@given(data=st.data())
def test_one_step_up_goes_to_the_next_stop_above(knob, data):
    value = data.draw(st.floats(knob.stops[0], knob.stops[-1]))
    above = [s for s in knob.stops if s > value]
    assert knob.step(value, 1) == (above[0] if above else knob.stops[-1])


@EVERY
@given(data=st.data())
def test_one_step_down_goes_to_the_next_stop_below(knob, data):
    value = data.draw(st.floats(knob.stops[0], knob.stops[-1]))
    below = [s for s in knob.stops if s < value]
    assert knob.step(value, -1) == (below[-1] if below else knob.stops[0])


@EVERY
@given(data=st.data())
def test_the_handle_moves_with_the_value(knob, data):
    low, high = sorted(data.draw(st.tuples(*[st.floats(knob.low, knob.high)] * 2)))
    assert 0 <= knob.fraction(low) <= knob.fraction(high) <= 1


@EVERY
def test_the_handle_of_a_stop_stands_on_it(knob):
    last = len(knob.stops) - 1
    for index, stop in enumerate(knob.stops):
        assert knob.fraction(stop) == pytest.approx(index / last)


@EVERY
def test_stops_rise_and_lie_in_the_range_of_the_model(knob):
    assert all(a < b for a, b in itertools.pairwise(knob.stops))
    assert knob.low <= knob.stops[0]
    assert knob.stops[-1] <= knob.high


@EVERY
def test_landmarks_lie_on_the_track(knob):
    for mark in knob.landmarks:
        assert knob.stops[0] <= mark.low <= mark.high <= knob.stops[-1]


def test_the_model_takes_every_stop():
    scenario = Scenario()
    for knob in knobs_for(scenario):
        for stop in knob.stops:
            value = int(stop) if knob.whole else stop
            assert get_value(with_value(scenario, knob.path, value), knob.path) == stop


def test_light_walks_its_steps_in_every_decade():
    assert LIGHT_STOPS[:11] == (10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
    assert LIGHT_STOPS[-1] == 100_000


def test_storage_walks_the_e12_series_from_100_uf_to_100_f():
    # IEC 60063: 12 values a decade, six decades and the upper end.
    assert len(CAPACITANCE_STOPS) == 73
    assert 0.47 in CAPACITANCE_STOPS
    assert (CAPACITANCE_STOPS[0], CAPACITANCE_STOPS[-1]) == (1e-4, 100)


def test_decades_end_with_their_end():
    assert decades((1.0,), -1, 1) == (0.1, 1.0, 10.0)


def test_a_cell_takes_the_place_of_the_capacitance():
    assert [k.path for k in knobs_for(CELL)][2] == "store.capacity_mAh"
    assert knobs_for(CELL)[2].unit == "mAh"


def test_the_load_knob_moves_the_largest_phase_in_its_own_unit():
    phases = (
        Phase(name="measure", current_A=0.002, duration_s=0.1),
        Phase(name="send", power_W=0.1, duration_s=0.01),
        Phase(name="lamp", resistance_ohm=10_000.0, duration_s=1.0),
    )
    scenario = Scenario(load=Load(operations=(Operation(phases=phases),)))
    knob = knobs_for(scenario)[3]
    assert knob.path == "load.operations.0.phases.1.power_W"
    assert knob.unit == "W"


def test_the_person_picks_the_operation_that_the_load_knob_moves():
    second = Operation(name="valve", phases=(Phase(current_A=0.3, duration_s=0.02),))
    scenario = Scenario(load=Load(operations=(Operation(), second)))
    assert largest_phase_path(scenario, 1) == "load.operations.1.phases.0.current_A"
    assert largest_phase_path(scenario, 9) == "load.operations.1.phases.0.current_A"


def test_without_operations_the_start_up_is_moved_and_without_that_the_sleep_current():
    idle = Scenario(load=Load(operations=()))
    assert largest_phase_path(idle, 0) == "load.start_up.0.current_A"
    asleep = Scenario(load=Load(operations=(), start_up=()))
    assert knobs_for(asleep)[3].label == "Sleep current"


def test_an_empty_light_level_shows_the_mean_of_the_log():
    import numpy as np

    from explorer.scenario.light_log import LightLog

    log = LightLog(
        time_s=np.array([0.0, 3600.0, 7200.0, 10_800.0]),
        illuminance_lx=np.array([0.0, 200.0, 400.0]),
        start=None,
        step_s=3600.0,
    )
    scenario = Scenario(light=Light(illuminance_lx=None, pattern=LogPattern()))
    assert knob_value(Case(scenario, log), knobs_for(scenario)[0]) == pytest.approx(300.0)


def test_a_log_is_shown_by_three_digits_of_its_mean(qapp):
    path = Path(__file__).parents[2] / "scenarios" / "seminar_room_co2.json"
    document = Document(Scenario())
    document.open(path)
    light = knobs_for(document.scenario)[0]
    shown = knob_value(document.case, light)
    assert shown == float(f"{shown:.3g}")
    assert shown == pytest.approx(document.log.mean_lit_lx, rel=0.005)
