"""A measured light log is taken as it was measured, and what is missing in it is said."""

import csv
import itertools
import os
from datetime import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.files import logs
from explorer.files.logs import LogError, LogRules, read_light_log, resolve_log
from explorer.files.table_reader import parts, source
from explorer.files.table_reader.told import Undecided
from explorer.resource_files import resource_path
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

NO_UNIT = "The times name no unit and are taken as seconds."
OFFICE = resource_path("logs", "office_lux_1min.csv")


@pytest.fixture
def log_of(tmp_path):
    def write(text, **rules):
        path = tmp_path / "desk.csv"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_light_log(path, LogRules(**rules))

    return write


def following(file, **said):
    return Scenario.model_validate({"light": {"pattern": {"kind": "log", "file": file, **said}}})


# --- the measured office ------------------------------------------------------------------


def test_the_office_log_keeps_every_lux_hour_of_the_file():
    with OFFICE.open(newline="") as file:
        lux = [float(row["lux"]) for row in csv.DictReader(file)]
    log = read_light_log(OFFICE)
    assert len(lux) == 20_560
    assert log.lux_hours == pytest.approx(sum(lux) / 60.0, rel=1e-12)
    assert log.lux_hours == pytest.approx(44_806, abs=0.5)


def test_the_office_log_tells_its_two_gaps():
    with OFFICE.open(newline="") as file:
        times = [datetime.fromisoformat(row["time"]) for row in csv.DictReader(file)]
    waits_h = [(b - a).total_seconds() / 3600 for a, b in itertools.pairwise(times)]
    missing_h = [wait for wait in waits_h if wait > 0.1]
    log = read_light_log(OFFICE)
    # The last reading before a gap holds for its minute.
    assert [(to - since + 60) / 3600 for since, to in log.gaps] == pytest.approx(missing_h)
    assert missing_h == pytest.approx([7.13, 29.25], abs=0.005)
    assert log.notes == (
        "Times jittering by up to 1 s were placed on even steps of 60 s.",
        "No reading for 7.13 h after 2015-02-04 10:43; these count as dark.",
        "No reading for 29.2 h after 2015-02-10 09:33; these count as dark.",
    )
    assert log.duration_s == pytest.approx((times[-1] - times[0]).total_seconds() + 60, abs=1)


def test_the_office_log_knows_its_hour_and_weekday():
    log = read_light_log(OFFICE)
    assert log.start == datetime(2015, 2, 2, 14, 19)
    assert log.weekday == 0  # 2 February 2015 was a Monday
    assert log.start_of_day_s == log.start_of_week_s == 14 * 3600 + 19 * 60


def test_held_gaps_add_light_only_where_the_last_reading_was_lit():
    dark, held = read_light_log(OFFICE), read_light_log(OFFICE, LogRules(gaps="hold"))
    added = sum(
        (to - since) / 3600 * dark.illuminance_lx[np.searchsorted(dark.time_s, since) - 1]
        for since, to in dark.gaps
    )
    assert held.lux_hours == pytest.approx(dark.lux_hours + added, rel=1e-12)
    assert held.lux_hours > dark.lux_hours


# --- steps, gaps and forms of writing -----------------------------------------------------


def test_each_reading_holds_for_the_step_and_a_gap_is_dark(log_of):
    log = log_of("time,lux\n0,100\n60,200\n120,300\n600,400\n660,0\n")
    assert log.time_s.tolist() == [0, 60, 120, 180, 600, 660, 720]
    assert log.illuminance_lx.tolist() == [100, 200, 300, 0, 400, 0]
    assert log.gaps == ((180, 600),)
    assert log.notes == (NO_UNIT, "No reading for 8 min after 2 min; these count as dark.")
    assert log.dark_s == 480
    assert log.mean_lit_lx == 250
    assert log.start is None
    assert (log.weekday, log.start_of_day_s) == (0, 0)


def test_a_gap_can_hold_the_last_reading(log_of):
    log = log_of("time,lux\n0,100\n60,200\n120,300\n600,400\n", gaps="hold")
    assert log.illuminance_lx.tolist() == [100, 200, 300, 300, 400]
    assert log.notes == (NO_UNIT, "No reading for 8 min after 2 min; these hold the last reading.")


def test_a_few_missed_readings_are_no_night(log_of):
    # Four steps are missing, then six: the first hold, the second count as the scenario says.
    text = "time_s,lux\n0,10\n60,20\n120,30\n420,40\n480,50\n900,60\n960,70\n"
    log = log_of(text)
    assert log.illuminance_lx.tolist() == [10, 20, 30, 30, 40, 50, 0, 60, 70]
    short = "1 short gaps of up to 4 min, together 4 min, hold the reading before them."
    assert log.notes[0] == short
    assert log.notes[1].startswith("No reading for 7 min after 8 min")
    strict = log_of(text, hold_steps=0)
    assert strict.illuminance_lx.tolist() == [10, 20, 30, 0, 40, 50, 0, 60, 70]


def test_an_offset_in_the_dark_is_named_and_taken_off(log_of):
    lux = [4 if h % 24 < 8 else 304 for h in range(48)]
    rows = "".join(f"{h},{level}\n" for h, level in enumerate(lux))
    log = log_of("time_h,lux\n" + rows)
    assert log.floor_lx == 4
    assert log.dark_s == 0
    assert any(note.startswith("The light never falls below 4 lx") for note in log.notes)
    clean = log_of("time_h,lux\n" + rows, offset_lx=4)
    assert clean.floor_lx == 0
    assert clean.mean_lit_lx == 300
    assert "4 lx were taken off every reading." in clean.notes
    assert log_of("time_h,lux\n" + rows, offset_lx=6).illuminance_lx.min() == 0


def test_an_uneven_log_keeps_its_own_times(log_of):
    log = log_of("time,lux\n0,1\n100,2\n240,3\n330,4\n430,5\n")
    assert log.time_s.tolist() == [0, 100, 240, 330, 430, 530]
    uneven = "The step is uneven, about 100 s; each reading holds until the next."
    assert log.notes == (NO_UNIT, uneven)


def test_a_logger_with_a_slow_clock_is_not_squeezed(log_of):
    # 1.02 s a step, stamped in whole seconds: the median step is 1 s, the true one is not.
    rows = "".join(f"{int(i * 1.02)},100\n" for i in range(2000))
    log = log_of("time_s,lux\n" + rows)
    assert log.duration_s == pytest.approx(2000 * 1.02, abs=2)


@pytest.mark.parametrize(
    "text",
    [
        "time,lux\n2024-05-06 08:00,1.5\n2024-05-06 08:05,2.5\n",
        "timestamp;room;illuminance_lx\n2024-05-06T08:00:00;a;1,5\n2024-05-06T08:05:00;a;2,5\n",
        "Lux\tTime\n1,5\t2024-05-06 08:00\n2,5\t2024-05-06 08:05\n",
        '"time","lux"\r\n"2024-05-06 08:00","1.5"\r\n"2024-05-06 08:05","2.5"\r\n',
        "\ufeff# a remark\n\ntime, lux\n2024-05-06 08:00, 1.5\n# more\n2024-05-06 08:05, 2.5\n\n",
        "time,lux\n2024-05-06T08:00:00+02:00,1.5\n2024-05-06T06:05:00Z,2.5\n",
    ],
)
def test_the_same_log_may_be_written_in_several_ways(log_of, text):
    log = log_of(text)
    assert log.time_s.tolist() == [0, 300, 600]
    assert log.illuminance_lx.tolist() == [1.5, 2.5]
    assert log.start is not None
    assert log.start.replace(tzinfo=None) == datetime(2024, 5, 6, 8)
    assert log.notes == ()


def test_empty_readings_and_exact_repeats_are_left_out_and_reported(log_of):
    log = log_of("time,lux\n0,1\n60,2\n60,2\n120,\n180,4\n240,5\n")
    assert log.illuminance_lx.tolist() == [1, 2, 2, 4, 5]
    assert log.notes[1:3] == (
        "1 lines have no reading and were left out.",
        "1 lines repeat the line before and were left out.",
    )


@given(
    st.lists(st.tuples(st.integers(1, 400), st.floats(0, 2000)), min_size=2, max_size=40),
    st.sampled_from(["dark", "hold"]),
)
def test_the_edges_rise_and_no_light_is_lost_or_made(tmp_path_factory, steps, gaps):
    times = np.cumsum([step for step, _ in steps])
    lux = np.array([level for _, level in steps])
    path = tmp_path_factory.getbasetemp() / "steps.csv"
    rows = zip(times.tolist(), lux.tolist(), strict=True)
    path.write_text("time,lux\n" + "".join(f"{t},{x!r}\n" for t, x in rows))
    log = read_light_log(path, LogRules(gaps=gaps))
    assert np.all(np.diff(log.time_s) > 0)
    filled = sum(
        (to - since) * log.illuminance_lx[np.searchsorted(log.time_s, since)]
        for since, to in log.gaps
    )
    step = np.median(np.diff(times))
    waits = np.append(np.diff(times), step)
    uneven = any("uneven" in note for note in log.notes)
    held = np.where(waits > 1.5 * step, step, waits) if uneven else np.full(lux.size, step)
    assert log.lux_hours * 3600 - filled == pytest.approx(float(held @ lux), rel=1e-9, abs=1e-6)


# --- large files ---------------------------------------------------------------------------


@pytest.fixture(params=["columnar", "cell by cell"])
def large(request, monkeypatch):
    """Small files are read as large ones are, with and without the columnar reader."""
    monkeypatch.setattr(logs, "LARGE_BYTES", 1)
    monkeypatch.setattr(parts, "LARGE_BYTES", 1 if request.param == "columnar" else 1 << 40)
    monkeypatch.setattr(source.TextFile.blocks, "__defaults__", (2000,))
    monkeypatch.setattr(logs, "MOST_LEVELS", 100)


SECONDS = np.arange(5000)
BRIGHT = np.where(SECONDS < 2000, 0.0, 300.0 + SECONDS % 7)


def year(times, lux):
    return "time,lux\n" + "".join(f"{t},{x}\n" for t, x in zip(times, lux, strict=True))


@pytest.mark.parametrize("dated", [False, True])
def test_a_large_log_is_joined_to_means_that_keep_its_light(log_of, large, dated):
    moments = np.datetime64("2024-05-06T08:00:00") + SECONDS
    times = [str(m).replace("T", " ") for m in moments] if dated else SECONDS
    log = log_of(year(times, BRIGHT))
    assert log.readings == 5000
    assert log.step_s == 60.0
    assert log.lux_hours == pytest.approx(BRIGHT.sum() / 3600.0 * 5040 / 5000, rel=0.02)
    assert log.illuminance_lx[:33].tolist() == [0.0] * 33
    assert log.illuminance_lx[40] == pytest.approx(BRIGHT[2400:2460].mean())
    assert log.start == (datetime(2024, 5, 6, 8) if dated else None)
    assert "5000 readings were joined to means of 60 s." in log.notes


def test_a_gap_in_a_large_log_and_its_missing_readings_are_seen(log_of, large):
    keep = (SECONDS < 2400) | (SECONDS >= 3600)
    lux = [f"{x}" for x in BRIGHT]
    lux[10], lux[20] = "", "NaN"
    log = log_of(year(SECONDS[keep], np.array(lux)[keep]))
    assert log.readings == keep.sum() - 2
    assert log.gaps == ((2400.0, 3600.0),)
    assert "2 lines have no reading and were left out." in log.notes
    assert "Taken as no reading: 'NaN' (1)." in log.notes


def test_a_change_of_the_clock_moves_all_of_a_large_log_that_follows(log_of, large):
    minutes = np.arange(5000)
    shift = np.where(minutes < 27 * 60, 0, -60)
    stamps = np.datetime64("2024-10-26T00:00") + minutes + shift
    log = log_of(year([str(t).replace("T", " ") for t in stamps], minutes))
    assert log.duration_s == pytest.approx(5000 * 60.0, rel=0.02)
    assert log.gaps == ()
    assert [note for note in log.notes if "The clock goes back" in note] == [
        "The clock goes back from 2024-10-27 02:59 to 02:00; the time counts on from there by the "
        "clock before."
    ]


@pytest.mark.parametrize(
    ("line", "said"),
    [("4000,bright", "line 4002, column 'lux': the light is 'bright'"),
     ("4000,-5", "line 4002, column 'lux': the light is '-5'"),
     ("12,5", "line 4002: its time is "),
     ("4000,5,9", "line 4002: 3 columns found where"),
     ("noon,5", "line 4002: the time is 'noon'")],
)  # fmt: skip
def test_a_bad_line_deep_in_a_large_log_is_named(log_of, large, line, said):
    lines = year(SECONDS, BRIGHT).splitlines()
    lines[4001] = line
    with pytest.raises(LogError, match=said):
        log_of("\n".join(lines) + "\n")


def test_the_reading_of_a_large_log_tells_how_far_it_is_and_can_be_stopped(tmp_path, large):
    path = tmp_path / "desk.csv"
    path.write_text(year(SECONDS, BRIGHT))
    shares = []
    read_light_log(path, progress=shares.append)
    assert len(shares) > 10
    assert shares == sorted(shares)
    assert shares[-1] == 1.0

    def stop(share):
        if share > 0.3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        read_light_log(path, progress=stop)


# --- what cannot be used ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("time,lux\n0,1\n60,-4\n", "line 3, column 'lux': the light is '-4'; allowed is"),
        ("time,lux\n0,1\n60,bright\n", "line 3, column 'lux': the light is 'bright'; allowed is"),
        ("time,lux\n0,1\n60,999999\n", "line 3, column 'lux': the light is '999999'; allowed is"),
        ("# by hand\ntime,lux\n0,1\n\n60,x\n", "line 5, column 'lux': the light is 'x'"),
        ("time,lux\n0,1\n60,2\n30,3\n", "line 4: its time is 30 s before the line above; times"),
        ("time,lux\n0,1\n60,2\n60,3\n", "line 4: its time repeats the time of the line before"),
        ("time,lux\n2024-05-06,1\nlater,2\n", "line 3: the time is 'later'; allowed is a date"),
        ("time,lux\n0,1\nnan,2\n", "line 3: the time is 'nan'; allowed is a date"),
        ("time,lux\n0,1\n1e300,2\n", "line 3: the time is '1e300'; allowed is a date"),
        (
            "time,lux\n2024-05-06 08:00,1\n2024-05-06T08:05+00:00,2\n",
            "has times with and without a time zone",
        ),
        ("time,lux\n0,1\n60\n", "line 3: 1 columns found, at least 2 are needed."),
        ("time,light\n0,1\n", "column 'light' names no unit; write it into its heading"),
        ("0,1\n60,2\n", "begins with numbers; a line of names must stand above"),
        ("time,lux\n0,1\n", "holds 1 readings; at least 2 are needed."),
        ("time,lux\n0,1\n0,1\n", "holds 1 readings; at least 2"),
        ("time,lux\n", "holds 0 readings"),
        ("# only\n", "holds only remarks"),
        ('time,lux\n0,"1\n60,2\n', "a quotation mark that is never closed."),
        ("", "is empty; a light log was expected."),
        (b"time,lux\n\0\0", "holds no text, so it cannot be read as a table"),
    ],
)
def test_what_cannot_be_used_is_named_with_its_line(log_of, text, said):
    with pytest.raises(LogError) as caught:
        log_of(text)
    assert said in str(caught.value)
    assert str(caught.value).endswith(".")


def test_a_folder_and_a_missing_log_are_told_apart(tmp_path):
    with pytest.raises(LogError, match="is a folder; a light log is a file"):
        read_light_log(tmp_path)
    with pytest.raises(LogError, match="There is no file"):
        read_light_log(tmp_path / "none.csv")


@given(st.text())
def test_no_text_makes_it_fail_otherwise(tmp_path_factory, text):
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_bytes(("time,lux\n" + text).encode("utf-8", "surrogatepass"))
    try:
        log = read_light_log(path)
    except LogError:
        return
    assert np.all(np.diff(log.time_s) > 0)


# --- the log that a scenario names --------------------------------------------------------


def test_a_scenario_without_a_log_has_none():
    assert resolve_log(Scenario(), None) is None


def test_a_log_is_found_beside_the_scenario_before_the_shipped_ones(tmp_path):
    scenario = following("office_lux_1min.csv")
    shipped = resolve_log(scenario, tmp_path / "x.json")
    assert shipped is not None
    assert shipped.illuminance_lx.size == 20_562
    (tmp_path / "office_lux_1min.csv").write_text("time,lux\n0,5\n60,6\n")
    beside = resolve_log(scenario, tmp_path / "x.json")
    assert beside is not None
    assert beside.illuminance_lx.tolist() == [5, 6]
    assert resolve_log(scenario, None) is shipped


def test_a_log_is_read_again_when_its_file_changes(tmp_path):
    path = tmp_path / "desk.csv"
    path.write_text("time,lux\n0,5\n60,6\n")
    first = resolve_log(following("desk.csv"), tmp_path / "x.json")
    assert resolve_log(following("desk.csv"), tmp_path / "x.json") is first
    path.write_text("time,lux\n0,5\n60,7\n")
    os.utime(path, ns=(1, 1))
    again = resolve_log(following("desk.csv"), tmp_path / "x.json")
    assert again is not None
    assert again.illuminance_lx.tolist() == [5, 7]


@pytest.mark.parametrize("file", ["none.csv", "a" * 2900, "../none.csv"])
def test_a_log_that_is_nowhere_is_named_with_the_ones_there_are(tmp_path, file):
    with pytest.raises(LogError, match=r"no such log beside .* \(.*office_lux_1min\.csv"):
        resolve_log(following(file), tmp_path / "x.json")


@pytest.mark.parametrize("file", ["", " ", "a\0b"])
def test_a_log_without_a_name_says_so(file):
    with pytest.raises(LogError, match="names no log"):
        resolve_log(following(file), None)


OPEN_DATES = "time,lux\n03/04/2024 08:00,1\n03/04/2024 09:00,2\n04/04/2024 08:00,2\n"


def test_a_scenario_says_what_its_log_leaves_open(tmp_path):
    (tmp_path / "desk.csv").write_text(OPEN_DATES)
    with pytest.raises(Undecided, match=r"Say light\.pattern\.dates = dmy \(03/04/2024 is 2024"):
        resolve_log(following("desk.csv"), tmp_path / "x.json")
    for dates, start in (("dmy", datetime(2024, 4, 3, 8)), ("mdy", datetime(2024, 3, 4, 8))):
        log = resolve_log(following("desk.csv", dates=dates), tmp_path / "x.json")
        assert log is not None
        assert log.start == start


# --- the log itself -----------------------------------------------------------------------


def test_a_log_refuses_edges_that_do_not_fit():
    def log(edges, levels):
        return LightLog(
            time_s=np.array(edges), illuminance_lx=np.array(levels), start=None, step_s=60.0
        )

    assert log([0.0, 60.0], [5.0]).lux_hours == pytest.approx(5 / 60)
    assert log([0.0, 60.0], [0.0]).mean_lit_lx == 0.0
    with pytest.raises(ValueError, match="one more edge than levels"):
        log([0.0, 60.0], [5.0, 6.0])
    with pytest.raises(ValueError, match="must start at 0 s and rise"):
        log([0.0, 60.0, 60.0], [5.0, 6.0])
