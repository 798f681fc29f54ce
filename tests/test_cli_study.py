"""`gloaming study`, and the commands that take a study in the place of a scenario."""

import json

import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.files import study_results
from explorer.files.scenario_json import save_scenario
from explorer.files.study import load_study
from explorer.files.study_place import NAME
from explorer.scenario.logged_run import Conditions
from explorer.scenario.model import Scenario, with_value

RUN = "time_s,store_V\n" + "".join(f"{60 * i},{4.5 - 0.001 * i:.3f}\n" for i in range(60))


def gloaming(*words):
    return CliRunner().invoke(cli.commands, [str(word) for word in words])


@pytest.fixture(autouse=True)
def no_long_search(monkeypatch):
    """The answers that take a search are told by tests of their own."""
    monkeypatch.setattr(study_results, "reach", lambda _: {})


@pytest.fixture
def folder(tmp_path):
    """Two designs and a logged run, not kept yet."""
    save_scenario(tmp_path / "a.json", Scenario(title="One"))
    save_scenario(tmp_path / "b.json", with_value(Scenario(title="Two"), "panels.count", 4))
    (tmp_path / "run.csv").write_text(RUN, encoding="utf-8")
    return tmp_path


def test_a_study_grows_command_by_command_and_tells_what_comes_of_it(folder):
    study = folder / "study"
    done = gloaming(
        "bench", folder / "a.json", folder / "run.csv", "--light", "dark", "--keep", study
    )
    assert done.exit_code == 0, done.output
    assert f"Written: {study}" in done.output
    (folder / "run.csv").unlink()
    again = gloaming("bench", study, "--json")
    (run,) = json.loads(again.output)["runs"]
    assert run["light_lx"] == 0.0
    assert run["readings"] == 60

    table = study / "size.csv"
    done = gloaming("sweep", study, "--vary", "panels.count=1,2", "--workers", 1, "-o", table)
    assert done.exit_code == 0, done.output
    found = gloaming("study", study, "--design", folder / "b.json")
    assert found.exit_code == 2, found.output
    assert found.output.startswith("One: Falls short.")
    assert "Two: " in found.output
    assert "run.csv: in the dark" in found.output
    assert "size.csv: --vary panels.count=1,2" in found.output
    kept = load_study(study)
    assert kept.story.runs[0].conditions == Conditions(light_lx=0.0)
    assert (kept.sweeps[0].file, kept.sweeps[0].vary) == ("size.csv", ("panels.count=1,2",))


def test_what_is_told_of_kept_runs_goes_over_what_was_kept(folder):
    study = folder / "study"
    gloaming("bench", folder / "a.json", folder / "run.csv", "--keep", study)
    gloaming("bench", study, "--device", "1=20 mA", "--known", "load.sleep_A=1%", "--keep", study)
    story = load_study(study).story
    assert story.runs[0].conditions.current_A == 0.02
    assert story.known == (("load.sleep_A", 0.01),)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("study", "{0}/none"), "Begin one with --from"),
        (("study", "{0}", "--from", "{0}/a.json"), "holds other files"),
        (("study", "{0}/none", "--design", "{0}/a.json"), "Begin one with --from"),
        (("bench", "{0}/a.json"), "holds no logged run"),
        (("bench", "{0}/a.json", "{0}/run.csv", "--keep", "{0}/a.json"), "needs a folder"),
        (("study", "{0}/s", "--from", "{0}/a.json", *(["--design", "{0}/b.json"] * 6)), "take one"),
    ],
)
def test_bad_calls_end_in_a_sentence(folder, words, said):
    done = gloaming(*(word.format(folder) for word in words))
    assert done.exit_code == 3
    assert said in done.output
    assert not (folder / NAME).exists()
