import json

from explorer.scenario.model import Scenario, with_value
from explorer.stand.parked import MOST_KEPT, ParkedScenarios

BASE = Scenario()


def numbered(n):
    return with_value(BASE, "light.illuminance_lx", 100.0 + n)


def test_the_newest_twenty_are_kept_and_come_back_after_a_restart(tmp_path):
    path = tmp_path / "data" / "visitors.json"
    kept = ParkedScenarios(path)
    for n in range(MOST_KEPT + 5):
        kept.park(numbered(n), "Runs")
    again = ParkedScenarios(path)
    assert len(again.items) == 20
    assert again.items[0].scenario == numbered(24)
    assert again.items[-1].scenario == numbered(5)
    assert again.items == kept.items
    assert not again.problems


def test_each_has_a_time_stamp_with_its_offset(parked, kept):
    parked.park(numbered(1), "Marginal")
    (row,) = kept()["parked"]
    assert row["saved_at"] == "2025-05-04T12:00:00+00:00"
    assert row["word"] == "Marginal"


def test_one_damaged_entry_leaves_the_others(tmp_path):
    path = tmp_path / "visitors.json"
    ParkedScenarios(path).park(numbered(1), "Runs")
    data = json.loads(path.read_text(encoding="utf-8"))
    data["parked"] += [{"saved_at": "x"}, {"saved_at": "x", "word": "y", "scenario": {"a": 1}}, 7]
    path.write_text(json.dumps(data), encoding="utf-8")
    found = ParkedScenarios(path)
    assert [item.scenario for item in found.items] == [numbered(1)]
    assert len(found.problems) == 3


def test_a_file_that_is_none_is_set_aside_not_overwritten(tmp_path):
    path = tmp_path / "visitors.json"
    path.write_text("precious but not ours")
    found = ParkedScenarios(path)
    assert found.items == ()
    assert "visitors.unreadable.json" in found.problems[0]
    found.park(numbered(1), "Runs")
    assert (tmp_path / "visitors.unreadable.json").read_text() == "precious but not ours"
    assert len(ParkedScenarios(path).items) == 1


def test_a_disk_that_refuses_is_a_message_and_the_stand_goes_on(tmp_path):
    (tmp_path / "file").write_text("")
    kept = ParkedScenarios(tmp_path / "file" / "visitors.json")
    kept.park(numbered(1), "Runs")
    assert "could not be kept" in kept.problems[0]
    assert len(kept.items) == 1


def test_the_operator_can_forget_all(tmp_path):
    kept = ParkedScenarios(tmp_path / "visitors.json")
    kept.park(numbered(1), "Runs")
    kept.clear()
    assert ParkedScenarios(tmp_path / "visitors.json").items == ()
