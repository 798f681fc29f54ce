"""Scenario files come back as they were saved, and everything wrong with one is said plainly."""

import json
import math
import os
import stat

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.files import disk
from explorer.files.scenario_json import (
    LIMIT_BYTES,
    ScenarioError,
    dump_scenario,
    load_scenario,
    parse_scenario,
    save_scenario,
    schema,
)
from explorer.scenario.model import Scenario, get_value, with_value

HEAD = '"format": "gloaming-scenario", "version": 3'
OLD_FILE = (
    '{"format": "gloaming-scenario", "version": 0, '
    '"light": {"level_lx": 450.0}, "panels": {"parallel": 3}}'
)


def file_with(path, value):
    """Text of the default scenario with one key set to anything."""
    data = json.loads(dump_scenario(Scenario()))
    node = data
    *head, last = path.split(".")
    for part in head:
        node = node[int(part)] if part.isdigit() else node[part]
    node[int(last) if last.isdigit() else last] = value
    return json.dumps(data)


def complaint(text):
    with pytest.raises(ScenarioError) as caught:
        parse_scenario(text, "orchid.json")
    return str(caught.value)


# --- what was saved comes back ------------------------------------------------------------


@given(
    title=st.text(st.characters(exclude_categories=["Cs"])),
    lux=st.floats(1, 200_000),
    count=st.integers(1, 64),
    units=st.integers(1, 24),
)
def test_saving_and_reading_is_identity(title, lux, count, units):
    scenario = Scenario(title=title)
    for path, value in (
        ("light.illuminance_lx", lux),
        ("panels.count", count),
        ("store.units_in_series", units),
    ):
        scenario = with_value(scenario, path, value)
    assert parse_scenario(dump_scenario(scenario), "x") == scenario


def test_every_kind_of_section_survives_the_disk(tmp_path):
    scenario = Scenario.model_validate(
        {
            "light": {"illuminance_lx": None, "pattern": {"kind": "log", "gaps": "hold"}},
            "charger": {"kind": "direct"},
            "store": {"kind": "cell", "chemistry": "titanate"},
            "load": {"operations": [{"schedule": {"kind": "when_ready", "ready_V": 3.0}}]},
            "notes": "Über der Tür — 5 µA",
        }
    )
    path = tmp_path / "fern house.json"
    save_scenario(path, scenario)
    loaded = load_scenario(path)
    assert loaded.scenario == scenario
    assert loaded.path == path
    assert loaded.migrated_from is None


def test_a_file_may_leave_out_what_keeps_its_default():
    assert parse_scenario("{" + HEAD + "}", "x") == Scenario()


def test_a_byte_order_mark_is_no_obstacle(tmp_path):
    path = tmp_path / "bom.json"
    path.write_text(dump_scenario(Scenario()), encoding="utf-8-sig")
    assert load_scenario(path).scenario == Scenario()


# --- what is wrong is said with its key and its range -------------------------------------


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("light.illuminance_lx", 0.2, "light.illuminance_lx is 0.2; allowed is 1 to 200000 lx."),
        ("panels.count", 100, "panels.count is 100; allowed is 1 to 64."),
        ("store.capacitance_F", 10**30, "allowed is 10 µF to 1000 F."),
        ("light.illuminance_lx", "300", 'must be a number from 1 to 200000 lx, found "300".'),
        ("light.illuminance_lx", True, "must be a number from 1 to 200000 lx, found true."),
        ("panels.count", 1.5, "panels.count must be a whole number from 1 to 64, found 1.5."),
        ("title", 3, "title must be a text in quotes, found 3."),
        ("light.pattern.blocks", {}, "light.pattern.blocks must be a list in brackets, found {}."),
        ("store", None, "store must be a section in braces, found null."),
        ("load", [], "load must be a section in braces, found []."),
        ("light.iluminance_lx", 3, "light.iluminance_lx is not a known key here; did you mean "),
        ("panels.zzz", 3, "panels.zzz is not a known key here; known are part, count, in_series, "),
        ("light.pattern.file", "a.csv", "light.pattern.file is not a known key here"),
        ("light.source", "led_400", 'Did you mean "led_4000"?'),
        ("store.kind", "supercap", '"capacitor", "supercapacitor" or "cell".'),
        ("store", {"capacitance_F": 1}, "store.kind is missing; allowed is"),
        ("light.pattern.blocks.0.from_h", 30, "light.pattern.blocks.0.from_h is 30; "),
        ("light.pattern.blocks.0.from_h", 20, "to_h (18) must be later than from_h (20)"),
        ("load.connect_V", 2.0, "connect_V (2 V) must be higher than disconnect_V (2.4 V)."),
        ("load.connect_V", 8.0, "load.connect_V (8 V) must be lower than charger.full_V (5 V)"),
        ("load.operations.0.phases.0.power_W", 1, "found current_A and power_W."),
        ("light.ambient_C", math.nan, "light.ambient_C is NaN; only finite numbers are allowed."),
        ("load.operations.0.phases.0.duration_s", math.inf, "phases.0.duration_s is Infinity; "),
    ],
)
def test_a_wrong_value_is_named_with_what_is_allowed(key, value, said):
    message = complaint(file_with(key, value))
    assert message.startswith("orchid.json: ")
    assert said in message


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[" * 100_000, "orchid.json is nested too deeply to be read."),
        ("hello", "orchid.json is not JSON: "),
        ("[]", 'orchid.json is not a scenario: the key format must be "gloaming-scenario"'),
        ('{"capacitance": 1}', "found nothing."),
        ('{"format": "gloaming-scenario"}', "version must be a whole number from 0 to 3"),
        ('{"format": "gloaming-scenario", "version": true}', "found true."),
        ('{"format": "gloaming-scenario", "version": -1}', "found -1."),
        ('{"format": "gloaming-scenario", "version": 7}', "reads versions up to 3. A newer"),
        ("{" + HEAD + ",}", "orchid.json is not JSON: "),
        ("{" + HEAD + ',\n "title": "abc', "orchid.json ends too early, at line 2, column 11;"),
        ("{" + HEAD + ', "title":', "orchid.json ends too early, at line 1, column "),
        ("{" + HEAD + ', "title": "\\ud800"}', "orchid.json: the text cannot be read: "),
        ("{" + HEAD + ', "notes": ' + "7" * 5000 + "}", "a number with thousands of digits."),
        ("{" + HEAD + ', "light": {"illuminance_lx": 1e999}}', "illuminance_lx is Infinity;"),
        (
            "{" + HEAD + ', "light": {"ambient_C": 1, "ambient_C": 2}}',
            "orchid.json: light.ambient_C is given more than once; keep one.",
        ),
    ],
)
def test_a_broken_file_says_how_it_is_broken(text, said):
    assert said in complaint(text)


def test_a_cut_file_is_refused_wherever_it_was_cut():
    text = dump_scenario(Scenario()).rstrip()
    for length in range(1, len(text)):
        assert "ends too early" in complaint(text[:length])


def test_many_faults_are_counted_not_listed():
    panels = dict.fromkeys(("count", "in_series", "active_area_cm2", "cells_in_series"), -1)
    text = json.dumps(json.loads("{" + HEAD + "}") | {"panels": panels, "light": panels})
    assert complaint(text).splitlines()[-1] == "orchid.json: 3 more of this kind."


@given(st.text())
def test_no_text_makes_it_fail_otherwise(text):
    with pytest.raises(ScenarioError):
        parse_scenario(text, "x")


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.sampled_from(["kind", "blocks", "phases", "x"]), inner, max_size=3)
        ),
    ),
    st.sampled_from(["light", "light.pattern", "store", "charger", "load.operations", "margins"]),
)
def test_any_json_in_any_section_is_read_or_refused(value, key):
    said = ""
    try:
        parse_scenario(file_with(key, value), "x")
    except ScenarioError as error:
        said = str(error)
    assert not said or f"x: {key}" in said


# --- files that cannot be read ------------------------------------------------------------


def test_a_missing_file_a_folder_and_a_device_are_told_apart(tmp_path):
    with pytest.raises(ScenarioError, match="There is no file"):
        load_scenario(tmp_path / "none.json")
    with pytest.raises(ScenarioError, match="is a folder; a scenario is a file"):
        load_scenario(tmp_path)
    with pytest.raises(ScenarioError, match="is not an ordinary file"):
        load_scenario(os.devnull)
    with pytest.raises(ScenarioError, match="cannot be the name of a file"):
        load_scenario("a\0b")


def test_binary_and_empty_files_are_told_apart(tmp_path):
    path = tmp_path / "x.json"
    for raw in (b"\x89PNG\r\n\x1a\n\0\0", "{}".encode("utf-16"), b"\xff\xfe\xfd"):
        path.write_bytes(raw)
        with pytest.raises(ScenarioError, match="is not a text file in UTF-8"):
            load_scenario(path)
    for raw in (b"", b" \n\n"):
        path.write_bytes(raw)
        with pytest.raises(ScenarioError, match=r"is empty; a scenario was expected"):
            load_scenario(path)


def test_a_huge_file_is_refused_without_being_read(tmp_path):
    path = tmp_path / "huge.json"
    with path.open("wb") as file:
        file.truncate(200 * LIMIT_BYTES)  # sparse: a gigabyte that takes no room
    with pytest.raises(ScenarioError, match=r"holds 1000\.0 MB; a scenario may hold at most 5 MB"):
        load_scenario(path)


# --- older versions -----------------------------------------------------------------------


def test_a_line_of_a_version_1_data_sheet_keeps_the_values_that_it_left_out():
    text = HEAD.replace("3", "1") + ', "panels": {"data_sheet": [{"short_circuit_A": 2.5e-5}]}'
    point = parse_scenario("{" + text + "}", "old.json").panels.data_sheet[0]
    assert (point.open_circuit_V, point.max_power_A, point.max_power_V) == (4.0, 1.6e-5, 3.0)
    new = parse_scenario("{" + text.replace('"version": 1', '"version": 2') + "}", "new.json")
    assert new.panels.data_sheet[0].open_circuit_V is None


def test_a_file_of_version_0_is_understood_and_left_alone(tmp_path):
    path = tmp_path / "old.json"
    path.write_text(OLD_FILE)
    loaded = load_scenario(path)
    assert loaded.migrated_from == 0
    assert get_value(loaded.scenario, "light.illuminance_lx") == 450.0
    assert get_value(loaded.scenario, "panels.count") == 3
    assert path.read_text() == OLD_FILE


def test_an_older_file_is_replaced_only_when_that_was_agreed(tmp_path):
    path = tmp_path / "old.json"
    path.write_text(OLD_FILE)
    scenario = load_scenario(path).scenario
    with pytest.raises(ScenarioError, match="is a scenario of version 0"):
        save_scenario(path, scenario)
    assert path.read_text() == OLD_FILE
    save_scenario(path, scenario, replace_older=True)
    assert load_scenario(path).migrated_from is None


def test_an_old_key_is_not_known_in_a_new_file():
    assert "light.level_lx is not a known key" in complaint(file_with("light.level_lx", 450.0))


# --- saving -------------------------------------------------------------------------------


def test_a_failed_save_leaves_the_old_file_and_no_litter(tmp_path, monkeypatch):
    path = tmp_path / "kept.json"
    save_scenario(path, Scenario(title="old"))

    def full_disk(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk.os, "fsync", full_disk)
    with pytest.raises(ScenarioError, match="cannot be written: No space left on device"):
        save_scenario(path, Scenario(title="new"))
    assert load_scenario(path).scenario.title == "old"
    assert os.listdir(tmp_path) == ["kept.json"]


def test_saving_keeps_permissions_and_links(tmp_path):
    real, link = tmp_path / "real.json", tmp_path / "link.json"
    save_scenario(real, Scenario())
    real.chmod(0o640)
    link.symlink_to(real)
    save_scenario(link, Scenario(title="through the link"))
    assert link.is_symlink()
    assert load_scenario(real).scenario.title == "through the link"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_saving_to_a_folder_or_into_none_says_so(tmp_path):
    with pytest.raises(ScenarioError, match="is a folder; give the name of a file"):
        save_scenario(tmp_path, Scenario())
    with pytest.raises(ScenarioError, match="there is no folder"):
        save_scenario(tmp_path / "none" / "x.json", Scenario())
    with pytest.raises(ScenarioError, match="cannot be the name of a file"):
        save_scenario("a\0b", Scenario())


# --- the published schema -----------------------------------------------------------------


def test_the_schema_carries_range_label_unit_and_help():
    lux = schema()["$defs"]["Light"]["properties"]["illuminance_lx"]
    assert lux["title"] == "Illuminance"
    assert lux["unit"] == "lx"
    assert "lux meter" in lux["description"]
    assert {"minimum": 1.0, "maximum": 200_000.0, "type": "number"} in lux["anyOf"]
    assert schema()["required"] == ["format", "version"]
    assert schema()["additionalProperties"] is False
