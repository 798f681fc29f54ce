from explorer.files.scenario_json import dump_scenario
from explorer.scenario.light import Light, LogPattern
from explorer.scenario.model import Scenario
from explorer.stand.exhibits import load_exhibits


def test_wrong_files_are_left_out_with_a_reason_and_the_rest_is_shown(tmp_path):
    own = tmp_path / "own.json"
    own.write_text(dump_scenario(Scenario(title="Window sill")), encoding="utf-8")
    broken = tmp_path / "broken.json"
    broken.write_text('{"format": "gloaming-scenario", "version": 1, "panels": {"count": 0}}')
    newer = tmp_path / "newer.json"
    newer.write_text('{"format": "gloaming-scenario", "version": 99}')
    no_log = tmp_path / "no_log.json"
    no_log.write_text(
        dump_scenario(Scenario(light=Light(pattern=LogPattern(file="lost.csv")))), encoding="utf-8"
    )
    names = ["bundled:plant_label", str(broken), str(newer), str(no_log), str(tmp_path / "gone")]
    found = load_exhibits([*names, str(own), "bundled:nothing", str(tmp_path)])
    assert [e.title for e in found.exhibits] == ["Plant label in the fern house", "Window sill"]
    assert len(found.problems) == 6
    named = ("broken", "newer", "lost.csv", "gone", "nothing", "folder")
    for name, problem in zip(named, found.problems, strict=True):
        assert name in problem
        assert problem.startswith("Left out: ")


def test_cards_know_the_verdict_they_start_with():
    found = load_exhibits(["bundled:plant_label", "bundled:door_counter"]).exhibits
    assert [e.state for e in found] == ["runs", "falls_short"]
