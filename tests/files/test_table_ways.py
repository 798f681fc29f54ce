"""Whatever way a table is written, it is read as it was meant or refused: never otherwise."""

from dataclasses import replace
from datetime import datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.reader import read_readings
from explorer.files.table_reader.told import LogError, Told, Undecided
from explorer.text import say

LIGHT = Wanted(quantity="light", lowest=0.0, highest=200_000.0)
FORMS = {
    "%Y-%m-%d %H:%M:%S": None,
    "%Y/%m/%d %H:%M:%S": None,
    "%Y%m%d%H%M%S": None,
    "%d.%m.%Y %H:%M:%S": "dmy",
    "%d/%m/%Y %H:%M:%S": "dmy",
    "%m/%d/%Y %I:%M:%S %p": "mdy",
    "%d-%m-%y %H:%M:%S": "dmy",
    "%d %b %Y %H:%M:%S": None,
}
"""How a logger writes dates, and the order of day and month where they are numbers."""


def number(value, mark, group, places):
    text = f"{value:,.{places}f}" if group else f"{value:.{places}f}"
    other = {"point": (",", "."), "comma": (".", ",")}[mark]
    return text.replace(",", "\0").replace(".", other[1]).replace("\0", other[0])


@st.composite
def tables(draw):
    """A table as text, its true times and values, and what would have to be told."""
    form = draw(st.sampled_from([*FORMS, "seconds", "minutes", "epoch", "serial"]))
    mark, group = draw(st.sampled_from(["point", "comma"])), draw(st.booleans())
    places = draw(st.sampled_from([0, 1, 3]))
    delimiter = draw(st.sampled_from(["\t", ";"] if mark == "comma" or group else ["\t", ";", ","]))
    start = draw(st.datetimes(datetime(2001, 1, 1), datetime(2060, 1, 1))).replace(microsecond=0)
    steps = draw(st.lists(st.sampled_from([10, 60, 61, 3600, 40_000]), min_size=2, max_size=12))
    times = np.cumsum([0, *steps])
    scale = draw(st.sampled_from([1.0, 10.0, 1e5]))
    lux = [round(draw(st.floats(0, 1)) * scale, places) for _ in times]
    if form in FORMS:
        cells = [(start + timedelta(seconds=int(t))).strftime(form) for t in times]
        heading = "time"
    elif form == "epoch":
        cells = [str(int((start - datetime(1970, 1, 1)).total_seconds()) + int(t)) for t in times]
        heading = "timestamp"
    elif form == "serial":
        first = (start - datetime(1899, 12, 30)).total_seconds()
        cells = [number((first + t) / 86_400, mark, False, 9) for t in times]
        heading = "datetime"
    else:
        unit = {"seconds": 1, "minutes": 60}[form]
        cells = [number(t / unit, mark, False, 6) for t in times]
        heading = f"time ({form})"
    lines = [delimiter.join((heading, "lux [lx]"))]
    lines += [delimiter.join((c, number(x, mark, group, places)))
              for c, x in zip(cells, lux, strict=True)]  # fmt: skip
    lines = draw(st.sampled_from([[], ["Logger 7"], [f"sep={delimiter}"]])) + lines
    text = draw(st.sampled_from(["\n", "\r\n"])).join(lines)
    encoding = draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "latin-1"]))
    order = FORMS.get(form)
    dated = start if form not in ("seconds", "minutes") else None
    return text.encode(encoding), times, lux, dated, {"dates": order, "decimal": mark}


def read(path, raw, told):
    path.write_bytes(raw)
    return read_readings(path, (LIGHT,), told, what=say("light log"))


@given(tables())
def test_a_table_is_read_as_it_was_meant_or_asks(tmp_path_factory, table):
    raw, times, lux, start, truth = table
    path = tmp_path_factory.getbasetemp() / "ways.csv"
    told = Told()
    for _ in range(3):
        try:
            found = read(path, raw, told)
            break
        except Undecided as error:
            # It asks for nothing that the file decides, and takes the true answer.
            about = error.question.about
            told = replace(told, **{about: truth[about]})
    assert found.time_s.tolist() == pytest.approx((times - times[0]).tolist(), abs=2e-3)
    assert found.values["light"].tolist() == pytest.approx(lux, abs=1e-9)
    if start is None:
        assert found.start is None
    else:
        assert found.start is not None
        assert abs((found.start.replace(tzinfo=None) - start).total_seconds()) < 1e-2


WHOLE = "time;lux\r\n" + "".join(f"0{d}.05.2024 08:00;{d}00,5\r\n" for d in range(1, 6))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_file_cut_at_any_byte_gives_whole_lines_or_a_sentence(tmp_path, encoding):
    raw = WHOLE.encode(encoding)
    said = []
    whole = read(tmp_path / "whole.csv", raw, Told()).values["light"].tolist()
    for size in range(len(raw)):
        try:
            found = read(tmp_path / "cut.csv", raw[:size], Told()).values["light"].tolist()
        except LogError as error:
            said.append(str(error))
            continue
        # All but the last number are those of the file; the last may have lost digits.
        assert found[:-1] == whole[: max(len(found) - 1, 0)]
    assert said
    assert all(text.endswith((".", ".”")) for text in said)
