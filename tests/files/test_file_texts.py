"""What is wrong with a file, and with a typed number, can be said in another language."""

import json

import pytest

from explorer.files.disk import FileError, read_text, write_text
from explorer.files.logs import LogError, LogRules, read_light_log
from explorer.files.look import look
from explorer.files.scenario_json import ScenarioError, dump_scenario, parse_scenario
from explorer.files.table_reader.told import Undecided
from explorer.quantity import parse
from explorer.scenario.model import Scenario
from explorer.text import Text, rendered, say
from tests import pseudo


def shown(fault):
    """A fault in the disguise, with a decimal comma."""
    text = str(fault)
    assert isinstance(text, Text)
    return rendered(text, pseudo.disguise, ",")


def with_value(path, value):
    """Text of the default scenario with one key set to anything."""
    data = json.loads(dump_scenario(Scenario()))
    node = data
    *head, last = path.split(".")
    for part in head:
        node = node[part]
    node[last] = value
    return json.dumps(data)


@pytest.mark.parametrize(
    "text", ['{"format"', "[1,]", '{"a":"\\q"}', '{"a" 1}', "[]", "[" * 100_000],
    ids=["cut", "comma", "escape", "colon", "list", "deep"],
)  # fmt: skip
def test_a_text_that_is_no_scenario_can_be_told_of_in_any_language(text):
    with pytest.raises(ScenarioError) as caught:
        parse_scenario(text, "7")
    assert not pseudo.is_forgotten(shown(caught.value), frozenset({"gloaming", "scenario"}))


@pytest.mark.parametrize(
    ("path", "value", "own"),
    [
        ("format", 3, "gloaming scenario"),
        ("version", 7, ""),
        ("version", None, ""),
        ("lamp", 1, "lamp " + " ".join(Scenario.model_fields).replace("_", " ")),
        ("light.illuminance", 1, "light illuminance"),
        ("light.illuminance_lx", 0, "light illuminance"),
        ("light.illuminance_lx", "much", "light illuminance much"),
        ("light.illuminance_lx", float("nan"), "light illuminance NaN"),
        ("panels.count", True, "panels count true"),
        ("light.pattern", {}, "light pattern kind steady week log daylight"),
        ("light.pattern.kind", "weak", "light pattern kind steady week log daylight weak"),
        ("load.connect_V", 1, "load connect disconnect"),
        ("panels.data_sheet", [{"max_power_V": 9}], "panels data sheet max power"),
    ],
)
def test_a_faulty_value_can_be_told_of_in_any_language(path, value, own):
    with pytest.raises(ScenarioError) as caught:
        parse_scenario(with_value(path, value), "7")
    assert not pseudo.is_forgotten(shown(caught.value), frozenset(own.split()))


@pytest.mark.parametrize(
    "rows",
    [
        "", "#7\n", "7\n", "time,lux\n", "time,lux\n0,1\n1\n", "time,lux\n0,?\n1,2\n",
        "time,lux\n0,1\n?,2\n", "time,lux\n5,1\n0,2\n", "time,lux\n0,1\n0,2\n",
        "time,lux\n0,1\n0,1\n", 'time,lux\n0,"1\n1,2\n',
        "time,lux\n2015-01-01 10:00,1\n2015-01-01 10:01+00:00,1\n",
    ],
)  # fmt: skip
def test_a_faulty_log_can_be_told_of_in_any_language(tmp_path, rows):
    path = tmp_path / "7.csv"
    path.write_text(rows, encoding="utf-8")
    with pytest.raises(LogError) as caught:
        read_light_log(path)
    text = shown(caught.value).replace(str(path), "")
    assert not pseudo.is_forgotten(text, frozenset({"time", "illuminance", "lx", "lux", "csv"}))


@pytest.mark.parametrize(
    "rows",
    ["time,lux\n03/04/2024,1\n04/04/2024,2\n", "time_s\tlux\n0\t1,234\n1\t1,235\n",
     "time,lux\n12:30,1\n12:31,1\n", "time,lux,lux\n0,1,1\n1,1,1\n"],
)  # fmt: skip
def test_a_question_about_a_log_can_be_asked_in_any_language(tmp_path, rows):
    path = tmp_path / "7.csv"
    path.write_text(rows, encoding="utf-8")
    with pytest.raises(Undecided) as caught:
        read_light_log(path)
    texts = [shown(caught.value), *(
        rendered(meaning, pseudo.disguise, ",") for _, meaning in caught.value.question.choices
    )]  # fmt: skip
    assert not [text for text in texts if pseudo.is_forgotten(text, frozenset({"csv"}))]


def test_the_first_rows_of_a_table_can_be_shown_in_any_language(tmp_path):
    path = tmp_path / "7.csv"
    path.write_text("time,lux,mV\n0,1,5\n1,,7\n2,NaN,7\n", encoding="utf-8")
    found = look(path)
    texts = [found.sentence, *found.columns, *found.heads, *found.notes]
    own = frozenset({"csv", "time", "lux", "NaN"})
    shown_texts = [rendered(text, pseudo.disguise, ",") for text in texts]
    assert not [text for text in shown_texts if pseudo.is_forgotten(text, own)]


def test_the_notes_of_a_log_can_be_shown_in_any_language(tmp_path):
    path = tmp_path / "7.csv"
    rows = [f"{1000 * k + 60 * j},1" for k in range(9) for j in range(4)]
    rows[1] += "\n60,1\n61,"
    path.write_text("\n".join(["time,lux", *rows]), encoding="utf-8")
    for gaps in ("dark", "hold"):
        notes = read_light_log(path, LogRules(gaps=gaps)).notes
        assert len(notes) > 5
        assert not [n for n in notes if pseudo.is_forgotten(rendered(n, pseudo.disguise, ","))]


def test_a_refusal_of_the_disk_can_be_told_of_in_any_language(tmp_path):
    (tmp_path / "7").write_bytes(b"\xff\x00")
    (tmp_path / "8").write_text("8" * 20, encoding="utf-8")
    (tmp_path / "9").write_text(" ", encoding="utf-8")
    for name in ("", "6", "7", "8", "9"):
        with pytest.raises(FileError) as caught:
            read_text(tmp_path / name, limit_bytes=10, what=say("scenario"))
        assert not pseudo.is_forgotten(shown(caught.value).replace(str(tmp_path), ""))
    for place in (tmp_path, tmp_path / "6" / "7"):
        with pytest.raises(FileError) as caught:
            write_text(place, "")
        assert not pseudo.is_forgotten(shown(caught.value).replace(str(tmp_path), ""))


@pytest.mark.parametrize("unit", ["s", "", "F", "lx"])
@pytest.mark.parametrize("text", ["", "?", "3 ?", "1e999"])
def test_a_faulty_number_can_be_told_of_in_any_language(text, unit):
    with pytest.raises(ValueError, match=r"\.$") as caught:
        parse(text, unit)
    assert not pseudo.is_forgotten(shown(caught.value))
