"""Tables as loggers and spreadsheets write them are understood, or refused with what to do."""

from datetime import datetime

import pytest

from explorer.files.logs import read_light_log
from explorer.files.table_reader import reader, source
from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.reader import read_readings
from explorer.files.table_reader.told import LogError, Told, Undecided, ways
from explorer.files.table_reader.understanding import understand
from explorer.text import say

LIGHT = Wanted(quantity="light", lowest=0.0, highest=200_000.0)
VOLTS = Wanted(quantity="voltage", lowest=-0.5, highest=200.0, preferred=("terminal",))
AMPS = Wanted(quantity="current", lowest=-10.0, highest=10.0)
MORNING = datetime(2024, 5, 6, 8)


@pytest.fixture
def read(tmp_path):
    def reading(text, wanted=LIGHT, encoding="utf-8", timed=True, **told):
        path = tmp_path / "desk.csv"
        path.write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
        wanted = wanted if isinstance(wanted, tuple) else (wanted,)
        return read_readings(path, wanted, Told(**told), what=say("light log"), timed=timed)

    return reading


# --- one log, written in many ways --------------------------------------------------------

SAME_LOG = {
    "UTF-16": ("time,lux\n2024-05-06 08:00,1300.5\n2024-05-06 08:05,999\n", "utf-16"),
    "UTF-16 without a mark": ("time,lux\n2024-05-06 08:00,1300.5\n2024-05-06 08:05,999\n",
                              "utf-16-le"),
    "Latin-1": ("Zeit;Beleuchtungsstärke (lx)\r\n06.05.2024 08:00;1300,5\r\n"
                "06.05.2024 08:05;999\r\n", "latin-1"),
    "sep line, thousands": ("sep=;\nDate;Time;Light (lux)\n06/05/2024;8:00;1.300,5\n"
                            "13/05/2024;8:00;1.000\n", "utf-8"),
    "comma for thousands": ("time\tlux [lx]\n2024-05-06 08:00\t1,300.5\n"
                            "2024-05-06 08:05\t999\n", "utf-8"),
    "kilolux": ("Datetime,Illuminance (klx)\n2024-05-06T08:00,1.3005\n2024-05-06T08:05,0.999\n",
                "utf-8"),
    "preamble and units": ("Desk logger\nSerial;7\n\nDate/Time;Light;Temp\nyyyy-mm-dd;lx;°C\n"
                           "2024-05-06 08:00;1300,5;21,5\n2024-05-06 08:05;999;21,5\n", "utf-8"),
    "AM and PM": ("time,lux\n05/06/2024 8:00:00 AM,1300.5\n05/13/2024 1:00:00 PM,2\n", "utf-8"),
    "compact": ("timestamp,lux\n20240506080000,1300.5\n20240506080500,999\n", "utf-8"),
    "date and time of digits": ("date,time,lux\n20240506,80000,1300.5\n20240506,80500,999\n",
                                "utf-8"),
    "spreadsheet dates": ("time,lux\n45418.3333333333,1300.5\n45418.3368055556,999\n", "utf-8"),
    "named month": ("time,lux\n6 May 2024 08:00,1300.5\n6 May 2024 08:05,999\n", "utf-8"),
    "thousands by blanks": ("time;lux\n2024-05-06 08:00;1 300,5\n2024-05-06 08:05;999\n", "utf-8"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "encoding"), SAME_LOG.values(), ids=SAME_LOG)
def test_a_log_may_be_written_in_many_ways(read, text, encoding):
    found = read(text, encoding=encoding)
    assert found.start == MORNING
    assert found.values["light"][0] == pytest.approx(1300.5)
    assert found.time_s[0] == 0.0
    if "13/" not in text and "/13" not in text:
        assert found.time_s[1] == 300.0
        assert found.values["light"][1] == pytest.approx(999.0)


@pytest.mark.parametrize(
    ("heading", "cells", "step_s"),
    [
        ("time (min)", ("0", "1.5"), 90.0),
        ("t/h", ("0", "0.5"), 1800.0),
        ("time_ms", ("0", "250"), 0.25),
        ("time", ("0:59:30", "1:00:00"), 30.0),
        ("elapsed [mm:ss]", ("59:30", "60:00"), 30.0),
        ("time", ("59:30.0", "60:00.5"), 30.5),
        ("time", ("1700000000", "1700000060"), 60.0),
        ("time", ("1700000000000", "1700000060000"), 60.0),
        ("time_s", ("-0.5", "0.5"), 1.0),
    ],
)
def test_a_time_counts_by_its_unit_or_its_size(read, heading, cells, step_s):
    found = read(f"{heading},lux\n{cells[0]},1\n{cells[1]},2\n")
    assert found.time_s.tolist() == pytest.approx([0.0, step_s])


def test_small_currents_keep_their_unit(read):
    found = read("t/ms;I/µA;U/mV\n0;1,5;3300\n1;-2;3290\n".encode("latin-1"), (AMPS, VOLTS))
    assert found.values["current"].tolist() == pytest.approx([1.5e-6, -2e-6])
    assert found.values["voltage"].tolist() == pytest.approx([3.3, 3.29])
    assert [c.unit for c in found.columns] == ["ms", "µA", "mV"]


def test_a_curve_needs_no_times(read):
    found = read("V,mA\n0,5\n1,4\n0.5,4.5\n", (VOLTS, AMPS), timed=False)
    assert found.values["voltage"].tolist() == [0.0, 1.0, 0.5]
    assert found.time_s.tolist() == [0.0, 1.0, 2.0]


# --- what is missing, doubled or shifted ---------------------------------------------------


def test_codes_for_missing_readings_are_left_out_and_named(read):
    found = read("time_s,lux\n0,1\n1,NaN\n2,-9999\n3,OL\n4,n/a\n5,\n6,7\n")
    assert found.time_s.tolist() == [0.0, 6.0]
    assert "5 lines have no reading and were left out." in found.notes
    assert "Taken as no reading: '-9999' (1), 'NaN' (1), 'OL' (1), 'n/a' (1)." in found.notes


def test_several_readings_a_minute_are_spread_over_it(read):
    # Begins late in one minute; at night the readings are alike and stay all the same.
    stamps = ["08:00"] + ["08:01"] * 3 + ["08:02"] * 3 + ["08:03"] * 3
    lux = [9, 8, 7, 6, 0, 0, 0, 0, 0, 0]
    rows = [f"2024-05-06 {t},{x}" for t, x in zip(stamps, lux, strict=True)]
    found = read("time,lux\n" + "\n".join(rows) + "\n")
    assert found.time_s.tolist() == pytest.approx([20.0 * k for k in range(10)])
    assert found.start == datetime(2024, 5, 6, 8, 0, 40)


@pytest.mark.parametrize(
    ("stamps", "said"),
    [
        (("2024-10-27 02:30", "2024-10-27 02:45", "2024-10-27 02:00", "2024-10-27 02:15"), "back"),
        (("2024-03-31 01:30", "2024-03-31 01:45", "2024-03-31 03:00", "2024-03-31 03:15"), "ahead"),
    ],
)
def test_a_change_of_the_clock_is_no_break(read, stamps, said):
    found = read("time,lux\n" + "".join(f"{t},{n}\n" for n, t in enumerate(stamps)))
    assert found.time_s.tolist() == [0.0, 900.0, 1800.0, 2700.0]
    assert any(f"The clock goes {said}" in note for note in found.notes)


def test_hours_without_a_date_pass_midnight(read):
    found = read("time,lux\n23:58:00,1\n23:59:00,2\n00:00:00,3\n00:01:00,4\n")
    assert found.time_s.tolist() == [0.0, 60.0, 120.0, 180.0]


def test_a_file_that_ends_within_a_line_says_so(read):
    found = read("time_s,lux\n0,1\n1,2\n2")
    assert found.time_s.tolist() == [0.0, 1.0]
    assert "The file ends within a line; that line was left out." in found.notes


# --- nothing is read wrong in silence ------------------------------------------------------

TWO_WAYS = {
    "dates": ("time,lux\n03/04/2024 08:00,1\n03/04/2024 09:00,2\n", "dates", LIGHT),
    "two-digit years": ("time,lux\n13/05/24 08:00,1\n14/05/24 09:00,2\n", "dates", LIGHT),
    "columns of one name": ("time_s,lux,lux\n0,1,2\n1,1,2\n", "column", LIGHT),
    "decimal": ("time_s\tlux\n0\t1,234\n60\t2,345\n", "decimal", LIGHT),
    "clock": ("time,lux\n12:30,1\n12:31,2\n", "clock", LIGHT),
    "column": ("time,lux,light (lx)\n0,1,2\n1,1,2\n", "column", LIGHT),
}


@pytest.mark.parametrize(("text", "about", "wanted"), TWO_WAYS.values(), ids=TWO_WAYS)
def test_a_file_with_two_meanings_is_refused_until_told(read, text, about, wanted):
    with pytest.raises(Undecided) as caught:
        read(text, wanted)
    question = caught.value.question
    assert question.about == about
    assert len(question.choices) == 2
    told = [read(text, wanted, **{about: choice}) for choice, _ in question.choices]
    one, other = ((f.start, f.time_s.tolist(), f.values["light"].tolist()) for f in told)
    assert one != other
    assert ways(question, "--x ").startswith(f"Say --x {question.choices[0][0]} (")


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("time_s\tlux\ttemp\n0\t1,234\t21.5\n60\t2,345\t22\n", 1234.0),
        ("time_s\tlux\ttemp\n0\t1,234\t21,5\n60\t2,345\t22\n", 1.234),
        ("time_s\tlux\n0\t1,234\n60\t12345\n", 1.234),
        ("time_s\tlux\n0\t0,500\n60\t0,000\n", 0.5),
        ('time_s,lux\n0,"1,234.5"\n60,2\n', 1234.5),
    ],
)
def test_one_plain_number_decides_for_the_whole_file(read, text, first):
    assert read(text).values["light"][0] == first


def test_a_reading_that_is_allowed_one_way_only_decides(read):
    assert read("time_s\tV\n0\t3,912\n1\t3,915\n", VOLTS).values["voltage"][0] == 3.912


@pytest.mark.parametrize("text", ["time,lux\n05/05/2024,1\n06/06/2024,2\n"])
def test_dates_that_are_the_same_both_ways_need_no_answer(read, text):
    assert read(text).time_s[1] == 32 * 86_400.0


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("time_s,V\n0,3,90\n1,3,80\n", "line 2: 3 columns found where the line of names has 2."),
        ("time_s;lux\n0;12,5\n1;12.5\n", "line 3, column 'lux': the light is '12.5'"),
        ("time_s;lux (lx)\n-;µA\n0;1\n", "is lx by its name and µA by the line of units"),
        ("time,lux\n31/02/2024,1\n28/02/2024,2\n", "line 2: the time is '31/02/2024'"),
        ("time,lux\n13/02/2024,1\n01/14/2024,2\n", "line 3: the time is '01/14/2024'"),
        ("when,lux\n0,1\n", "has no column of time; its columns are when, lux"),
        ("when,a\tlog,c\n0,1,2\n", "has no column of time; its columns are when, a log, c."),
        ("time,lux\n", ""),
        ("lux\n5\n", "has no column of time"),
        ("\x89PNG\r\n\x1a\n\0\0\0", "holds no text"),
        ("PK\x03\x04 nothing", "holds no text"),
        ("", "is empty"),
        ("\ufeff \n\n", "is empty"),
        ("\n".join("a,b" for _ in range(300)), "has no column of time"),
    ],
)
def test_what_cannot_be_used_ends_in_a_sentence(read, text, said):
    if not said:
        assert read(text).time_s.size == 0
        return
    with pytest.raises(LogError) as caught:
        read(text, VOLTS if ",V" in text else LIGHT)
    assert said in str(caught.value)
    assert str(caught.value).endswith((".", ".”"))


def test_a_file_that_is_emptied_while_it_is_read_is_a_sentence(tmp_path, monkeypatch):
    path = tmp_path / "a.csv"
    path.write_text("time_s,lux\n0,1\n1,2\n", encoding="utf-8")

    def emptied(*given, **more):
        found = understand(*given, **more)
        path.write_bytes(b"")
        return found

    monkeypatch.setattr(reader, "understand", emptied)
    with pytest.raises(LogError, match=r"a\.csv was emptied while it was read\."):
        read_readings(path, (LIGHT,), what=say("log"))


def test_a_file_that_is_emptied_while_it_is_read_is_told_so(tmp_path, monkeypatch):
    """Its size was looked at before its first line."""
    monkeypatch.setattr(source.TextFile, "blocks", lambda *_: iter(()))
    place = tmp_path / "l.csv"
    place.write_text("time_s,lux\n0,1\n900,2\n", encoding="utf-8")
    with pytest.raises(LogError, match="is empty"):
        read_light_log(place)


def test_a_file_that_is_written_while_its_size_is_looked_at_is_read(tmp_path, monkeypatch):
    """It was empty a moment ago."""
    monkeypatch.setattr(source, "check_file", lambda *_, **__: 0)
    place = tmp_path / "l.csv"
    place.write_text("time_s,lux\n0,1\n900,2\n", encoding="utf-8")
    assert list(read_light_log(place).illuminance_lx) == [1.0, 2.0]
