"""A meter is read over LAN, USB and serial lines; what it says wrong and its loss are told."""

import itertools
import threading
import time

import pytest

from explorer.meters import follow as follow_module
from explorer.meters import link
from explorer.meters.answers import numbers_of
from explorer.meters.faults import MeterFault
from explorer.meters.follow import Found, Garbled, Lost, Odd, Reading, follow
from explorer.meters.meter import Meter, resource_name
from explorer.words.meter import fault_sentence, odd_sentence, retry_sentence
from tests.meters.bench_meter import IDENTITY, SocketMeter
from tests.meters.serial_line import SerialLine

SIMULATED = """\
spec: "1.1"
devices:
  meter:
    eom:
      ASRL INSTR: {q: "\\n", r: "\\n"}
      USB INSTR: {q: "\\n", r: "\\n"}
      TCPIP SOCKET: {q: "\\n", r: "\\n"}
    error: ERROR
    dialogues:
      - {q: "*IDN?", r: "FERNHOLLOW INSTRUMENTS,BENCH METER,0,1.0"}
      - {q: "MEAS:VOLT:DC?", r: "+3.30125E+00"}
      - {q: "SYST:REM"}
resources:
  ASRL1::INSTR: {device: meter}
  USB0::0x1234::0x5678::A1::INSTR: {device: meter}
  TCPIP0::192.0.2.7::5025::SOCKET: {device: meter}
"""


def some(meter, count, retry_s=(0.05,), stop=None):
    return list(itertools.islice(follow(meter, stop or threading.Event(), retry_s), count))


def by_kind(happenings, kind):
    return [h for h in happenings if isinstance(h, kind)]


@pytest.mark.parametrize("typed", ["COM1", "USB0::0x1234::0x5678::A1::INSTR", "192.0.2.7"])
def test_a_multimeter_is_read_over_every_line(tmp_path, monkeypatch, typed):
    simulated = tmp_path / "meters.yaml"
    simulated.write_text(SIMULATED, encoding="utf-8")
    monkeypatch.setenv("PYVISA_LIBRARY", f"{simulated}@sim")
    address = resource_name(typed).replace("ASRLCOM1", "ASRL1")
    found = some(Meter(address=address, every_s=0.05), 3)
    assert found[0] == Found(identity=IDENTITY)
    assert [h.volts for h in found[1:]] == [3.30125, 3.30125]


def test_readings_come_at_their_interval_and_rise_in_time(meters):
    meter = meters(["+3.3E+00", "+3.2E+00", "+3.1E+00"])
    found = some(Meter(address=resource_name(meter.address), every_s=0.1), 4)
    assert [h.volts for h in found[1:]] == [3.3, 3.2, 3.1]
    steps = [(b.moment - a.moment).total_seconds() for a, b in itertools.pairwise(found[1:])]
    assert all(step > 0.05 for step in steps)
    assert set(meter.asked) == {"*IDN?", "MEAS:VOLT:DC?"}


def test_a_lost_meter_is_told_and_sought_until_it_is_back(meters, monkeypatch):
    monkeypatch.setattr(link, "TIMEOUT_S", 0.2)
    first = meters()
    stop = threading.Event()
    come = follow(Meter(address=resource_name(first.address), every_s=0.05), stop, (0.1,))
    assert isinstance(next(come), Found)
    assert next(come).volts == 3.3
    first.close()
    lost = next(h for h in come if not isinstance(h, Reading))
    assert isinstance(lost, Lost)
    assert lost.kind == "silent"
    said = retry_sentence(lost.kind, lost.detail, first.address, lost.again_s)
    assert "does not answer" in said
    assert "Trying again in 0.1 s; what was read is kept." in said
    assert next(come).kind in ("unreachable", "silent")
    again = SocketMeter(["+2.5E+00"], port=first.port)
    try:
        assert next(h for h in come if isinstance(h, Reading)).volts == 2.5
    finally:
        come.close()
        again.close()


def test_a_late_answer_is_not_taken_for_the_next_reading(meters, monkeypatch):
    """After a wait that was too short the line is opened anew."""
    monkeypatch.setattr(link, "TIMEOUT_S", 0.2)
    meter = meters(["", "+3.1E+00"])  # an empty line is an answer without a number
    found = some(Meter(address=resource_name(meter.address), every_s=0.05), 4)
    assert [type(h) for h in found] == [Found, Lost, Found, Reading]
    assert found[1].kind == "garbled"
    assert meter.asked.count("*IDN?") == 2


def test_a_stream_of_numbers_gives_voltage_and_light(meters):
    source = meters(["01 V", "3.30;250", "3300 mV, 251.0 lx"], stream_s=0.02)
    found = some(Meter(address=resource_name(source.address), every_s=0.0, is_stream=True), 3)
    # The first line may have begun before the line was opened.
    assert [(h.volts, h.lux) for h in found[1:]] == [(3.3, 250.0), (3.3, 251.0)]


def test_lines_that_come_faster_than_wanted_are_passed_over(meters):
    source = meters(["3.3 V"], stream_s=0.01)
    found = some(Meter(address=resource_name(source.address), every_s=0.2, is_stream=True), 3)
    assert (found[2].moment - found[1].moment).total_seconds() > 0.15


def test_what_is_no_reading_is_told_and_not_kept(meters):
    meter = meters(["+9.9E+37", "-3.3E+00", "+3.3E+00"])
    found = some(Meter(address=resource_name(meter.address), every_s=0.05), 4)
    said = [odd_sentence(h.volts) for h in by_kind(found, Odd)]
    assert "overload" in said[0]
    assert "leads swapped" in said[1]
    assert [h.volts for h in by_kind(found, Reading)] == [3.3]


@pytest.mark.parametrize(
    ("line", "kind"),
    [("3,301", "comma"), ("ready", "garbled"), ("1;2;3", "garbled"), ("", "garbled"),
     ("3.3 A", "garbled"), ("12:00:01;3.3", "garbled")],
)  # fmt: skip
def test_a_line_that_can_be_read_in_two_ways_is_refused(line, kind):
    with pytest.raises(MeterFault) as caught:
        numbers_of(line)
    assert caught.value.kind == kind
    assert line.strip() in fault_sentence(kind, caught.value.detail, "a")


def test_a_missing_driver_or_library_ends_the_attempts(monkeypatch):
    monkeypatch.setenv("PYVISA_LIBRARY", "@py")
    gpib = Meter(address="GPIB0::3::INSTR")
    with pytest.raises(MeterFault, match="gpib"):
        some(gpib, 1)
    monkeypatch.setitem(__import__("sys").modules, "pyvisa", None)
    with pytest.raises(MeterFault) as caught:
        some(gpib, 1)
    assert "gloaming[meters]" in fault_sentence(caught.value.kind, "", "a")


@pytest.mark.parametrize("typed", ["", "a b", "host:99999", "-x", "[::1]:5025"])
def test_what_is_no_address_is_refused(typed):
    with pytest.raises(ValueError, match="no address of a meter"):
        resource_name(typed)


@pytest.fixture
def lines():
    """Makes serial lines, and unplugs them at the end."""
    made = []

    def make(answers=None, first=""):
        made.append(SerialLine(answers, first))
        return made[-1]

    yield make
    for line in made:
        line.unplug()


def multimeter(query):
    """What one on a serial line says; it ends its lines as terminals do."""
    return {"*IDN?": f"{IDENTITY}\r\n", "MEAS:VOLT:DC?": "+3.30125E+00\r\n"}.get(query)


def test_a_multimeter_on_a_real_serial_line_is_read_until_it_is_unplugged(lines, monkeypatch):
    monkeypatch.setattr(link, "TIMEOUT_S", 0.5)
    line = lines(multimeter)
    meter = Meter(address=resource_name(line.device), every_s=0.05)
    assert meter.is_serial
    come = follow(meter, threading.Event(), (0.05,))
    assert next(come) == Found(identity=IDENTITY)
    assert [next(come).volts, next(come).volts] == [3.30125, 3.30125]
    assert line.heard[0] == "SYST:REM"
    assert set(line.heard) == {"SYST:REM", "*IDN?", "MEAS:VOLT:DC?"}
    line.unplug()
    lost = next(happening for happening in come if isinstance(happening, Lost))
    assert lost.kind == "silent"
    assert next(come).kind == "unreachable"
    come.close()


def test_a_board_that_tells_of_itself_first_is_read_all_the_same(lines):
    """To open its line anew would only start it anew."""
    line = lines(
        first="of a line\nboot v1.2\nsensor ok\n3.30\n\xff\xfe\n3,29\nnan\n3.28 V\n3.2"
    )
    meter = Meter(address=resource_name(line.device), every_s=0.0, is_stream=True)
    come = follow(meter, threading.Event(), (0.05,))
    found = list(itertools.islice(come, 8))
    kinds = [type(happening).__name__ for happening in found]
    assert kinds == ["Found", *["Garbled"] * 2, "Reading", *["Garbled"] * 3, "Reading"]
    assert [h.volts for h in by_kind(found, Reading)] == [3.3, 3.28]
    assert found[1].detail == "boot v1.2"
    line.say("7\n")  # the rest of the line that was cut
    assert next(come).volts == 3.27
    come.close()


def test_a_stream_of_nothing_but_other_lines_is_lost(lines, monkeypatch):
    monkeypatch.setattr(follow_module, "MOST_GARBLED", 3)
    line = lines(first="x\n" * 9)
    meter = Meter(address=resource_name(line.device), every_s=0.0, is_stream=True)
    found = some(meter, 4)
    assert [type(h) for h in found] == [Found, Garbled, Garbled, Lost]
    assert found[-1].kind == "garbled"


def test_units_say_which_number_is_which():
    assert numbers_of("250 lx; 3.3 V") == (3.3, 250.0)
    assert numbers_of("3.301,250") == (3.301, 250.0)
    for line in ("250 lx", "3.3 V; 3.2 V", "3.3; 3.2 V", "250 lx; 260 lx"):
        with pytest.raises(MeterFault):
            numbers_of(line)
    with pytest.raises(MeterFault) as caught:
        numbers_of("1,234.5")  # one number, or one and 234.5
    assert caught.value.kind == "comma"


def test_the_clock_of_a_run_goes_on_while_the_computer_sleeps(monkeypatch):
    """Two clocks stand still or jump; the one since the computer was started does not."""
    clock = follow_module._Clock()
    before = clock.now()
    slept_s = follow_module._since_boot_s() + 8 * 3600.0
    monkeypatch.setattr(follow_module, "_since_boot_s", lambda: slept_s)
    assert 28_799.0 < (clock.now() - before).total_seconds() < 28_860.0
    monkeypatch.undo()
    assert follow_module._since_boot_s() == pytest.approx(
        time.clock_gettime(time.CLOCK_BOOTTIME), abs=5.0
    )
