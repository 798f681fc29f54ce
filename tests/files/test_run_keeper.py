"""A run of a meter is on disk as it comes, and is taken up after a crash."""

import resource
import signal
from datetime import datetime, timedelta

import pytest

from explorer.files.bench_log import read_bench_log
from explorer.files.disk import FileError
from explorer.files.run_keeper import RunKeeper, interrupted_run

START = datetime(2026, 3, 2, 9, 0, 0, 250_000)


def kept(keeper, *volts, at=START):
    for n, value in enumerate(volts):
        keeper.add(at + timedelta(seconds=10 * n), value, 200.0 + n)


def test_every_reading_is_on_disk_at_once(tmp_path):
    path = tmp_path / "runs" / "a meter.csv"
    keeper = RunKeeper(path)
    for count, volts in enumerate((3.3, 3.2, 3.1, 3.0), start=1):
        keeper.add(START + timedelta(seconds=10 * count), volts)
        if count >= 3:
            assert read_bench_log(path).readings == count
    keeper.close()
    run = read_bench_log(path)
    assert run.volts.tolist() == [3.3, 3.2, 3.1, 3.0]
    assert run.start == START + timedelta(seconds=10)


def test_a_run_is_taken_up_without_the_line_that_a_crash_cut(tmp_path):
    path = tmp_path / "2026-03-02 meter.csv"
    first = RunKeeper(path)
    kept(first, 3.3, 3.2)
    with path.open("ab") as file:  # the program is gone in the middle of a line
        file.write(b"2026-03-02 09:00:20.2")
    first._file.close()
    assert interrupted_run(tmp_path) == path
    again = RunKeeper(path, go_on=True)
    assert again.count == 2
    kept(again, 3.0, 2.9, at=START + timedelta(minutes=30))
    again.close()
    run = read_bench_log(path)
    assert run.volts.tolist() == [3.3, 3.2, 3.0, 2.9]
    assert run.light.illuminance_lx[0] == 200.0
    assert interrupted_run(tmp_path) is None


def test_what_is_there_is_never_overwritten_nor_mixed(tmp_path):
    path = tmp_path / "a meter.csv"
    path.write_text("time,V\n0,3\n", encoding="utf-8")
    with pytest.raises(FileError, match="there already"):
        RunKeeper(path)
    with pytest.raises(FileError, match="holds no run of a meter"):
        RunKeeper(path, go_on=True)
    with pytest.raises(FileError, match="cannot be written"):
        RunKeeper(path / "below" / "b meter.csv")
    assert path.read_text(encoding="utf-8") == "time,V\n0,3\n"


def test_a_clock_that_was_set_back_is_told(tmp_path):
    keeper = RunKeeper(tmp_path / "a meter.csv")
    kept(keeper, 3.3)
    with pytest.raises(FileError, match="Set the clock, or begin a new run"):
        kept(keeper, 3.2, at=START - timedelta(hours=1))
    keeper.close()


def test_a_run_without_readings_leaves_nothing(tmp_path):
    keeper = RunKeeper(tmp_path / "a meter.csv")
    keeper.close()
    keeper.close()
    keeper.add(START, 3.3)
    assert list(tmp_path.iterdir()) == []


def test_a_run_that_is_being_written_is_neither_interrupted_nor_taken_up(tmp_path):
    path = tmp_path / "2026-03-02 meter.csv"
    first = RunKeeper(path)
    kept(first, 3.3)
    assert interrupted_run(tmp_path) is None
    with pytest.raises(FileError, match="written by another program"):
        RunKeeper(path, go_on=True)
    first._file.close()
    assert interrupted_run(tmp_path) == path


def test_a_full_disk_leaves_whole_lines_and_a_sentence(tmp_path):
    """The system takes part of the line, then no more."""
    path = tmp_path / "2026-03-02 meter.csv"
    keeper = RunKeeper(path)
    kept(keeper, 3.3, 3.2)
    before = path.read_bytes()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    heard = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + 9, hard))
    try:
        with pytest.raises(FileError, match="cannot be written: File too large"):
            kept(keeper, 3.1, at=START + timedelta(minutes=1))
        keeper.close()
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        signal.signal(signal.SIGXFSZ, heard)
    assert path.read_bytes() == before
    again = RunKeeper(path, go_on=True)
    assert again.count == 2
    again.close()


def test_a_last_line_that_is_no_reading_is_named(tmp_path):
    path = tmp_path / "2026-03-02 meter.csv"
    keeper = RunKeeper(path)
    kept(keeper, 3.3)
    keeper._file.close()
    with path.open("a", encoding="utf-8") as file:
        file.write("yesterday,3.3,\n")
    with pytest.raises(FileError, match=r"its last line, “yesterday,3.3,”"):
        RunKeeper(path, go_on=True)
