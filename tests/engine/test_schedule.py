"""The device's clock: windows open and close to the moment."""

from dataclasses import replace

import pytest

from explorer.engine.schedule import Clock
from explorer.engine.system import DAY_S, WEEK_S, Operation, Periodic, Phase
from explorer.physics.load import Draw

HOUR_S = 3600.0


def operation(interval_s, *windows_h):
    return Operation(
        name="run",
        schedule=Periodic(
            interval_s=interval_s,
            windows_s=tuple((a * HOUR_S, b * HOUR_S) for a, b in windows_h),
        ),
        phases=(Phase(draw=Draw(current_a=1e-3), duration_s=1.0),),
    )


def starts(operation, until_s, begin_s=0.0, offset_s=0.0):
    """Moments at which a clock that begins at a time starts its one operation."""
    clock = Clock([operation], [False], offset_s)
    clock.start(begin_s)
    found, t = [], begin_s
    while t < until_s:
        before = clock.next_start[0]
        if clock.begin_due(t) and clock.busy:
            found.append(before)
        clock.end_phases(t)
        clock.look(t)
        t = clock.next_moment(t)
    return found


def test_an_operation_runs_from_the_opening_edge_and_not_at_the_closing_one():
    """Every ten minutes from 8 to 9 h: at 8:00, 8:10 ... 8:50, six times, and not at 9:00."""
    found = starts(operation(600.0, (8.0, 9.0)), DAY_S)
    assert found == pytest.approx([8 * HOUR_S + 600.0 * k for k in range(6)])


def test_a_device_that_wakes_at_the_closing_edge_waits_for_the_next_window():
    run = operation(600.0, (8.0, 9.0), (20.0, 21.0))
    assert starts(run, DAY_S, begin_s=9 * HOUR_S)[0] == pytest.approx(20 * HOUR_S)
    assert starts(run, WEEK_S + DAY_S, begin_s=21 * HOUR_S)[0] == pytest.approx(
        WEEK_S + 8 * HOUR_S
    )


def test_windows_lie_in_the_week_wherever_the_run_begins():
    """Two hours after Monday midnight the window from 8 h is six hours away."""
    found = starts(operation(600.0, (8.0, 9.0)), DAY_S, offset_s=2 * HOUR_S)
    assert found[0] == pytest.approx(6 * HOUR_S)


@pytest.mark.parametrize("begin_s", [0.0028, 0.1, 1.0 / 3.0, 28_000.1])
def test_after_decades_too_a_window_that_has_opened_is_open(begin_s):
    """A moment of the fortieth year has seven digits less than one of the first week."""
    once_a_week = operation(600.0, (begin_s / HOUR_S, 18.0))
    schedule = once_a_week.schedule
    for week in (0, 1, 9, 28, 29, 200, 1000, 2086):
        for offset_s in (0.0, 0.7, 3.0 * DAY_S + 0.1):
            clock = Clock([once_a_week], [False], offset_s)
            opens = clock.open_from(schedule, week * WEEK_S - HOUR_S * 0.5)
            assert clock.open_from(schedule, opens) == opens
            clock.start(opens)
            assert clock.due == (0,)
            assert clock.window_edge > opens + HOUR_S
            assert clock.next_moment(opens) > opens


def test_a_run_of_a_nanosecond_ends_later_than_it_begins_after_decades_too():
    short = replace(
        operation(600.0, (0.0, 168.0)), phases=(Phase(draw=Draw(current_a=1e-3), duration_s=1e-9),)
    )
    for t in (0.0, 1e7, 1.2e9):
        clock = Clock([short], [False], 0.0)
        clock.start(t)
        clock.begin_due(t)
        assert clock.phase_end(0) > t
        assert clock.next_moment(t) > t
