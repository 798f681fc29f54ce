"""Readings typed by hand become a logged run; what cannot be one is named by row and column."""

from datetime import date

import pytest

from explorer.files.bench_log import read_bench_log
from explorer.files.disk import FileError
from explorer.files.hand_readings import (
    HandRow,
    hand_run,
    latest_hand_run,
    read_hand_rows,
    save_hand_run,
)

TODAY = date(2026, 3, 2)


def rows(*cells):
    return [HandRow(time=c[0], volts=c[1], lux=c[2] if len(c) > 2 else "") for c in cells]


@pytest.mark.parametrize(
    "times",
    [
        ("0", "90", "3600"),
        ("0 s", "1.5 min", "1h"),
        ("14:00", "14:01:30", "15:00"),
        ("23:30", "23:31:30", "0:30:00"),
        ("2026-03-02 23:30", "23:31:30", "60 min"),
        ("2026-03-02T09:00:00", "2026-03-02 09:01:30", "0 h 60 min"),
    ],
)
def test_every_way_to_write_the_time_places_the_readings_alike(tmp_path, times):
    typed = rows(*((t, v, "") for t, v in zip(times, ("3,3", "3.2 V", "3100m"), strict=True)))
    found = hand_run(typed, TODAY)
    assert not found.complaints
    save_hand_run(tmp_path / "a.csv", found)
    run = read_bench_log(tmp_path / "a.csv")
    assert run.time_s.tolist() == [0.0, 90.0, 3600.0]
    assert run.volts.tolist() == [3.3, 3.2, 3.1]
    assert (run.start is None) == (times[0][0] == "0")


def test_light_is_kept_where_it_was_read(tmp_path):
    found = hand_run(rows(("0", "3", "200"), ("10", "3"), ("20", "3", "0.4 klx")), TODAY)
    save_hand_run(tmp_path / "a.csv", found)
    light = read_bench_log(tmp_path / "a.csv").light
    assert light.illuminance_lx.tolist()[0] == 200.0
    assert light.illuminance_lx.max() == 400.0


@pytest.mark.parametrize(
    ("typed", "where", "said"),
    [
        ((("0", "3"), ("x", "3")), (1, "time"), "is no time; allowed"),
        ((("0", "3"), ("5 min 3", "3")), (1, "time"), "is no time; allowed"),
        ((("0", "3"), ("14:00", "3")), (1, "time"), "use one kind"),
        ((("0", "3"), ("2026-03-02 14:00", "3")), (1, "time"), "use one kind"),
        ((("9:00", "3"), ("9:00", "3")), (1, "time"), "row above"),
        ((("0", "3"), ("60", "3"), ("50", "3")), (2, "time"), "row above"),
        ((("25:00", "3"),), (0, "time"), "no time of day"),
        ((("0", "x"),), (0, "volts"), "does not begin with a number"),
        ((("0", "3300"),), (0, "volts"), "out of range"),
        ((("0", "3", "-1"),), (0, "lux"), "out of range"),
        ((("0", "", "300"),), (0, "volts"), "Nothing was entered"),
    ],
)
def test_what_is_wrong_is_said_in_its_place_and_is_not_written(typed, where, said):
    found = hand_run(rows(*typed), TODAY)
    assert said in found.complaints[where]
    assert len(found.lines) == len(typed) - 1


def test_a_row_without_any_reading_is_passed_over():
    assert hand_run(rows(("0", "3"), ("later", ""), ("", "")), TODAY).complaints == {}


def test_a_run_is_taken_up_where_it_was_left(tmp_path):
    assert latest_hand_run(tmp_path) is None
    for name in ("2026-03-02 09.00.00 by hand.csv", "2026-03-01 10.00.00 by hand.csv"):
        save_hand_run(tmp_path / name, hand_run(rows(("9:00", "3"), ("9:05", "2.9", "30")), TODAY))
    (tmp_path / "other.csv").write_text("time,V\n", encoding="utf-8")
    path = latest_hand_run(tmp_path)
    assert path.name.startswith("2026-03-02")
    again = read_hand_rows(path)
    assert again[1] == HandRow(time="2026-03-02 09:05:00", volts="2.9", lux="30")
    assert hand_run(again, date(2027, 1, 1)).complaints == {}
    with pytest.raises(FileError, match="does not hold readings by hand"):
        read_hand_rows(tmp_path / "other.csv")


def test_a_decimal_comma_is_one_where_the_other_reading_cannot_be():
    """As people write where the comma parts decimals, with the digits that a meter shows."""
    found = hand_run(rows(("0", "4,477", ""), ("10", "4,4 V", "1,3")), TODAY)
    assert found.lines == (("0", 4.477, None), ("10", 4.4, 1.3))
    for volts, lux in (("4,477 mV", ""), ("4.4", "1,300"), ("4,47,7", "")):
        found = hand_run(rows(("0", volts, lux)), TODAY)
        assert found.lines == ()
        assert len(found.complaints) == 1
