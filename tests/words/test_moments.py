import itertools

from hypothesis import given
from hypothesis import strategies as st

from explorer.words.moments import clock, time_ticks

DAY = 86_400.0


def labels(*args, **more):
    return [tick.label for tick in time_ticks(*args, **more)]


def test_a_week_is_labelled_with_its_days():
    assert [x for x in labels(0, 7 * DAY, 9, True) if x] == [
        "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun",
    ]


def test_a_name_stands_at_noon_of_its_day():
    named = {t.label: t.time_s for t in time_ticks(0, 7 * DAY, 9, True)}
    assert named["Tue"] == 1.5 * DAY


def test_a_log_that_begins_on_a_thursday_afternoon_keeps_its_weekdays():
    ticks = time_ticks(0, 4 * DAY, 8, True, offset_s=3.6 * DAY)
    assert [t.label for t in ticks if t.label] == ["Fri", "Sat", "Sun", "Mon"]


def test_a_day_is_labelled_with_the_clock():
    assert labels(0, DAY, 8, True)[:3] == ["Mon", "03:00", "06:00"]


def test_without_a_calendar_hours_and_days_are_counted():
    assert labels(0, DAY, 8, False)[:3] == ["0 h", "3 h", "6 h"]
    assert labels(0, 30 * DAY, 5, False) == ["0 d", "7 d", "14 d", "21 d", "28 d"]


def test_short_spans_read_in_seconds_and_milliseconds():
    assert labels(0, 10, 5, False) == ["0 s", "2 s", "4 s", "6 s", "8 s", "10 s"]
    assert labels(-0.01, 0.02, 3, False) == ["−10 ms", "0 ms", "10 ms", "20 ms"]


def test_a_year_never_reads_in_kiloseconds():
    for label in labels(0, 365 * DAY, 7, True):
        assert label.endswith(" d")


@given(
    start=st.floats(0, 1e7),
    length=st.floats(1e-3, 4e7),
    most=st.integers(2, 20),
    weekdays=st.booleans(),
)
def test_ticks_rise_lie_inside_and_are_few(start, length, most, weekdays):
    end = start + length
    ticks = time_ticks(start, end, most, weekdays)
    times = [t.time_s for t in ticks]
    slack = 1e-6 * max(end, 1.0)
    assert all(a < b for a, b in itertools.pairwise(times))
    assert all(start - slack <= t <= end + slack for t in times)
    assert sum(bool(t.label) for t in ticks) <= max(most, 8) + 1


def test_the_clock_names_day_hour_and_week():
    assert clock(0.0, True) == "Mon 00:00"
    assert clock(6.5 * DAY, True) == "Sun 12:00"
    assert clock(7 * DAY + 60, True) == "Mon 00:01, week 2"
    assert clock(0.0, True, offset_s=3 * DAY) == "Thu 00:00"


def test_a_short_axis_has_one_unit_and_no_thousands_of_it():
    assert labels(0.0, 4.5e-3, 12, False) == [
        "0 ms", "0.5 ms", "1.0 ms", "1.5 ms", "2.0 ms", "2.5 ms", "3.0 ms", "3.5 ms", "4.0 ms",
        "4.5 ms",
    ]  # fmt: skip
    assert labels(0.0, 4e-4, 5, False)[-1] == "400 µs"
