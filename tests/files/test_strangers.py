"""Files from anybody: what they name is not read unasked, what they hold steers nothing."""

import json
import os
import time

import pytest

from explorer.files.disk import FileError
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario, parse_scenario, save_scenario
from explorer.files.trust import TRUST, FileTrust, OutsideFile
from explorer.files.weather import resolve_weather
from explorer.resource_files import resource_path
from explorer.scenario.fields import MOST_IN_A_LIST, MOST_LETTERS, MOST_PHASES
from explorer.scenario.model import Scenario, with_value

SECRET = "time_s,lux\n" + "".join(f"{900 * i},{i % 7 * 100}\n" for i in range(40))


@pytest.fixture
def folder(tmp_path):
    """A stranger's folder, with a log inside, one beside it, and links to both."""
    inside = tmp_path / "stranger"
    (inside / "logs").mkdir(parents=True)
    for place in (inside / "logs" / "own.csv", tmp_path / "secret.csv"):
        place.write_text(SECRET, encoding="utf-8")
    (inside / "to_own.csv").symlink_to("logs/own.csv")
    (inside / "to_secret.csv").symlink_to("../secret.csv")
    (inside / "all").symlink_to(tmp_path)
    return inside


def naming(file):
    return with_value(Scenario(), "light.pattern", {"kind": "log", "file": str(file)})


@pytest.mark.parametrize("file", ["logs/own.csv", "to_own.csv", "logs/../to_own.csv"])
def test_a_log_in_the_own_folder_or_below_is_read(folder, file):
    log = resolve_log(naming(file), folder / "s.json")
    assert log.readings == 40


@pytest.mark.parametrize(
    "file", ["../secret.csv", "to_secret.csv", "all/secret.csv", "logs/../../secret.csv", None]
)
def test_a_log_from_elsewhere_is_refused_and_nothing_of_it_is_told(folder, file):
    file = file or str(folder.parent / "secret.csv")
    with pytest.raises(OutsideFile) as refused:
        resolve_log(naming(file), folder / "s.json")
    assert refused.value.path == folder.parent / "secret.csv"
    assert "--any-log" in str(refused.value)
    assert "lux" not in str(refused.value)


def test_what_a_person_allowed_is_read(folder, monkeypatch):
    monkeypatch.setattr("explorer.files.logs.TRUST", trust := FileTrust())
    trust.allow(folder / "to_secret.csv")
    assert resolve_log(naming("../secret.csv"), folder / "s.json").readings == 40
    with pytest.raises(FileError):
        resolve_log(naming("/etc/hostname"), folder / "s.json")


def test_shipped_logs_are_everybodys():
    assert resolve_log(naming("office_lux_1min.csv"), None).readings > 1000
    with pytest.raises(OutsideFile):
        resolve_log(naming(resource_path("help", "speed.md")), None)


def test_weather_is_held_to_the_same(folder):
    pattern = {"kind": "daylight", "weather_file": "../secret.csv"}
    with pytest.raises(OutsideFile, match="weather_file"):
        resolve_weather(with_value(Scenario(), "light.pattern", pattern), folder / "s.json")


@pytest.mark.parametrize("kind", ["pipe", "device", "folder"])
def test_what_is_no_file_is_refused_by_its_kind_before_it_is_opened(folder, kind, monkeypatch):
    """A pipe without a writer would hold the program for ever, an endless device too."""
    place = folder / "odd.csv"
    if kind == "pipe":
        os.mkfifo(place)
    elif kind == "device":
        place.symlink_to("/dev/zero")
        monkeypatch.setattr(TRUST, "everything", True)
    else:
        place.mkdir()
    with pytest.raises(FileError, match=r"not an ordinary file|is a folder"):
        resolve_log(naming("odd.csv"), folder / "s.json")
    with pytest.raises(FileError, match=r"not an ordinary file|is a folder"):
        load_scenario(place)


NASTY = "Fern\x1b[2J\u202egnp.\x00\x9b\ufeff\u200b \u2066bench"


def test_texts_of_a_file_become_visible_as_they_are_read(tmp_path):
    data = Scenario().model_dump(mode="json")
    data["title"] = data["place"] = data["load"]["operations"][0]["name"] = NASTY
    data["notes"] = f"one\n{NASTY}"
    scenario = parse_scenario(json.dumps(data), "s.json")
    seen = "Fern␛[2J⟨U+202E⟩gnp.␀⟨U+009B⟩⟨U+FEFF⟩⟨U+200B⟩ ⟨U+2066⟩bench"
    assert scenario.title == scenario.place == scenario.load.operations[0].name == seen
    assert scenario.notes == f"one\n{seen}"
    save_scenario(tmp_path / "kept.json", scenario)
    assert load_scenario(tmp_path / "kept.json").scenario == scenario


def test_a_title_in_any_script_is_left_alone():
    for title in ("Grüne Wand", "דלת 3", "温室の弁", "نافذة", "👩‍🔧 bench", "5 µF – 2 Ω"):
        assert Scenario(title=title).title == title
    assert Scenario(title="two\nlines").title == "two lines"


def test_what_is_refused_is_shown_visibly(tmp_path):
    place = tmp_path / "ev\x1b[31mil\u202e.json"
    place.write_text('{"format": "gloaming-scenario", "version": 2, "\x7f\u202ekey": 1}')
    with pytest.raises(FileError) as refused:
        load_scenario(place)
    assert "ev␛[31mil⟨U+202E⟩.json" in str(refused.value)
    assert all(letter.isprintable() for letter in str(refused.value))


def huge(change):
    data = Scenario().model_dump(mode="json")
    change(data)
    return json.dumps(data)


OPERATION = Scenario().model_dump(mode="json")["load"]["operations"][0]
PHASE = {"current_A": 0.01, "duration_s": 1e-4}
CHANGES = {
    "operations": lambda d: d["load"].update(operations=[OPERATION] * 6000),
    "title": lambda d: d.update(title="x" * 200_000),
    "phases": lambda d: d["load"]["operations"][0].update(phases=[PHASE] * 110_000),
    "wrong phases": lambda d: d["load"]["operations"][0].update(
        phases=[{"current_A": "x"}] * 180_000
    ),
    "keys": lambda d: d.update({f"k{i}": 1 for i in range(200_000)}),
    "key": lambda d: d.update({"k" * 4_000_000: 1}),
    "choice": lambda d: d["light"].update(source="led" * 1_000_000),
    "kind": lambda d: d["store"].update(kind="cell" * 1_000_000),
    "days": lambda d: d["load"]["operations"][0]["schedule"].update(days=["mon"] * 400_000),
}
TEXTS = {
    "nested": '{"format":"gloaming-scenario","version":2,"title":' + "[" * 900 + "]" * 900 + "}",
    "deeply nested": "[" * 2_000_000,
    "numbers": '{"format":"gloaming-scenario","version":2,"x":[' + "NaN," * 800_000 + "1]}",
}


@pytest.mark.parametrize("name", [*CHANGES, *TEXTS])
def test_a_file_of_megabytes_gets_one_short_sentence(name):
    text = TEXTS.get(name) or huge(CHANGES[name])
    begin = time.process_time()
    with pytest.raises(FileError) as refused:
        parse_scenario(text, "s.json")
    print(f"{name}: {time.process_time() - begin:.2f} s")
    assert len(str(refused.value)) < 1000


def test_the_bounds_themselves_are_allowed():
    load = {"phases": [PHASE] * MOST_PHASES, "schedule": {"kind": "every", "interval_s": 3600}}
    assert with_value(Scenario(), "load.operations", [load])
    assert with_value(Scenario(), "load.operations", [OPERATION] * MOST_IN_A_LIST)
    assert with_value(Scenario(), "title", "x" * MOST_LETTERS)
